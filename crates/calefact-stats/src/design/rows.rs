//! Combinations of a design's columns that answer a question: the mean of each level, a slope, an interaction.
//!
//! The mean of a level is the estimated marginal mean: other factors weighted equally and covariates at their mean, so that
//! unequal numbers of trials do not tilt the comparison (Searle, Speed & Milliken 1980, Am. Stat. 34:216).

use super::basis::Basis;
use super::matrix::{Design, level_grid};
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
        let kept = Basis::new(&self.matrix).kept;
        let observations = self.matrix.nrows();
        let mut with = self.matrix.clone().insert_row(observations, 0.0);
        with.row_mut(observations).copy_from_slice(row);
        let estimable = Basis::new(&with).kept.len() == kept.len();
        estimable.then(|| kept.iter().map(|&c| row[c]).collect())
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

    /// Mean of the design rows over all combinations of factor levels, covariates at their mean, one variable fixed.
    fn average_row(&self, fixed: (usize, Setting)) -> Vec<f64> {
        let middle = |v: &Variable| match v {
            Variable::Factor(_) => Setting::Level(0),
            Variable::Covariate(c) => Setting::Number(c.mean()),
        };
        let mut settings: Vec<Setting> = self.variables.iter().map(middle).collect();
        settings[fixed.0] = fixed.1;
        let is_free = |v: &usize| self.variables[*v].factor().is_some() && *v != fixed.0;
        let free: Vec<usize> = (0..self.variables.len()).filter(is_free).collect();
        let grid = level_grid(&self.variables, &free);
        let mut sum = vec![0.0; self.columns.len()];
        for cell in &grid {
            for (&v, s) in free.iter().zip(cell) {
                settings[v] = *s;
            }
            for (total, x) in sum.iter_mut().zip(self.row(&settings)) {
                *total += x / grid.len() as f64;
            }
        }
        sum
    }
}
