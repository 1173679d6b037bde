//! Estimated marginal means: the mean of each level of a factor with the other factors weighted equally and covariates at
//! their mean, so that unequal numbers of trials do not tilt the comparison (Searle, Speed & Milliken 1980, Am. Stat.
//! 34:216). Their pairwise contrasts, and trends of covariates.
//!
//! A fit uses only the independent columns ([`Design::fit_matrix`]); a mean that these observations cannot estimate is
//! absent instead of being filled in.

use crate::contrast::ContrastKind;
use crate::design::DesignError;
use crate::design::basis::Basis;
use crate::design::matrix::{Coding, Design, level_grid};
use crate::design::variable::{Setting, Variable};
use crate::mixed::{DofMethod, MixedError, MixedFit};
use crate::tukey::Pair;
use crate::welch::Mean;
use nalgebra::DMatrix;

/// Marginal mean of one level.
#[derive(Debug, Clone, PartialEq)]
pub struct MarginalMean {
    /// Level name.
    pub level: String,
    /// Mean on the scale of the response; absent where it cannot be estimated.
    pub mean: Option<Mean>,
}

/// Contrast of two levels' marginal means.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelPair {
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// a - b with its test among all pairs (Tukey-Kramer form); absent where it cannot be estimated.
    pub pair: Option<Pair>,
}

impl Design {
    /// The columns a fit should use: those independent of the ones before them.
    pub fn fit_matrix(&self) -> DMatrix<f64> {
        self.matrix.select_columns(&Basis::of(&self.matrix).kept)
    }

    /// The same design in another coding.
    pub(crate) fn recoded(&self, coding: Coding) -> Result<Self, DesignError> {
        let interactions: Vec<Vec<usize>> = self.terms.iter().filter(|t| t.len() > 1).cloned().collect();
        Self::with_coding(self.variables.clone(), &interactions, coding)
    }

    /// One weight vector over the design's columns for each level of a factor: the marginal mean is its product with the
    /// coefficients.
    ///
    /// # Errors
    /// [`DesignError::NotAFactor`].
    pub fn marginal_rows(&self, factor: usize) -> Result<Vec<Vec<f64>>, DesignError> {
        let count = self.variables.get(factor).and_then(Variable::factor).map(|f| f.levels.len());
        let count = count.ok_or(DesignError::NotAFactor(factor))?;
        Ok((0..count).map(|k| self.average_row(&[(factor, Setting::Level(k))])).collect())
    }

    /// Weight vector of the slope of a covariate, averaged over the levels of all factors.
    pub fn slope_row(&self, covariate: usize) -> Vec<f64> {
        let high = self.average_row(&[(covariate, Setting::Number(1.0))]);
        let low = self.average_row(&[(covariate, Setting::Number(0.0))]);
        high.iter().zip(low).map(|(h, l)| h - l).collect()
    }

    /// Restricts a weight vector to the columns of [`Design::fit_matrix`]; `None` when it asks for something that these
    /// observations cannot estimate (the vector is then outside the row space of the design).
    pub fn estimable(&self, row: &[f64]) -> Option<Vec<f64>> {
        let basis = Basis::of(&self.matrix);
        let with = {
            let extra = DMatrix::from_row_slice(1, row.len(), row);
            let mut stacked = self.matrix.clone().insert_rows(self.observations(), 1, 0.0);
            stacked.row_mut(self.observations()).copy_from(&extra.row(0));
            stacked
        };
        let estimable = Basis::of(&with).kept.len() == basis.kept.len();
        estimable.then(|| basis.kept.iter().map(|&c| row[c]).collect())
    }

    /// Mean of the design rows over all combinations of factor levels, covariates at their mean, with some settings fixed.
    fn average_row(&self, fixed: &[(usize, Setting)]) -> Vec<f64> {
        let mut settings: Vec<Setting> = self
            .variables
            .iter()
            .map(|v| match v {
                Variable::Factor(_) => Setting::Level(0),
                Variable::Covariate(c) => Setting::Number(c.mean()),
            })
            .collect();
        for &(v, s) in fixed {
            settings[v] = s;
        }
        let is_free = |v: &usize| self.variables[*v].factor().is_some() && fixed.iter().all(|(f, _)| f != v);
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

/// Why means could not be formed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MeansError {
    /// From the design.
    #[error(transparent)]
    Design(#[from] DesignError),
    /// From the fit.
    #[error(transparent)]
    Mixed(#[from] MixedError),
}

/// Marginal means of the levels of `factor` from a fit of [`Design::fit_matrix`].
///
/// # Errors
/// [`MeansError`] when `factor` is not one, or the fit refuses.
pub fn marginal_means(
    design: &Design,
    fit: &MixedFit,
    factor: usize,
    method: DofMethod,
) -> Result<Vec<MarginalMean>, MeansError> {
    let rows = design.marginal_rows(factor)?;
    let names = level_names(design, factor);
    let mean = |row: &Vec<f64>| -> Result<Option<Mean>, MeansError> {
        let Some(l) = design.estimable(row) else { return Ok(None) };
        let c = fit.contrast(&l, ContrastKind::Difference, method, 0.95)?;
        Ok(Some(Mean { value: c.effect, u: c.effect_uncertainty, dof: c.dof }))
    };
    rows.iter().zip(names).map(|(row, level)| Ok(MarginalMean { level, mean: mean(row)? })).collect()
}

/// All pairs of marginal means of `factor`, with simultaneous intervals by the studentized range. `kind` is
/// [`ContrastKind::Ratio`] when the response is a logarithm.
///
/// # Errors
/// [`MeansError`] when `factor` is not one, or the fit refuses.
pub fn pairwise(
    design: &Design,
    fit: &MixedFit,
    factor: usize,
    (kind, method): (ContrastKind, DofMethod),
    level: f64,
) -> Result<Vec<LevelPair>, MeansError> {
    let rows = design.marginal_rows(factor)?;
    let names = level_names(design, factor);
    let k = rows.len();
    let one = |(a, b): (usize, usize)| -> Result<LevelPair, MeansError> {
        let row: Vec<f64> = rows[a].iter().zip(&rows[b]).map(|(x, y)| x - y).collect();
        let pair = match design.estimable(&row) {
            None => None,
            Some(l) => Some(Pair::new(a, b, fit.contrast(&l, kind, method, level)?, k, level)),
        };
        Ok(LevelPair { a: names[a].clone(), b: names[b].clone(), pair })
    };
    (0..k).flat_map(|a| (a + 1..k).map(move |b| (a, b))).map(one).collect()
}

fn level_names(design: &Design, factor: usize) -> Vec<String> {
    design.variables.get(factor).and_then(Variable::factor).map_or_else(Vec::new, |f| f.levels.clone())
}
