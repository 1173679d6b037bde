//! Combinations of a design's columns that answer a question: the mean of each level, a slope, an interaction.
//!
//! The mean of a level is the estimated marginal mean: other factors weighted equally and covariates at their mean, so that
//! unequal numbers of trials do not tilt the comparison (Searle, Speed & Milliken 1980, Am. Stat. 34:216).

use super::basis::Basis;
use super::dependences::Dependences;
use super::matrix::{Design, Piece, columns_of, value};
use super::variable::{Setting, Variable};
use nalgebra::DMatrix;

impl Design {
    /// One weight vector over the design's columns for each level of a factor: the marginal mean is its product with the
    /// coefficients. `None` when the variable is not a factor of this design.
    pub fn marginal_rows(&self, factor: usize) -> Option<Vec<Vec<f64>>> {
        let count = self.variables.get(factor)?.factor()?.levels.len();
        Some((0..count).map(|k| self.average_row((factor, Setting::Level(k)))).collect())
    }

    /// Weight vector of the slope of a covariate, averaged over the levels of all factors.
    pub fn slope_row(&self, covariate: usize) -> Vec<f64> {
        let high = self.average_row((covariate, Setting::Number(1.0)));
        let low = self.average_row((covariate, Setting::Number(0.0)));
        high.iter().zip(low).map(|(h, l)| h - l).collect()
    }

    /// Restricts a weight vector to the independent columns; `None` when these observations cannot estimate it (the vector
    /// is then outside the row space of the design).
    pub fn estimable(&self, row: &[f64]) -> Option<Vec<f64>> {
        Dependences::new(&self.matrix, &Basis::new(&self.matrix)).estimable(row)
    }

    /// Rows L over the independent columns such that L beta = 0 says "the last term has no effect": its own coefficients.
    /// `None` when none of them can be estimated. For an interaction that no other term contains.
    pub fn last_term_rows(&self) -> Option<DMatrix<f64>> {
        let kept = Basis::new(&self.matrix).kept;
        let last = self.terms.len() - 1;
        let own: Vec<usize> = (0..kept.len()).filter(|&i| self.column_terms[kept[i]] == last).collect();
        let entry = |row: usize, column: usize| if own[row] == column { 1.0 } else { 0.0 };
        (!own.is_empty()).then(|| DMatrix::from_fn(own.len(), kept.len(), entry))
    }

    /// Mean of the design rows over all combinations of factor levels, covariates at their mean, one variable fixed. All are
    /// combined freely, so that the mean of a product is the product of the means.
    fn average_row(&self, (fixed, setting): (usize, Setting)) -> Vec<f64> {
        let mean = |piece: &Piece| match &self.variables[piece.0] {
            _ if piece.0 == fixed => value(*piece, setting),
            Variable::Factor(factor) => 1.0 / factor.levels.len() as f64,
            Variable::Covariate(covariate) => covariate.mean(),
        };
        let columns = columns_of(&self.variables, &self.terms);
        columns.iter().map(|(_, pieces)| pieces.iter().map(mean).product()).collect()
    }
}
