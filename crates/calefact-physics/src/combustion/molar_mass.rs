//! Molar masses in kg/mol (IUPAC conventional atomic masses C 12.011, H 1.008, O 15.999, S 32.06, N 14.007).

pub(super) const C: f64 = 12.011e-3;
pub(super) const H2: f64 = 2.016e-3;
pub(super) const O2: f64 = 31.998e-3;
pub(super) const S: f64 = 32.06e-3;
pub(super) const N2: f64 = 28.014e-3;
pub(super) const H2O: f64 = 18.015e-3;
/// All of dry air but its oxygen: nitrogen with the argon that goes with it (28.15, combustion handbooks).
pub(super) const ATMOSPHERIC_N2: f64 = 28.15e-3;
