//! The runs test of randomness (Wald and Wolfowitz 1940): too few runs of one sign mean a curve of the wrong shape or
//! correlated errors.

use crate::dist::normal_cdf;

/// Result of the runs test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunsTest {
    /// Number of runs of equal sign.
    pub runs: usize,
    /// Values above zero.
    pub positive: usize,
    /// Values below zero; zeros themselves are left out.
    pub negative: usize,
    /// Expected number of runs, 1 + 2 n1 n2 / n.
    pub expected: f64,
    /// Probability of as few runs or fewer if signs fall at random.
    pub p_few: f64,
    /// Two-sided p-value, twice the smaller tail and at most one.
    pub p_value: f64,
    /// Whether the p-values are exact or from the normal approximation with continuity correction.
    pub exact: bool,
}

/// Above this many values the normal approximation serves; its error there is below 0.002.
const EXACT_UP_TO: usize = 200;

/// Runs test of the signs of `residuals` in time order. `None` unless both signs occur.
pub fn runs_test(residuals: &[f64]) -> Option<RunsTest> {
    let signs: Vec<bool> = residuals.iter().filter(|r| r.abs() > 0.0).map(|r| *r > 0.0).collect();
    let positive = signs.iter().filter(|s| **s).count();
    let negative = signs.len() - positive;
    if positive == 0 || negative == 0 {
        return None;
    }
    let runs = 1 + signs.windows(2).filter(|w| w[0] != w[1]).count();
    let (n1, n2) = (positive as f64, negative as f64);
    let expected = 1.0 + 2.0 * n1 * n2 / (n1 + n2);
    let exact = signs.len() <= EXACT_UP_TO;
    let (few, many) =
        if exact { exact_tails(runs, positive, negative) } else { normal_tails(runs as f64, n1, n2, expected) };
    let p_value = (2.0 * few.min(many)).min(1.0);
    Some(RunsTest { runs, positive, negative, expected, p_few: few, p_value, exact })
}

/// P(R <= runs) and P(R >= runs) from the exact distribution (Wald and Wolfowitz 1940, equations 3 and 4):
/// 2 C(n1-1, k-1) C(n2-1, k-1) / C(n, n1) for R = 2k, and the sum of the two mixed products for R = 2k + 1.
fn exact_tails(runs: usize, n1: usize, n2: usize) -> (f64, f64) {
    let ln_total = ln_choose(n1 + n2, n1);
    let product = |a: usize, b: usize| (ln_choose(n1 - 1, a) + ln_choose(n2 - 1, b) - ln_total).exp();
    let probability = |r: usize| {
        let k = r / 2;
        if r.is_multiple_of(2) { 2.0 * product(k - 1, k - 1) } else { product(k, k - 1) + product(k - 1, k) }
    };
    let most = n1 + n2;
    let few = (2..=runs).map(probability).sum();
    let many = (runs..=most).map(probability).sum();
    (few, many)
}

/// ln of the binomial coefficient; minus infinity where it is zero.
fn ln_choose(n: usize, k: usize) -> f64 {
    if k > n {
        return f64::NEG_INFINITY;
    }
    statrs::function::factorial::ln_binomial(n as u64, k as u64)
}

/// Normal tails with mean `expected` and variance 2 n1 n2 (2 n1 n2 - n) / (n^2 (n - 1)).
fn normal_tails(runs: f64, n1: f64, n2: f64, expected: f64) -> (f64, f64) {
    let (n, twice) = (n1 + n2, 2.0 * n1 * n2);
    let sd = (twice * (twice - n) / (n * n * (n - 1.0))).sqrt();
    (normal_cdf((runs + 0.5 - expected) / sd), normal_cdf((expected - runs + 0.5) / sd))
}
