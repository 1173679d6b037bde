//! How much correlated readings are worth, for a first-order autoregression with correlation rho between neighbours.

use nalgebra::DMatrix;

/// n Var(mean) / sigma^2 = 1 + 2 sum (1 - k/n) rho^k, k = 1..n-1, in closed form: (1 + rho)/(1 - rho) - 2 rho (1 -
/// rho^n)/(n (1 - rho)^2) (Bayley and Hammersley 1946).
fn mean_variance_factor(n: usize, rho: f64) -> f64 {
    let (n, gap) = (n as f64, 1.0 - rho);
    if gap.abs() < 1e-9 {
        return n;
    }
    (1.0 + rho) / gap - 2.0 * rho * (1.0 - rho.powf(n)) / (n * gap * gap)
}

/// Effective number of independent readings for the mean of `n` readings: n / the factor above.
pub fn effective_sample_size(n: usize, rho: f64) -> f64 {
    n as f64 / mean_variance_factor(n, rho)
}

/// By how much each parameter's variance grows from one covariance to another: ratio of the diagonals.
pub fn variance_inflation(classical: &DMatrix<f64>, robust: &DMatrix<f64>) -> Vec<f64> {
    robust.diagonal().iter().zip(classical.diagonal().iter()).map(|(r, c)| r / c).collect()
}
