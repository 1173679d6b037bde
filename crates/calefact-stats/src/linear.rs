//! Ordinary linear least squares by Householder QR of the column-scaled design.
//!
//! y = X b + e with independent errors of equal variance. QR never forms X'X, whose condition number is the square of that
//! of X (Golub and Van Loan, Matrix Computations, 5.3). Correlated errors live in [`crate::residuals`].

use crate::fit_error::FitError;
use nalgebra::{DMatrix, DVector};

/// A linear fit.
#[derive(Debug, Clone, PartialEq)]
pub struct LinearFit {
    /// Estimated coefficients b, in the order of the design's columns.
    pub coefficients: Vec<f64>,
    /// Standard uncertainties of the coefficients. NaN throughout when no degree of freedom is left.
    pub std_uncertainties: Vec<f64>,
    /// Residual standard deviation, sqrt(sum (y - X b)^2 / dof).
    pub residual_sd: f64,
    /// Degrees of freedom, observations minus coefficients.
    pub dof: f64,
}

/// Design matrix of a polynomial: columns 1, x, x^2 ... x^degree.
pub fn polynomial(x: &[f64], degree: usize) -> DMatrix<f64> {
    let columns = degree + 1;
    let powers = |x: f64| std::iter::successors(Some(1.0), move |power| Some(power * x)).take(columns);
    DMatrix::from_row_iterator(x.len(), columns, x.iter().flat_map(|&x| powers(x)))
}

/// Ordinary least squares of `y` on the columns of `design`.
///
/// # Errors
/// [`FitError`] when lengths differ, values are not finite, observations are fewer than columns, or columns depend on
/// each other to working precision.
pub fn least_squares(design: &DMatrix<f64>, y: &[f64]) -> Result<LinearFit, FitError> {
    check(design, y)?;
    let (n, p) = design.shape();
    let scale: Vec<f64> = design.column_iter().map(|c| c.norm()).collect();
    if let Some(j) = scale.iter().position(|s| *s <= 0.0) {
        return Err(FitError::RankDeficient { rank: (p - 1).min(j), parameters: p });
    }
    let qr = DMatrix::from_fn(n, p, |i, j| design[(i, j)] / scale[j]).qr();
    let r = qr.r();
    check_rank(&r)?;
    let mut rhs = DVector::from_column_slice(y);
    qr.q_tr_mul(&mut rhs);
    let deficient = FitError::RankDeficient { rank: 0, parameters: p };
    let scaled = r.solve_upper_triangular(&rhs.rows(0, p).into_owned()).ok_or(deficient.clone())?;
    let inverse = r.solve_upper_triangular(&DMatrix::identity(p, p)).ok_or(deficient)?;
    let coefficients: Vec<f64> = scaled.iter().zip(&scale).map(|(b, s)| b / s).collect();
    let residual_sd = residual_sd(design, y, &coefficients);
    let std_uncertainties = inverse.row_iter().zip(&scale).map(|(row, s)| residual_sd * row.norm() / s).collect();
    Ok(LinearFit { coefficients, std_uncertainties, residual_sd, dof: (n - p) as f64 })
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

/// Rank by the diagonal of R of the unit-length columns; Filip, the hardest of the NIST sets, has 1e-10 there.
fn check_rank(r: &DMatrix<f64>) -> Result<(), FitError> {
    let parameters = r.ncols();
    let rank = r.diagonal().iter().filter(|d| d.abs() > 1e-14).count();
    if rank < parameters { Err(FitError::RankDeficient { rank, parameters }) } else { Ok(()) }
}

/// NaN when no degree of freedom is left.
fn residual_sd(design: &DMatrix<f64>, y: &[f64], coefficients: &[f64]) -> f64 {
    let (n, p) = design.shape();
    let fitted = design * DVector::from_column_slice(coefficients);
    let rss: f64 = y.iter().zip(fitted.iter()).map(|(y, f)| (y - f) * (y - f)).sum();
    if n > p { (rss / (n - p) as f64).sqrt() } else { f64::NAN }
}
