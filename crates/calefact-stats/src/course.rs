//! Residuals about a polynomial without its coefficients: the quick way to take a slow course out of readings.

use std::array::from_fn;

/// Residuals about a least-squares polynomial.
#[derive(Debug, Clone, PartialEq)]
pub struct AboutPolynomial {
    /// Residuals in the order of the observations.
    pub residuals: Vec<f64>,
    /// Residual standard deviation, sqrt(rss / (n - degree - 1)).
    pub residual_sd: f64,
}

/// Polynomials orthogonal over some points themselves (Forsythe 1957, J. SIAM 5:74): one pass over the points for each
/// degree, no matrix. They serve any number of series at the same points.
#[derive(Debug, Clone, PartialEq)]
pub struct OrthogonalPolynomials {
    /// Values at the points, by degree, with their sum of squares.
    values: Vec<(Vec<f64>, f64)>,
}

impl OrthogonalPolynomials {
    /// Polynomials up to a degree. Best with `x` between about -2 and 2. `None` unless there are more distinct finite
    /// points than coefficients.
    pub fn new(x: &[f64], degree: usize) -> Option<Self> {
        let n = x.len();
        if n < degree + 2 {
            return None;
        }
        let (mut now, mut before) = (vec![1.0; n], vec![0.0; n]);
        let (mut values, mut norm_before) = (Vec::with_capacity(degree + 1), f64::INFINITY);
        for _ in 0..=degree {
            let [norm, centre] = sums(&now, x, |p, x| [p * p, x * p * p]);
            if norm.is_nan() || norm <= 1e-24 * n as f64 {
                return None;
            }
            let (centre, carried) = (centre / norm, norm / norm_before);
            for ((q, p), x) in before.iter_mut().zip(&now).zip(x) {
                *q = (x - centre) * p - carried * *q;
            }
            values.push((now.clone(), norm));
            (now, before) = (before, now);
            norm_before = norm;
        }
        Some(Self { values })
    }

    /// Residuals of `y` about its least-squares polynomial; `None` where a value is not finite or the number of values is
    /// not that of the points.
    pub fn about(&self, y: &[f64]) -> Option<AboutPolynomial> {
        let (n, coefficients) = (self.values.first()?.0.len(), self.values.len());
        let mut residuals = y.to_vec();
        for (p, norm) in self.values.iter().filter(|_| y.len() == n) {
            let [along] = sums(p, &residuals, |p, r| [p * r]);
            let share = along / norm;
            residuals.iter_mut().zip(p).for_each(|(r, p)| *r -= share * p);
        }
        let [rss] = sums(&residuals, &residuals, |r, _| [r * r]);
        let residual_sd = (rss / (n - coefficients) as f64).sqrt();
        (y.len() == n && rss.is_finite()).then_some(AboutPolynomial { residuals, residual_sd })
    }
}

/// Sums that are kept side by side, so that one addition need not wait for the last.
const LANES: usize = 4;

/// Sums of some terms of two columns.
fn sums<const N: usize>(a: &[f64], b: &[f64], terms: impl Fn(f64, f64) -> [f64; N]) -> [f64; N] {
    let mut lanes = [[0.0; LANES]; N];
    let ((a, a_rest), (b, b_rest)) = (a.as_chunks::<LANES>(), b.as_chunks::<LANES>());
    for (a, b) in a.iter().zip(b) {
        let terms: [[f64; N]; LANES] = from_fn(|k| terms(a[k], b[k]));
        lanes.iter_mut().enumerate().for_each(|(i, lane)| (0..LANES).for_each(|k| lane[k] += terms[k][i]));
    }
    for (a, b) in a_rest.iter().zip(b_rest) {
        let terms = terms(*a, *b);
        lanes.iter_mut().enumerate().for_each(|(i, lane)| lane[0] += terms[i]);
    }
    lanes.map(|lane| lane.iter().sum())
}
