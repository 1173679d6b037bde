//! Power of t tests from the noncentral t distribution (Cohen 1988, Statistical Power Analysis, 2.5).

use crate::dist::t_quantile;
use crate::special::noncentral_t::noncentral_t_cdf;
use serde::Serialize;

/// Which departures count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tails {
    /// Either sign.
    Two,
    /// Above zero only.
    Upper,
}

/// Probability that |t| (or t) exceeds its critical value at `alpha` when the true effect is `delta` standard uncertainties:
/// 1 - F(t_c; nu, delta) (+ F(-t_c; nu, delta) for two tails).
pub fn t_power(delta: f64, dof: f64, alpha: f64, tails: Tails) -> f64 {
    match tails {
        Tails::Upper => 1.0 - noncentral_t_cdf(t_quantile(1.0 - alpha, dof), dof, delta),
        Tails::Two => {
            let critical = t_quantile(1.0 - 0.5 * alpha, dof);
            1.0 - noncentral_t_cdf(critical, dof, delta) + noncentral_t_cdf(-critical, dof, delta)
        }
    }
}

/// Power of the pooled two-sample t test for a true difference of `d` standard deviations, n_a and n_b trials (whole or
/// not): delta = d / sqrt(1/n_a + 1/n_b), n_a + n_b - 2 degrees of freedom.
pub fn two_sample_power(d: f64, n_a: f64, n_b: f64, alpha: f64, tails: Tails) -> f64 {
    t_power(d / (1.0 / n_a + 1.0 / n_b).sqrt(), n_a + n_b - 2.0, alpha, tails)
}

/// Power of the one-sample (or paired) t test for a true mean of `d` standard deviations: delta = d sqrt n.
pub fn one_sample_power(d: f64, n: f64, alpha: f64, tails: Tails) -> f64 {
    t_power(d * n.sqrt(), n - 1.0, alpha, tails)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R package pwr, as stored in statsmodels' tests.
    #[test]
    fn r_pwr() {
        for (got, want) in [
            (two_sample_power(1.0, 30.0, 30.0, 0.05, Tails::Two), 0.967_708_258_242_517),
            (two_sample_power(1.0, 30.0, 30.0, 0.05, Tails::Upper), 0.985_459_690_251_624),
            (two_sample_power(0.1, 20.0, 20.0, 0.05, Tails::Two), 0.060_959_124_654_112_35),
            (two_sample_power(0.01, 30.0, 30.0, 0.05, Tails::Upper), 0.054_074_030_283_566_7),
            (two_sample_power(0.1, 20.0, 30.0, 0.05, Tails::Two), 0.063_308_183_256_466_7),
            (one_sample_power(1.0, 30.0, 0.05, Tails::Two), 0.999_563_600_961_272_5),
            (one_sample_power(0.2, 20.0, 0.05, Tails::Two), 0.135_956_288_767_966_6),
        ] {
            assert!((got - want).abs() < 1e-9, "{got} {want}");
        }
    }
}
