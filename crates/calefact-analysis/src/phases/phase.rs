//! The phases of a burn as values, and the thresholds that part them.

use serde::Serialize;

/// Share of the plateau from which a fire counts as steady.
pub(super) const STEADY: f64 = 0.8;
/// Share of the plateau from which heat counts as arriving.
pub(super) const SOME: f64 = 0.1;
/// Fewest tank readings from which phases are told apart.
pub(super) const FEW: usize = 12;

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

/// The steady part of a burn, refuellings inside it included.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SteadyPart {
    /// Start since the first reading.
    pub start_s: f64,
    /// End.
    pub end_s: f64,
    /// Whether the readings are enough to tell it from ramp and burn-down.
    pub certain: bool,
}

impl Phases {
    /// Start and end of the steady part, refuellings inside it included, s.
    pub fn steady(&self) -> Option<(f64, f64)> {
        let part = |p: &&Phase| matches!(p.kind, PhaseKind::Steady | PhaseKind::Refuel);
        let first = self.segments.iter().find(part)?;
        let last = self.segments.iter().rev().find(part)?;
        Some((first.start, last.end))
    }

    /// The steady part with whether it is certain.
    pub fn steady_part(&self) -> Option<SteadyPart> {
        self.steady().map(|(start_s, end_s)| SteadyPart { start_s, end_s, certain: self.certain })
    }
}
