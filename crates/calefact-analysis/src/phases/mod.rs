//! The phases of a burn, found in its log: start, ramp, steady part, refuelling, burn-down, after-heat.
//!
//! Method. The strength of the fire over time is the mean of what the log shows of it, each scaled to its own plateau:
//! heat flow into the tank (slope of enthalpy plus loss), fall of the flue gas over the exchanger (or the flue's excess
//! over the air), rise of the water in the coil (`strength`). The plateau is the median of the strengths above half of
//! their 95th percentile. The steady part runs from the first to the last time the strength is at or above [`STEADY`] of
//! the plateau; the ramp begins, and the burn-down ends, where it passes [`SOME`] of it. A `fuel_added` cell or a
//! refuelling `event` inside the steady part begins a refuelling, which lasts until the strength is back; an event `fire
//! out` ends the burn-down (`cut`). With fewer than [`FEW`] readings no shape can be told: all of the log after the
//! heat arrives is taken as steady, and marked as not certain. Thresholds are common practice, no source.

mod cut;
mod strength;

use calefact_data::Readings;
use serde::Serialize;

use crate::series::Series;

/// Share of the plateau from which a fire counts as steady.
pub const STEADY: f64 = 0.8;
/// Share of the plateau from which heat counts as arriving.
pub const SOME: f64 = 0.1;
/// Fewest tank readings from which phases are told apart.
pub const FEW: usize = 12;

/// What the fire does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PhaseKind {
    /// Lit, but no heat arrives yet.
    Start,
    /// Heat rises to its plateau.
    Ramp,
    /// On the plateau.
    Steady,
    /// Fuel was put on; part of the steady part.
    Refuel,
    /// Heat falls from the plateau.
    BurnDown,
    /// Fire out, after-heat, cooling.
    After,
}

/// One stretch of a burn.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Phase {
    /// What the fire does.
    pub kind: PhaseKind,
    /// Start, s since the first reading.
    pub start: f64,
    /// End, s.
    pub end: f64,
}

/// The phases of a burn in order; together they cover the log.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Phases {
    /// Stretches in order, each beginning where the last one ends.
    pub segments: Vec<Phase>,
    /// Whether the readings are enough to tell phases apart.
    pub certain: bool,
}

/// What a log shows of its fire, found once a burn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Fire {
    /// Strength of the fire over time as (s, share of the plateau), on a grid of at most a few hundred points; empty with
    /// too few readings.
    pub strength: Vec<(f64, f64)>,
    /// The phases, where they can be told.
    certain: Option<Phases>,
}

impl Fire {
    /// Looks for the fire in a log. `loss_rate` is UA / C, 1/s, 0 where unknown.
    pub fn find(readings: &Readings, series: &Series, loss_rate: f64) -> Self {
        let (Some(&first), Some(&last)) = (series.t.first(), series.t.last()) else { return Self::default() };
        if series.len() < FEW {
            return Self::default();
        }
        let found = strength::of(readings, series, loss_rate);
        let segments = cut::cut(&found, readings, (first, last));
        let certain = segments.map(|segments| Phases { segments, certain: true });
        Self { strength: found.t.into_iter().zip(found.s).collect(), certain }
    }

    /// Start and end of the steady part, s, where the log can tell it.
    pub fn steady(&self) -> Option<(f64, f64)> {
        self.certain.as_ref()?.steady()
    }

    /// The phases of the burn; where they cannot be told the heat is taken to arrive `delay` s after the first reading.
    /// Empty with fewer than two tank readings.
    pub fn phases(&self, readings: &Readings, series: &Series, delay: f64) -> Phases {
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

impl Phases {
    /// Start and end of the steady part, refuellings inside it included, s.
    pub fn steady(&self) -> Option<(f64, f64)> {
        let part = |p: &&Phase| matches!(p.kind, PhaseKind::Steady | PhaseKind::Refuel);
        let first = self.segments.iter().find(part)?;
        let last = self.segments.iter().rev().find(part)?;
        Some((first.start, last.end))
    }

    /// The steady part in words: "steady part, 12 to 85 min".
    pub fn words(&self) -> String {
        let Some((start, end)) = self.steady() else { return "no steady part found".into() };
        let range = format!("{:.0} to {:.0} min", start / 60.0, end / 60.0);
        if self.certain {
            format!("steady part, {range}")
        } else {
            format!("steady (too few readings to tell), {range}")
        }
    }
}

#[cfg(test)]
mod tests;
