//! The effects of a design that its observations cannot tell apart, and why.

use super::basis::Basis;
use super::matrix::Design;
use std::fmt;

/// An effect that these observations cannot tell apart from others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aliased {
    /// Column that was left out.
    pub column: String,
    /// Columns it depends on; empty when no observation has it at all.
    pub depends_on: Vec<String>,
    /// Combinations of levels without any observation, where that is the reason.
    pub empty_cells: Vec<String>,
}

impl fmt::Display for Aliased {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.empty_cells.is_empty() {
            return write!(
                f,
                "`{}` cannot be estimated: no trial with {}",
                self.column,
                self.empty_cells.join("; or ")
            );
        }
        match self.depends_on.as_slice() {
            [] => write!(f, "`{}` cannot be estimated: no trial has it", self.column),
            others => {
                let names: Vec<String> = others.iter().map(|o| format!("`{o}`")).collect();
                write!(
                    f,
                    "`{}` cannot be told apart from {}: they always change together",
                    self.column,
                    names.join(", ")
                )
            }
        }
    }
}

impl Design {
    /// The effects that cannot be estimated, each with the reason.
    pub fn aliased(&self) -> Vec<Aliased> {
        let basis = Basis::new(&self.matrix);
        let explain = |&c: &usize| {
            let term = self.column_terms[c];
            let interaction = self.terms[term].len() > 1;
            Aliased {
                column: self.columns[c].clone(),
                depends_on: self.dependence(&basis, c).into_iter().map(|k| self.columns[k].clone()).collect(),
                empty_cells: if interaction { self.empty_cells(term) } else { Vec::new() },
            }
        };
        basis.dependent.iter().map(explain).collect()
    }

    /// Kept columns other than the intercept with a non-zero coefficient in the expression of column `c`.
    fn dependence(&self, basis: &Basis, c: usize) -> Vec<usize> {
        let earlier: Vec<usize> = basis.kept.iter().copied().filter(|&k| k < c).collect();
        let x = self.matrix.select_columns(&earlier);
        let target = self.matrix.column(c).into_owned();
        let Ok(solution) = x.svd(true, true).solve(&target, 1e-12) else { return Vec::new() };
        let used = earlier.into_iter().zip(solution.iter()).filter(|(k, b)| *k != 0 && b.abs() > 1e-8);
        used.map(|(k, _)| k).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::variable::{Factor, Variable};

    fn design(stove: &[&str], fuel: &[&str], interactions: &[Vec<usize>]) -> Design {
        let variables = vec![
            Variable::Factor(Factor::from_labels("stove", stove)),
            Variable::Factor(Factor::from_labels("fuel", fuel)),
        ];
        Design::new(variables, interactions).unwrap()
    }

    #[test]
    fn confounded_factors_are_named() {
        let d = design(&["box", "box", "rocket", "rocket"], &["oak", "oak", "pine", "pine"], &[]);
        let text: Vec<String> = d.aliased().iter().map(ToString::to_string).collect();
        assert_eq!(text, ["`fuel=pine` cannot be told apart from `stove=rocket`: they always change together"]);
    }

    #[test]
    fn an_interaction_with_an_empty_cell_is_named() {
        let d = design(&["box", "box", "rocket"], &["oak", "pine", "oak"], &[vec![0, 1]]);
        let text = d.aliased()[0].to_string();
        assert_eq!(text, "`stove=rocket × fuel=pine` cannot be estimated: no trial with stove=rocket, fuel=pine");
    }

    #[test]
    fn leverage_adds_up_to_the_rank() {
        let d = design(&["box", "box", "rocket", "rocket", "box"], &["oak", "pine", "oak", "pine", "oak"], &[]);
        let basis = Basis::new(&d.matrix);
        assert!((basis.leverage().iter().sum::<f64>() - 3.0).abs() < 1e-12 && d.aliased().is_empty());
    }
}
