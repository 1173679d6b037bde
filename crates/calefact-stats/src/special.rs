//! Regularised incomplete beta and gamma functions, built on `libm` so that every machine gives the same digits: statistics
//! libraries call the logarithm and exponential of the platform.
//!
//! Algorithms: continued fractions by Lentz's method and the series of the incomplete gamma function (Press et al. 2007,
//! Numerical Recipes, 6.2 and 6.4; Abramowitz & Stegun 6.5.29, 6.5.31, 26.5.8).

use libm::{exp, lgamma, log, log1p};

/// Terms after which a fraction or series is taken as it stands; they converge in some ten times the root of the larger
/// argument at most.
const TERMS: u32 = 10_000;

/// ln B(a, b) = ln Gamma(a) + ln Gamma(b) - ln Gamma(a + b).
pub(crate) fn ln_beta(a: f64, b: f64) -> f64 {
    lgamma(a) + lgamma(b) - lgamma(a + b)
}

/// I_x(a, b) for a, b > 0 and x in 0..1.
pub(crate) fn beta_regularized(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 || x >= 1.0 {
        return x.clamp(0.0, 1.0);
    }
    let front = exp(a * log(x) + b * log1p(-x) - ln_beta(a, b));
    // The fraction converges fast below the mean of the beta distribution; above it the other tail is taken.
    if x < (a + 1.0) / (a + b + 2.0) {
        front * beta_fraction(a, b, x) / a
    } else {
        1.0 - front * beta_fraction(b, a, 1.0 - x) / b
    }
}

fn beta_fraction(a: f64, b: f64, x: f64) -> f64 {
    let terms = (1..=TERMS).flat_map(|m| {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        [(even, 1.0), (odd, 1.0)]
    });
    let first = (-(a + b) * x / (a + 1.0), 1.0);
    lentz(1.0, std::iter::once(first).chain(terms)).recip()
}

/// P(a, x), the lower incomplete gamma function over Gamma(a), and Q = 1 - P, each without cancellation.
pub(crate) fn gamma_regularized(a: f64, x: f64) -> (f64, f64) {
    if x <= 0.0 {
        return (0.0, 1.0);
    }
    let front = exp(a * log(x) - x - lgamma(a));
    if x < a + 1.0 {
        let lower = front * gamma_series(a, x);
        (lower, 1.0 - lower)
    } else {
        let terms = (1..=TERMS).map(|i| (-f64::from(i) * (f64::from(i) - a), x + 2.0 * f64::from(i) + 1.0 - a));
        let upper = front / lentz(x + 1.0 - a, terms);
        (1.0 - upper, upper)
    }
}

/// Sum of x^n / (a (a + 1) ... (a + n)).
fn gamma_series(a: f64, x: f64) -> f64 {
    let (mut term, mut sum) = (1.0 / a, 1.0 / a);
    for n in 1..=TERMS {
        term *= x / (a + f64::from(n));
        sum += term;
        if term < sum * f64::EPSILON {
            break;
        }
    }
    sum
}

/// The continued fraction b0 + a1 / (b1 + a2 / (b2 + ...)) of terms (a, b), by the modified method of Lentz.
fn lentz(b0: f64, terms: impl Iterator<Item = (f64, f64)>) -> f64 {
    let nonzero = |v: f64| if v.abs() < f64::MIN_POSITIVE { f64::MIN_POSITIVE } else { v };
    let (mut value, mut c, mut d) = (nonzero(b0), nonzero(b0), 0.0);
    for (a, b) in terms {
        d = nonzero(b + a * d).recip();
        c = nonzero(b + a / c);
        value *= c * d;
        if (c * d - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(got: f64, want: f64, rel: f64) {
        assert!((got - want).abs() <= rel * want.abs(), "got {got:e}, want {want:e}");
    }

    /// Closed forms: I_x(1, b) = 1 - (1 - x)^b, I_x(a, 1) = x^a, I_x(2, 2) = x^2 (3 - 2 x), I_x(1/2, 1/2) = (2 / pi) asin sqrt x.
    #[test]
    fn beta_in_closed_form() {
        for x in [0.01, 0.3, 0.5, 0.77, 0.99] {
            close(beta_regularized(1.0, 2.5, x), 1.0 - libm::pow(1.0 - x, 2.5), 1e-13);
            close(beta_regularized(3.5, 1.0, x), libm::pow(x, 3.5), 1e-13);
            close(beta_regularized(2.0, 2.0, x), x * x * (3.0 - 2.0 * x), 1e-14);
            close(beta_regularized(0.5, 0.5, x), 2.0 / std::f64::consts::PI * libm::asin(x.sqrt()), 1e-13);
        }
        assert_eq!((beta_regularized(2.0, 3.0, 0.0), beta_regularized(2.0, 3.0, 1.0)), (0.0, 1.0));
    }

    /// Closed forms: Q(1, x) = e^-x, Q(2, x) = (1 + x) e^-x, P(1/2, x) = erf sqrt x.
    #[test]
    fn gamma_in_closed_form() {
        for x in [1e-3, 0.5, 1.4, 2.9, 30.0, 600.0] {
            close(gamma_regularized(1.0, x).1, exp(-x), 1e-13);
            close(gamma_regularized(2.0, x).1, (1.0 + x) * exp(-x), 1e-12);
            close(gamma_regularized(0.5, x).0, libm::erf(x.sqrt()), 1e-13);
            close(gamma_regularized(0.5, x).1, libm::erfc(x.sqrt()), 2e-12);
        }
        assert_eq!(gamma_regularized(3.0, 0.0), (0.0, 1.0));
    }

    #[test]
    fn beta_of_whole_numbers_is_a_fraction() {
        close(ln_beta(3.0, 4.0), log(1.0 / 60.0), 1e-14);
    }
}
