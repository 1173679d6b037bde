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
        let [norm, along, centre] = sums(&now, &residuals, x);
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

/// Sums that are kept side by side, so that one addition need not wait for the last.
const LANES: usize = 4;

/// Sums of p^2, p r and x p^2.
fn sums(p: &[f64], r: &[f64], x: &[f64]) -> [f64; 3] {
    let mut lanes = [[0.0; LANES]; 3];
    let mut add = |k: usize, p: f64, r: f64, x: f64| {
        lanes[0][k] += p * p;
        lanes[1][k] += p * r;
        lanes[2][k] += x * p * p;
    };
    let ((p, p_rest), (r, r_rest), (x, x_rest)) =
        (p.as_chunks::<LANES>(), r.as_chunks::<LANES>(), x.as_chunks::<LANES>());
    for ((p, r), x) in p.iter().zip(r).zip(x) {
        (0..LANES).for_each(|k| add(k, p[k], r[k], x[k]));
    }
    p_rest.iter().zip(r_rest).zip(x_rest).for_each(|((p, r), x)| add(0, *p, *r, *x));
    lanes.map(|sums: [f64; LANES]| sums.iter().sum())
}
