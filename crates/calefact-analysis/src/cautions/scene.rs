//! The burn that cautions look at: its log with its place.

use calefact_data::{Readings, RegisterRow};
use calefact_physics::air;

use crate::phases::SteadyPart;
use crate::series::Series;

/// A burn's log with its place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scene<'a> {
    /// Register row.
    pub(crate) row: &'a RegisterRow,
    /// Log.
    pub(crate) readings: &'a Readings,
    /// Tank curve.
    pub(crate) series: &'a Series,
    /// Altitude, m, if known.
    pub(crate) altitude: Option<f64>,
    /// The steady part.
    pub(crate) steady: Option<SteadyPart>,
}

impl Scene<'_> {
    /// Boiling point of the place, degC.
    pub(super) fn boiling(&self) -> f64 {
        air::boiling_point(self.altitude.unwrap_or(0.0))
    }

    /// Highest tank temperature, degC.
    pub(super) fn hottest_tank(&self) -> f64 {
        self.series.tank.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// Whether the water's use contains one of some words: the register says it in a column `use`, else the vessel's id.
    pub(super) fn is_used_as(&self, words: &[&str]) -> bool {
        let used = self.row.extra.get("use").unwrap_or(&self.row.vessel).to_lowercase();
        words.iter().any(|word| used.contains(word))
    }
}
