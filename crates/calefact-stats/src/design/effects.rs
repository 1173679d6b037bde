//! F tests of the terms of a least-squares model: main effects, covariates, interactions.

use crate::design::DesignError;
use crate::design::basis::Basis;
use crate::design::matrix::{Coding, Design};
use crate::ftest::FTest;
use nalgebra::DVector;
use serde::Serialize;

/// Which hypothesis a term's sum of squares belongs to. For the highest interaction, and in balanced designs, both agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SumOfSquares {
    /// A term after all terms that do not contain it. Right where interactions with it are absent.
    TypeII,
    /// A term after all others, levels weighted equally (sum coding). Has no clear meaning with empty cells.
    TypeIII,
}

/// The test of one term.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct EffectTest {
    /// Term, such as `stove × fuel`.
    pub term: String,
    /// Its sum of squares.
    pub sum_of_squares: f64,
    /// F against the residual mean square of the full model.
    pub test: FTest,
}

/// Tests of all terms but the intercept, and the residual they are held against.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct EffectTests {
    /// In the order of the design's terms; a term without an estimable column is left out.
    pub effects: Vec<EffectTest>,
    /// Residual sum of squares of the full model.
    pub residual_squares: f64,
    /// Residual degrees of freedom.
    pub residual_dof: f64,
}

/// Tests every term of `design` on the response `y` by ordinary least squares.
///
/// # Errors
/// [`DesignError::TooFew`] without residual degrees of freedom, [`DesignError::Length`] when `y` has another length.
pub fn effect_tests(design: &Design, y: &[f64], kind: SumOfSquares) -> Result<EffectTests, DesignError> {
    let observations = design.observations();
    if y.len() != observations {
        return Err(DesignError::Length { name: "response".into(), found: y.len(), expected: observations });
    }
    let response = DVector::from_column_slice(y);
    let coded = match kind {
        SumOfSquares::TypeII => design.clone(),
        SumOfSquares::TypeIII => design.recoded(Coding::Sum)?,
    };
    let full = Squares::of(&coded, &response, |_| true);
    let dof = observations as f64 - full.rank;
    if dof < 1.0 {
        return Err(DesignError::TooFew { observations, effects: full.rank as usize });
    }
    let mean_square = full.squares / dof;
    let test = |term: usize| {
        let others = |t: usize| t != term && (kind == SumOfSquares::TypeIII || !contains(&coded, t, term));
        let without = Squares::of(&coded, &response, others);
        let with = Squares::of(&coded, &response, |t| t == term || others(t));
        let (ss, df) = (without.squares - with.squares, with.rank - without.rank);
        (df > 0.0).then(|| EffectTest {
            term: coded.term_name(term),
            sum_of_squares: ss,
            test: FTest::new(ss / df / mean_square, df, dof),
        })
    };
    let effects = (1..coded.terms.len()).filter_map(test).collect();
    Ok(EffectTests { effects, residual_squares: full.squares, residual_dof: dof })
}

/// Whether term `t` contains all variables of `term` and more.
fn contains(design: &Design, t: usize, term: usize) -> bool {
    design.terms[t].len() > design.terms[term].len() && design.terms[term].iter().all(|v| design.terms[t].contains(v))
}

struct Squares {
    squares: f64,
    rank: f64,
}

impl Squares {
    fn of(design: &Design, y: &DVector<f64>, terms: impl Fn(usize) -> bool) -> Self {
        let columns: Vec<usize> = (0..design.columns.len()).filter(|&c| terms(design.column_terms[c])).collect();
        let basis = Basis::of(&design.matrix.select_columns(&columns));
        Self { squares: basis.residual_squares(y), rank: basis.kept.len() as f64 }
    }
}
