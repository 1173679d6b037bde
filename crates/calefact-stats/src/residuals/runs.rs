//! The runs test of randomness (Wald and Wolfowitz 1940): too few runs of one sign mean a curve of the wrong shape or
//! correlated errors.

use crate::dist::normal_cdf;
use libm::{exp, lgamma};

/// Above this many values the normal approximation serves; its error there is below 0.002.
const EXACT_UP_TO: usize = 200;

/// Probability that signs which fall at random make as few runs as those of `residuals` in time order, or fewer; zeros are
/// left out. `None` unless both signs occur.
pub fn few_runs_p(residuals: &[f64]) -> Option<f64> {
    let signs: Vec<bool> = residuals.iter().filter(|r| r.abs() > 0.0).map(|r| *r > 0.0).collect();
    let positive = signs.iter().filter(|s| **s).count();
    let negative = signs.len() - positive;
    let runs = 1 + signs.windows(2).filter(|w| w[0] != w[1]).count();
    let tail = if signs.len() <= EXACT_UP_TO { exact_tail } else { normal_tail };
    (positive > 0 && negative > 0).then(|| tail(runs, positive, negative))
}

/// P(R <= runs) from the exact distribution (Wald and Wolfowitz 1940, equations 3 and 4): 2 C(n1-1, k-1) C(n2-1, k-1) /
/// C(n, n1) for R = 2k, and the sum of the two mixed products for R = 2k + 1.
fn exact_tail(runs: usize, n1: usize, n2: usize) -> f64 {
    let ln_total = ln_choose(n1 + n2, n1);
    let product = |a: usize, b: usize| exp(ln_choose(n1 - 1, a) + ln_choose(n2 - 1, b) - ln_total);
    let probability = |r: usize| {
        let k = r / 2;
        if r.is_multiple_of(2) { 2.0 * product(k - 1, k - 1) } else { product(k, k - 1) + product(k - 1, k) }
    };
    (2..=runs).map(probability).sum()
}

/// ln of the binomial coefficient; minus infinity where it is zero.
fn ln_choose(n: usize, k: usize) -> f64 {
    if k > n {
        return f64::NEG_INFINITY;
    }
    let ln_factorial = |n: usize| lgamma(n as f64 + 1.0);
    ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k)
}

/// Normal tail with continuity correction: mean 1 + 2 n1 n2 / n, variance 2 n1 n2 (2 n1 n2 - n) / (n^2 (n - 1)).
fn normal_tail(runs: usize, n1: usize, n2: usize) -> f64 {
    let (n, twice) = ((n1 + n2) as f64, 2.0 * n1 as f64 * n2 as f64);
    let sd = (twice * (twice - n) / (n * n * (n - 1.0))).sqrt();
    normal_cdf((runs as f64 + 0.5 - 1.0 - twice / n) / sd)
}
