//! Linear least squares, ordinary and weighted, by Householder QR of the column-scaled design.
//!
//! y = X b + e with independent errors of equal variance (or of variance inversely proportional to the weights). QR
//! never forms X'X, whose condition number is the square of that of X (Golub and Van Loan, Matrix Computations, 5.3).
//! Correlated errors live in `residuals`, curves in `nonlinear`.

mod course;
mod prediction;
mod solve;

pub use course::{AboutPolynomial, OrthogonalPolynomials};
pub use prediction::Prediction;
pub use solve::{least_squares, weighted_least_squares};

use nalgebra::DMatrix;

/// A linear fit.
#[derive(Debug, Clone, PartialEq)]
pub struct LinearFit {
    /// Estimated coefficients b, in the order of the design's columns.
    pub coefficients: Vec<f64>,
    /// Covariance of the coefficients, s^2 (X'WX)^-1. NaN throughout when no degree of freedom is left.
    pub covariance: DMatrix<f64>,
    /// Residuals y - X b, unweighted.
    pub residuals: Vec<f64>,
    /// Weighted residual sum of squares, sum w e^2.
    pub rss: f64,
    /// Residual standard deviation s = sqrt(rss / dof), for weight one.
    pub residual_sd: f64,
    /// Degrees of freedom, observations minus coefficients.
    pub dof: f64,
    /// Coefficient of determination, 1 - rss/tss. The total is about the weighted mean when the design has a constant
    /// column, else about zero (as the NIST Statistical Reference Datasets do).
    pub r_squared: f64,
}

impl LinearFit {
    /// Standard uncertainties of the coefficients.
    pub fn std_uncertainties(&self) -> Vec<f64> {
        self.covariance.diagonal().iter().map(|v| v.sqrt()).collect()
    }
}

/// Design matrix of a polynomial: columns 1, x, x^2 ... x^degree.
pub fn polynomial(x: &[f64], degree: usize) -> DMatrix<f64> {
    let columns = degree + 1;
    let powers = |x: f64| std::iter::successors(Some(1.0), move |power| Some(power * x)).take(columns);
    DMatrix::from_row_iterator(x.len(), columns, x.iter().flat_map(|&x| powers(x)))
}
