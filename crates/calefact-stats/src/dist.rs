//! Distribution functions, in one place so that their accuracy can be tested in one place.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

/// Quantile of Student's t; `dof` may be infinite (normal quantile).
pub fn t_quantile(p: f64, dof: f64) -> f64 {
    if dof > 1e6 {
        return normal_quantile(p);
    }
    StudentsT::new(0.0, 1.0, dof).map_or(f64::NAN, |d| d.inverse_cdf(p))
}

/// Distribution function of Student's t; `dof` may be infinite.
pub fn t_cdf(x: f64, dof: f64) -> f64 {
    if dof > 1e6 {
        return Normal::standard().cdf(x);
    }
    StudentsT::new(0.0, 1.0, dof).map_or(f64::NAN, |d| d.cdf(x))
}

/// Quantile of the standard normal.
pub fn normal_quantile(p: f64) -> f64 {
    Normal::standard().inverse_cdf(p)
}
