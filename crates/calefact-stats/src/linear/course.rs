//! What a polynomial leaves of a series, without its coefficients: the quick way to take a slow course out of readings.

/// Residuals about a least-squares polynomial.
#[derive(Debug, Clone, PartialEq)]
pub struct AboutPolynomial {
    /// Residuals in the order of the observations.
    pub residuals: Vec<f64>,
    /// Residual standard deviation, sqrt(rss / (n - degree - 1)).
    pub residual_sd: f64,
}

/// Residuals of `y` about its least-squares polynomial in `x`, by polynomials orthogonal over the points themselves
/// (Forsythe 1957, J. SIAM 5:74): one pass over the readings for each degree, no matrix. Best with `x` between about -2 and
/// 2. `None` unless there are more distinct finite points than coefficients.
pub fn about_polynomial(x: &[f64], y: &[f64], degree: usize) -> Option<AboutPolynomial> {
    let n = x.len();
    if n != y.len() || n < degree + 2 {
        return None;
    }
    let mut residuals = y.to_vec();
    let (mut now, mut before) = (vec![1.0; n], vec![0.0; n]);
    let mut norm_before = f64::INFINITY;
    for _ in 0..=degree {
        let (mut norm, mut along, mut centre) = (0.0, 0.0, 0.0);
        for ((p, r), x) in now.iter().zip(&residuals).zip(x) {
            norm += p * p;
            along += p * r;
            centre += x * p * p;
        }
        if norm <= 1e-24 * n as f64 || !along.is_finite() {
            return None;
        }
        let (share, centre, carried) = (along / norm, centre / norm, norm / norm_before);
        for (((p, q), r), x) in now.iter_mut().zip(&mut before).zip(&mut residuals).zip(x) {
            *r -= share * *p;
            (*p, *q) = ((x - centre) * *p - carried * *q, *p);
        }
        norm_before = norm;
    }
    let rss: f64 = residuals.iter().map(|r| r * r).sum();
    Some(AboutPolynomial { residuals, residual_sd: (rss / (n - degree - 1) as f64).sqrt() })
}
