//! Hypotheses about whole terms of a design, for tests in a mixed model.
//!
//! A main effect is tested on the marginal means (levels weighted equally, as type III), an interaction on its own
//! coefficients. The least-squares tests of [`crate::design::effects`] need no such vectors.

use crate::design::basis::Basis;
use crate::design::matrix::Design;
use crate::design::means::MeansError;
use crate::ftest::FTest;
use crate::mixed::MixedFit;
use nalgebra::DMatrix;
use serde::Serialize;

/// Kenward-Roger F test of one term.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TermTest {
    /// Term, such as `stove × fuel`.
    pub term: String,
    /// Its test; absent where these observations cannot form it.
    pub test: Option<FTest>,
}

impl Design {
    /// Rows L over the columns of [`Design::fit_matrix`] such that L beta = 0 says "the term has no effect".
    ///
    /// `None` for the intercept, for a main effect with a level whose marginal mean cannot be estimated, for an
    /// interaction none of whose coefficients can be, and for one contained in a larger interaction.
    pub fn hypothesis(&self, term: usize) -> Option<DMatrix<f64>> {
        let rows = match self.terms[term].as_slice() {
            [] => return None,
            [v] if self.variables[*v].factor().is_some() => self.level_differences(*v)?,
            [v] => vec![self.estimable(&self.slope_row(*v))?],
            _ if self.is_within_another(term) => return None,
            _ => self.own_coefficients(term),
        };
        let width = rows.first()?.len();
        Some(DMatrix::from_row_iterator(rows.len(), width, rows.into_iter().flatten()))
    }

    fn level_differences(&self, factor: usize) -> Option<Vec<Vec<f64>>> {
        let rows = self.marginal_rows(factor).ok()?;
        let (first, others) = rows.split_first()?;
        let difference = |row: &Vec<f64>| row.iter().zip(first).map(|(a, b)| a - b).collect::<Vec<f64>>();
        others.iter().map(|row| self.estimable(&difference(row))).collect()
    }

    fn is_within_another(&self, term: usize) -> bool {
        let own = &self.terms[term];
        self.terms.iter().any(|t| t.len() > own.len() && own.iter().all(|v| t.contains(v)))
    }

    fn own_coefficients(&self, term: usize) -> Vec<Vec<f64>> {
        let kept = Basis::of(&self.matrix).kept;
        let unit = |at: usize| (0..kept.len()).map(|i| if i == at { 1.0 } else { 0.0 }).collect();
        (0..kept.len()).filter(|&i| self.column_terms[kept[i]] == term).map(unit).collect()
    }
}

/// Kenward-Roger F tests of all terms but the intercept, from a fit of [`Design::fit_matrix`].
///
/// # Errors
/// [`MeansError`] when the fit refuses.
pub fn term_tests(design: &Design, fit: &MixedFit) -> Result<Vec<TermTest>, MeansError> {
    let one = |term: usize| -> Result<TermTest, MeansError> {
        let test = design.hypothesis(term).map(|l| fit.f_test(&l)).transpose()?;
        Ok(TermTest { term: design.term_name(term), test })
    };
    (1..design.terms.len()).map(one).collect()
}
