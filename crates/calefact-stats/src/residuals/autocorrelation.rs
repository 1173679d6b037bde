//! How much correlated readings are worth, for a first-order autoregression with correlation rho between neighbours.

/// Effective number of independent readings for the mean of `n` readings: n / (n Var(mean) / sigma^2) with
/// n Var(mean) / sigma^2 = 1 + 2 sum (1 - k/n) rho^k, k = 1..n-1, in closed form (1 + rho)/(1 - rho) - 2 rho
/// (1 - rho^n)/(n (1 - rho)^2) (Bayley and Hammersley 1946, J. R. Statist. Soc. Suppl. 8:184).
pub fn effective_sample_size(n: usize, rho: f64) -> f64 {
    let (n, gap) = (n as f64, 1.0 - rho);
    if gap.abs() < 1e-9 {
        return 1.0;
    }
    n / ((1.0 + rho) / gap - 2.0 * rho * (1.0 - libm::pow(rho, n)) / (n * gap * gap))
}
