//! Looking for the fire in a log: its strength over time and its phases.

use super::phase::{FEW, Phase, PhaseKind, Phases};
use super::{cut, strength};
use crate::series::Series;
use calefact_data::Readings;

/// The fire as a log shows it, found once a burn.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Fire {
    /// Strength of the fire over time as (s, share of the plateau), on a grid of at most a few hundred points; empty with
    /// too few readings.
    pub(crate) strength: Vec<(f64, f64)>,
    /// Width over which it is smoothed, s.
    pub(crate) width: f64,
    /// The phases, where the log shows them.
    certain: Option<Phases>,
}

impl Fire {
    /// Looks for the fire in a log. `loss_rate` is UA / C, 1/s, 0 where unknown.
    pub(crate) fn find(readings: &Readings, series: &Series, loss_rate: f64) -> Self {
        let (Some(&first), Some(&last)) = (series.t.first(), series.t.last()) else { return Self::default() };
        if series.len() < FEW {
            return Self::default();
        }
        let found = strength::strength(readings, series, loss_rate);
        let segments = cut::cut(&found, readings, (first, last));
        let certain = segments.map(|segments| Phases { segments, certain: true });
        let width = found.width;
        Self { width, strength: found.t.into_iter().zip(found.s).collect(), certain }
    }

    /// Start and end of the steady part, s, where the log can tell it.
    pub(crate) fn steady(&self) -> Option<(f64, f64)> {
        self.certain.as_ref()?.steady()
    }

    /// The phases of the burn; where the log does not show them the heat is taken to arrive `delay` s after the first reading.
    /// Empty with fewer than two tank readings.
    pub(crate) fn phases(&self, readings: &Readings, series: &Series, delay: f64) -> Phases {
        let (Some(&first), Some(&last)) = (series.t.first(), series.t.last()) else { return Phases::default() };
        if series.len() < 2 {
            return Phases::default();
        }
        self.certain.clone().unwrap_or_else(|| few(readings, (first, last), delay))
    }
}

/// Too few readings, or no plateau: everything from the arrival of heat to the end of the fire is steady.
fn few(readings: &Readings, log: (f64, f64), delay: f64) -> Phases {
    let arrival = log.0 + if delay.is_finite() { delay.clamp(0.0, 0.5 * (log.1 - log.0)) } else { 0.0 };
    let out = crate::window::fire_out(readings).filter(|t| *t > arrival).unwrap_or(log.1);
    let all = [(PhaseKind::Start, log.0, arrival), (PhaseKind::Steady, arrival, out), (PhaseKind::After, out, log.1)];
    let keep = |&(_, start, end): &(PhaseKind, f64, f64)| end > start;
    let segments = all.into_iter().filter(keep).map(|(kind, start, end)| Phase { kind, start, end }).collect();
    Phases { segments, certain: false }
}
