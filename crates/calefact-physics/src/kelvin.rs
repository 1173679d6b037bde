//! The offset between the two scales of temperature, nothing else.

/// Zero of the Celsius scale in kelvins (ITS-90, exact).
pub(crate) const ZERO_C: f64 = 273.15;
