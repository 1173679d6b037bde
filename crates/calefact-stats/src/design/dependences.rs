//! How the dependent columns of a design follow from the independent ones, which tells what can be estimated.

use super::basis::Basis;
use nalgebra::{DMatrix, DVector};

/// A weight vector must agree with every dependence to within this share of its terms.
const AGREES: f64 = 1e-8;

/// The dependent columns as sums over the independent ones.
#[derive(Debug, Clone)]
pub struct Dependences {
    kept: Vec<usize>,
    /// A dependent column and its coefficients on those kept.
    sums: Vec<(usize, DVector<f64>)>,
}

impl Dependences {
    /// Of the columns of `x`, whose basis is given: R c = Q' x_c, with R = Q' K of the columns kept.
    pub fn new(x: &DMatrix<f64>, basis: &Basis) -> Self {
        let kept = basis.kept.clone();
        let triangle = basis.coordinates(&x.select_columns(&kept));
        let sum = |&c: &usize| {
            let target = basis.coordinates(&x.select_columns([&c]));
            Some((c, triangle.solve_upper_triangular(&target)?.column(0).into_owned()))
        };
        Self { sums: basis.dependent.iter().filter_map(sum).collect(), kept }
    }

    /// A weight vector over the independent columns; `None` where it says otherwise of a dependent column than they do, so that
    /// no sum over the observations has these weights.
    pub fn estimable(&self, row: &[f64]) -> Option<Vec<f64>> {
        let kept: Vec<f64> = self.kept.iter().map(|&c| row[c]).collect();
        let agrees = |(c, sum): &(usize, DVector<f64>)| {
            let terms = || sum.iter().zip(&kept).map(|(s, x)| s * x);
            let size = row[*c].abs() + terms().map(f64::abs).sum::<f64>();
            (row[*c] - terms().sum::<f64>()).abs() <= AGREES * size
        };
        self.sums.iter().all(agrees).then_some(kept)
    }
}
