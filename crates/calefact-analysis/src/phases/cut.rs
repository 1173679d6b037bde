//! From the strength of the fire to phases.

use super::phase::{Phase, PhaseKind, SOME, STEADY};
use super::strength::Strength;
use calefact_data::{Channel, Readings};

/// A refuelling is over when the strength is back at this share of the plateau, or after [`LONGEST`].
const BACK: f64 = 0.95;
/// Longest refuelling, s.
const LONGEST: f64 = 1500.0;

/// The phases of a log from `log.0` to `log.1`; `None` where the strength has no plateau.
pub(super) fn cut(strength: &Strength, readings: &Readings, log: (f64, f64)) -> Option<Vec<Phase>> {
    let steady = (strength.rise(STEADY, 0)?, strength.fall(STEADY)?);
    if steady.1 <= steady.0 {
        return None;
    }
    let arrival = strength.rise(SOME, 0)?.min(steady.0);
    let fire_out = crate::window::fire_out(readings).filter(|t| *t >= steady.1);
    let gone = fire_out.unwrap_or_else(|| strength.fall(SOME).unwrap_or(log.1)).max(steady.1);
    let mut segments = vec![(PhaseKind::Start, log.0, arrival), (PhaseKind::Ramp, arrival, steady.0)];
    let mut from = steady.0;
    for at in refuellings(readings, steady) {
        if at >= from {
            let end = strength.back(at).min(steady.1);
            segments.extend([(PhaseKind::Steady, from, at), (PhaseKind::Refuel, at, end)]);
            from = end;
        }
    }
    segments.extend([(PhaseKind::Steady, from, steady.1), (PhaseKind::BurnDown, steady.1, gone)]);
    segments.push((PhaseKind::After, gone, log.1));
    let keep = segments.into_iter().filter(|(_, start, end)| end > start);
    Some(keep.map(|(kind, start, end)| Phase { kind, start, end }).collect())
}

/// Times at which fuel was put on after the start of the steady part and before its end.
fn refuellings(readings: &Readings, steady: (f64, f64)) -> Vec<f64> {
    let mut rows: Vec<usize> = Vec::new();
    if let Some(added) = readings.channel(Channel::FuelAdded) {
        rows.extend((0..added.len()).filter(|&i| added[i] > 0.0));
    }
    rows.extend(readings.events.iter().filter(|e| names_refuelling(&e.text)).map(|e| e.row));
    let mut times: Vec<f64> = rows.iter().filter_map(|&i| readings.elapsed_s.get(i).copied()).collect();
    times.retain(|t| *t > steady.0 && *t < steady.1);
    times.sort_by(f64::total_cmp);
    times.dedup();
    times
}

/// Whether the text of an event means that fuel was put on.
fn names_refuelling(text: &str) -> bool {
    let text = text.to_lowercase();
    ["refuel", "re-fuel", "reload", "restock", "fuel added", "added fuel", "wood added", "added wood", "put on"]
        .iter()
        .any(|word| text.contains(word))
}

impl Strength {
    /// First time at or above a share, interpolated, from grid point `from` on.
    fn rise(&self, share: f64, from: usize) -> Option<f64> {
        let i = (from..self.s.len()).find(|&i| self.s[i] >= share)?;
        Some(if i == from { self.t[i] } else { self.cross(i - 1, share) })
    }

    /// Last time at or above a share, interpolated.
    fn fall(&self, share: f64) -> Option<f64> {
        let i = (0..self.s.len()).rev().find(|&i| self.s[i] >= share)?;
        Some(if i + 1 == self.s.len() { self.t[i] } else { self.cross(i, share) })
    }

    /// Time between grid points `i` and `i + 1` at which the strength passes a share.
    fn cross(&self, i: usize, share: f64) -> f64 {
        self.t[i] + (self.t[i + 1] - self.t[i]) * (share - self.s[i]) / (self.s[i + 1] - self.s[i])
    }

    /// End of a refuelling that begins at a time: the strength has dipped and is back.
    fn back(&self, at: f64) -> f64 {
        let first = self.t.partition_point(|&t| t < at);
        let soon = self.t.partition_point(|&t| t < at + 0.5 * LONGEST);
        let low = (first..soon).min_by(|&a, &b| self.s[a].total_cmp(&self.s[b]));
        let back = low.filter(|&i| self.s[i] < BACK).and_then(|i| self.rise(BACK, i));
        back.map_or(at + self.width, |t| t.clamp(at, at + LONGEST))
    }
}
