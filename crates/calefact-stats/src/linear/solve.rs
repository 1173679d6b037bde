//! Solving the least-squares problem. Predictions from its answer live beside it.

use super::LinearFit;
use crate::fit_error::FitError;
use nalgebra::{DMatrix, DVector};

/// Ordinary least squares of `y` on the columns of `design`.
///
/// # Errors
/// [`FitError`] when lengths differ, values are not finite, observations are fewer than columns, or columns depend on
/// each other to working precision.
pub fn least_squares(design: &DMatrix<f64>, y: &[f64]) -> Result<LinearFit, FitError> {
    fit(design, y, None)
}

/// Weighted least squares: minimises sum w (y - Xb)^2; the weights are inverse variances up to a common factor, which
/// the residual variance then estimates.
///
/// # Errors
/// As [`least_squares`], and when a weight is not a positive number.
pub fn weighted_least_squares(design: &DMatrix<f64>, y: &[f64], weights: &[f64]) -> Result<LinearFit, FitError> {
    if weights.len() != y.len() {
        return Err(FitError::Length { what: "weights", got: weights.len(), want: y.len() });
    }
    if !weights.iter().all(|w| w.is_finite() && *w > 0.0) {
        return Err(FitError::NotUsable("weights"));
    }
    fit(design, y, Some(weights))
}

fn check(design: &DMatrix<f64>, y: &[f64]) -> Result<(), FitError> {
    let (n, p) = design.shape();
    if y.len() != n {
        return Err(FitError::Length { what: "observations", got: y.len(), want: n });
    }
    if p == 0 || n < p {
        return Err(FitError::TooFew { observations: n, parameters: p });
    }
    if !y.iter().chain(design.iter()).all(|v| v.is_finite()) {
        return Err(FitError::NotUsable("the design or an observation"));
    }
    Ok(())
}

fn fit(design: &DMatrix<f64>, y: &[f64], weights: Option<&[f64]>) -> Result<LinearFit, FitError> {
    check(design, y)?;
    let (n, p) = design.shape();
    let root: Vec<f64> = weights.map_or_else(|| vec![1.0; n], |w| w.iter().map(|w| w.sqrt()).collect());
    let scale: Vec<f64> = (0..p).map(|j| weighted_norm(design.column(j).iter(), &root)).collect();
    if let Some(j) = scale.iter().position(|s| *s <= 0.0) {
        return Err(FitError::RankDeficient { rank: p.saturating_sub(1).min(j), parameters: p });
    }
    let scaled = DMatrix::from_fn(n, p, |i, j| design[(i, j)] * root[i] / scale[j]);
    let qr = scaled.qr();
    let r = qr.r();
    check_rank(&r)?;
    let mut rhs = DVector::from_fn(n, |i, _| y[i] * root[i]);
    qr.q_tr_mul(&mut rhs);
    let deficient = FitError::RankDeficient { rank: 0, parameters: p };
    let head = r.solve_upper_triangular(&rhs.rows(0, p).into_owned()).ok_or(deficient.clone())?;
    let inverse = r.solve_upper_triangular(&DMatrix::identity(p, p)).ok_or(deficient)?;
    let unscale = DMatrix::from_diagonal(&DVector::from_iterator(p, scale.iter().map(|s| 1.0 / s)));
    let coefficients: Vec<f64> = head.iter().zip(&scale).map(|(b, s)| b / s).collect();
    let half = unscale * inverse;
    Ok(summarise(design, y, &root, coefficients, &(&half * half.transpose())))
}

fn weighted_norm<'a>(column: impl Iterator<Item = &'a f64>, root: &[f64]) -> f64 {
    column.zip(root).map(|(v, r)| (v * r) * (v * r)).sum::<f64>().sqrt()
}

/// Rank by the diagonal of R of the unit-length columns; Filip, the hardest of the NIST sets, has 1e-10 there.
fn check_rank(r: &DMatrix<f64>) -> Result<(), FitError> {
    let parameters = r.ncols();
    let rank = r.diagonal().iter().filter(|d| d.abs() > 1e-14).count();
    if rank < parameters { Err(FitError::RankDeficient { rank, parameters }) } else { Ok(()) }
}

fn summarise(
    design: &DMatrix<f64>,
    y: &[f64],
    root: &[f64],
    coefficients: Vec<f64>,
    unscaled: &DMatrix<f64>,
) -> LinearFit {
    let (n, p) = design.shape();
    let fitted = design * DVector::from_column_slice(&coefficients);
    let residuals: Vec<f64> = y.iter().zip(fitted.iter()).map(|(y, f)| y - f).collect();
    let rss = sum_of_squares(&residuals, root, 0.0);
    let constant = design.column_iter().any(|c| c.iter().all(|v| v.to_bits() == c[0].to_bits()));
    let total_weight: f64 = root.iter().map(|r| r * r).sum();
    let mean = y.iter().zip(root).map(|(y, r)| y * r * r).sum::<f64>() / total_weight;
    let tss = sum_of_squares(y, root, if constant { mean } else { 0.0 });
    let dof = (n - p) as f64;
    let variance = if dof > 0.0 { rss / dof } else { f64::NAN };
    LinearFit {
        coefficients,
        covariance: unscaled * variance,
        residuals,
        rss,
        residual_sd: variance.sqrt(),
        dof,
        r_squared: 1.0 - rss / tss,
    }
}

fn sum_of_squares(values: &[f64], root: &[f64], about: f64) -> f64 {
    values.iter().zip(root).map(|(v, r)| ((v - about) * r).powi(2)).sum()
}
