//! How the conductance of a coil in flue gas follows its build and its water flow.
//!
//! The resistance 1/UA of a coil in hot gas lies on the gas side but for a few per cent: gas films pass 20 to 60 W/(m2 K),
//! water in a tube hundreds to thousands (Incropera & DeWitt, table 1.1, from memory). With the share w of the water side,
//!
//! UA'/UA = 1/((1 - w)/(a^m p^k) + w/(a f^0.8)),
//!
//! a, p and f being the ratios of outside area, passes and water flow. The exponents are ranges.

use serde::Serialize;

/// Least and greatest exponent of the area. A longer tube of the same pitch has as much more surface: 1. The gas grows colder
/// and slower along it, radiates less, and finds ways past it (common practice, no source): 0.7.
pub const AREA_EXPONENT: (f64, f64) = (0.7, 1.0);
/// Exponent of the gas flow: cross flow over a cylinder Re^0.466 to Re^0.618 for Re 40 to 40 000 (Hilpert; Incropera & DeWitt,
/// table 7.2), over banks of tubes Re^0.5 to Re^0.63 (Zukauskas; table 7.7; both from memory).
pub const GAS_FLOW_EXPONENT: (f64, f64) = (0.46, 0.64);
/// Exponent of the passes at the same tube length: nothing where passes are only layers of the coil, that of the gas flow where
/// the gas passes as much faster.
pub const PASSES_EXPONENT: (f64, f64) = (0.0, 0.64);
/// Share of the water side in the resistance.
pub const WATER_SHARE: (f64, f64) = (0.0, 0.1);
/// Exponent of the water flow: turbulent flow in a tube, Nu = 0.023 Re^0.8 Pr^0.4 (Dittus and Boelter; Incropera & DeWitt,
/// equation 8.60, from memory).
const WATER_FLOW_EXPONENT: f64 = 0.8;

/// A changed build, as ratios to the one that was measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BuildRatio {
    /// Outside area of the tube.
    pub area: f64,
    /// Number of passes.
    pub passes: f64,
    /// Water flow.
    pub water_flow: f64,
}

/// Exponents by which the conductance follows a change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConductanceLaw {
    /// Exponent of the area on the gas side.
    pub area: f64,
    /// Exponent of the passes on the gas side.
    pub passes: f64,
    /// Share of the water side in the resistance.
    pub water_share: f64,
}

impl ConductanceLaw {
    /// Conductance of the changed build over that of the measured one.
    pub fn ratio(&self, build: &BuildRatio) -> f64 {
        let gas = libm::pow(build.area, self.area) * libm::pow(build.passes, self.passes);
        let water = build.area * libm::pow(build.water_flow, WATER_FLOW_EXPONENT);
        if gas > 0.0 && water > 0.0 { 1.0 / ((1.0 - self.water_share) / gas + self.water_share / water) } else { 0.0 }
    }
}
