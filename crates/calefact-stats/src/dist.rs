//! Distribution functions, in one place so that their accuracy can be tested in one place.
//!
//! The special functions come from `statrs` (regularised incomplete beta and gamma) and `libm` (the error function, of
//! which `statrs` keeps 10 digits). The quantiles of `statrs` lose digits in far tails and at many degrees of freedom, so
//! quantiles are solved here by Newton's method.
//! Degrees of freedom may be any positive number, below 1 too, as the Welch-Satterthwaite formula can give.
//! Studentized range and noncentral t do not live here.

mod chi_squared;
mod fisher;
mod newton;
mod student;

pub use chi_squared::{chi2_cdf, chi2_quantile, chi2_sf};
pub use fisher::{f_cdf, f_quantile, f_sf};
pub use student::{t_cdf, t_quantile, t_sf};

use statrs::distribution::{ContinuousCDF, Normal};

/// Quantile of the standard normal.
pub fn normal_quantile(p: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    Normal::standard().inverse_cdf(p)
}

/// Distribution function of the standard normal, erfc(-x / sqrt 2) / 2 (Abramowitz and Stegun 26.2.29).
pub fn normal_cdf(x: f64) -> f64 {
    0.5 * libm::erfc(-x * std::f64::consts::FRAC_1_SQRT_2)
}

/// Upper tail of the standard normal, without cancellation.
pub fn normal_sf(x: f64) -> f64 {
    normal_cdf(-x)
}

/// Density of the standard normal.
pub fn normal_pdf(x: f64) -> f64 {
    (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt()
}

/// Whether degrees of freedom are a positive number, infinity included; false for NaN.
fn positive(dof: f64) -> bool {
    dof > 0.0
}
