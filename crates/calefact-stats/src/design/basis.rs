//! Orthonormal basis of the columns of a matrix: which columns depend on others, leverage, residuals.
//!
//! Modified Gram-Schmidt, done twice, column by column in their order (Björck 1996, Numerical Methods for Least Squares
//! Problems, 2.4.5). A column whose remainder is below 1e-9 of its length depends on those before it.

use nalgebra::{DMatrix, DVector};

const DEPENDENT: f64 = 1e-9;

/// Orthonormal basis of a column space.
#[derive(Debug, Clone)]
pub struct Basis {
    /// Columns that are independent of those before them.
    pub kept: Vec<usize>,
    /// Columns that are not.
    pub dependent: Vec<usize>,
    directions: Vec<DVector<f64>>,
}

impl Basis {
    /// Basis of the columns of `x`.
    pub fn new(x: &DMatrix<f64>) -> Self {
        let mut basis = Self { kept: Vec::new(), dependent: Vec::new(), directions: Vec::new() };
        for (c, column) in x.column_iter().enumerate() {
            let whole = column.into_owned();
            let remainder = basis.residuals(&whole);
            let length = remainder.norm();
            if length > DEPENDENT * whole.norm() {
                basis.kept.push(c);
                basis.directions.push(remainder / length);
            } else {
                basis.dependent.push(c);
            }
        }
        basis
    }

    /// y less its projection on the column space.
    pub fn residuals(&self, y: &DVector<f64>) -> DVector<f64> {
        let mut rest = y.clone();
        for _ in 0..2 {
            for q in &self.directions {
                rest.axpy(-q.dot(&rest), q, 1.0);
            }
        }
        rest
    }

    /// Q' x, the coordinates of columns in the basis.
    pub(super) fn coordinates(&self, x: &DMatrix<f64>) -> DMatrix<f64> {
        DMatrix::from_fn(self.directions.len(), x.ncols(), |i, j| self.directions[i].dot(&x.column(j)))
    }

    /// Leverage of each observation: the diagonal of X (X'X)^-1 X'.
    pub fn leverage(&self) -> Vec<f64> {
        let rows = self.directions.first().map_or(0, DVector::len);
        (0..rows).map(|i| self.directions.iter().map(|q| q[i] * q[i]).sum()).collect()
    }
}

/// Numerical rank of a matrix.
pub(crate) fn rank(x: &DMatrix<f64>) -> usize {
    Basis::new(x).kept.len()
}
