//! Coding of variables and their interactions into the columns of a design matrix.

use super::error::DesignError;
use super::variable::{Setting, Variable};
use nalgebra::DMatrix;

/// A design: intercept, main effects of all variables in order, then interactions in the order given.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// What varies.
    pub variables: Vec<Variable>,
    /// Each term as indices into `variables`; the first, empty one is the intercept.
    pub(crate) terms: Vec<Vec<usize>>,
    /// Column names, such as `stove=rocket` or `stove=rocket × fuel=oak`.
    pub(crate) columns: Vec<String>,
    /// Term of each column.
    pub(crate) column_terms: Vec<usize>,
    /// One row an observation.
    pub matrix: DMatrix<f64>,
}

/// One factor of a column: which variable, and which of its coded levels.
pub(super) type Piece = (usize, usize);

impl Design {
    /// Builds the design of `variables` with the `interactions` given as indices into them. Factors are treatment-coded: a
    /// column is the indicator of a level but the first, its coefficient the difference from the first level.
    ///
    /// # Errors
    /// [`DesignError`] for unequal lengths, a factor of one level, a covariate with gaps, or an unknown interaction.
    pub fn new(variables: Vec<Variable>, interactions: &[Vec<usize>]) -> Result<Self, DesignError> {
        let observations = variables.first().map_or(0, Variable::len);
        variables.iter().try_for_each(|v| v.check(observations))?;
        let mut terms: Vec<Vec<usize>> = vec![Vec::new()];
        terms.extend((0..variables.len()).map(|v| vec![v]));
        for interaction in interactions {
            terms.push(check_interaction(interaction, variables.len())?);
        }
        let pieces: Vec<(usize, Vec<Piece>)> = columns_of(&variables, &terms);
        let mut design = Self {
            columns: pieces.iter().map(|(_, p)| column_name(&variables, p)).collect(),
            column_terms: pieces.iter().map(|(t, _)| *t).collect(),
            matrix: DMatrix::zeros(observations, pieces.len()),
            variables,
            terms,
        };
        for i in 0..observations {
            let settings: Vec<Setting> = design.variables.iter().map(|v| v.setting(i)).collect();
            for (j, (_, piece)) in pieces.iter().enumerate() {
                design.matrix[(i, j)] = product(piece, &settings);
            }
        }
        Ok(design)
    }

    /// Combinations of the term's factor levels that no observation has, such as `stove=box, fuel=oak`.
    pub(super) fn empty_cells(&self, term: usize) -> Vec<String> {
        let factors: Vec<usize> =
            self.terms[term].iter().copied().filter(|&v| self.variables[v].factor().is_some()).collect();
        let seen = |cell: &[Setting]| {
            (0..self.matrix.nrows()).any(|i| factors.iter().zip(cell).all(|(&v, s)| self.variables[v].setting(i) == *s))
        };
        let cells = level_grid(&self.variables, &factors);
        cells.iter().filter(|cell| !seen(cell)).map(|cell| self.cell_name(&factors, cell)).collect()
    }

    fn cell_name(&self, factors: &[usize], cell: &[Setting]) -> String {
        let name = |(&v, s): (&usize, &Setting)| match (s, self.variables[v].factor()) {
            (Setting::Level(k), Some(f)) => format!("{}={}", f.name, f.levels[*k]),
            _ => String::new(),
        };
        factors.iter().zip(cell).map(name).collect::<Vec<_>>().join(", ")
    }
}

/// Value of a column at some settings: indicators of levels and values of covariates multiplied.
fn product(pieces: &[Piece], settings: &[Setting]) -> f64 {
    pieces.iter().map(|piece| value(*piece, settings[piece.0])).product()
}

/// Value of a piece where its variable has a setting.
pub(super) fn value((_, coded_level): Piece, setting: Setting) -> f64 {
    match setting {
        Setting::Number(x) => x,
        Setting::Level(level) => indicator(level == coded_level + 1),
    }
}

fn indicator(is: bool) -> f64 {
    if is { 1.0 } else { 0.0 }
}

fn check_interaction(interaction: &[usize], variables: usize) -> Result<Vec<usize>, DesignError> {
    let mut sorted = interaction.to_vec();
    sorted.sort_unstable();
    sorted.dedup();
    let sound = sorted.len() >= 2 && sorted.len() == interaction.len() && sorted.iter().all(|&v| v < variables);
    if sound { Ok(sorted) } else { Err(DesignError::Interaction) }
}

/// Every column as the pieces whose product it is, with its term.
pub(super) fn columns_of(variables: &[Variable], terms: &[Vec<usize>]) -> Vec<(usize, Vec<Piece>)> {
    let mut columns = Vec::new();
    for (t, term) in terms.iter().enumerate() {
        let mut pieces: Vec<Vec<Piece>> = vec![Vec::new()];
        for &v in term {
            let count = variables[v].factor().map_or(1, |f| f.levels.len() - 1);
            let extend = |p: &Vec<Piece>| (0..count).map(|k| [p.as_slice(), &[(v, k)]].concat()).collect::<Vec<_>>();
            pieces = pieces.iter().flat_map(extend).collect();
        }
        columns.extend(pieces.into_iter().map(|p| (t, p)));
    }
    columns
}

fn column_name(variables: &[Variable], pieces: &[Piece]) -> String {
    let name = |&(v, k): &Piece| match &variables[v] {
        Variable::Factor(f) => format!("{}={}", f.name, f.levels[k + 1]),
        Variable::Covariate(c) => c.name.clone(),
    };
    if pieces.is_empty() { "intercept".into() } else { pieces.iter().map(name).collect::<Vec<_>>().join(" × ") }
}

/// All combinations of the levels of the factors named, the last varying fastest.
fn level_grid(variables: &[Variable], factors: &[usize]) -> Vec<Vec<Setting>> {
    let mut grid: Vec<Vec<Setting>> = vec![Vec::new()];
    for &v in factors {
        let count = variables[v].factor().map_or(0, |f| f.levels.len());
        let extend =
            |g: &Vec<Setting>| (0..count).map(|k| [g.as_slice(), &[Setting::Level(k)]].concat()).collect::<Vec<_>>();
        grid = grid.iter().flat_map(extend).collect();
    }
    grid
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::variable::{Covariate, Factor};

    fn two_factors() -> Design {
        let a = Factor::from_labels("stove", &["box", "rocket", "box", "rocket"]);
        let b = Factor::from_labels("fuel", &["oak", "oak", "pine", "oak"]);
        let x = Covariate { name: "start".into(), values: vec![1.0, 2.0, 3.0, 4.0] };
        let variables = vec![Variable::Factor(a), Variable::Factor(b), Variable::Covariate(x)];
        Design::new(variables, &[vec![0, 1]]).unwrap()
    }

    #[test]
    fn columns_are_named_and_coded() {
        let d = two_factors();
        assert_eq!(d.columns, ["intercept", "stove=rocket", "fuel=pine", "start", "stove=rocket × fuel=pine"]);
        assert_eq!(d.matrix.row(2).iter().copied().collect::<Vec<_>>(), [1.0, 0.0, 1.0, 3.0, 0.0]);
    }

    #[test]
    fn an_empty_cell_is_named() {
        assert_eq!(two_factors().empty_cells(4), ["stove=rocket, fuel=pine"]);
        assert!(two_factors().empty_cells(1).is_empty());
    }

    #[test]
    fn what_cannot_be_a_design_says_why() {
        let single = Variable::Factor(Factor::from_labels("fuel", &["oak", "oak"]));
        assert_eq!(Design::new(vec![single], &[]), Err(DesignError::OneLevel("fuel".into())));
        let gap = Variable::Covariate(Covariate { name: "air".into(), values: vec![1.0, f64::NAN] });
        assert_eq!(Design::new(vec![gap.clone()], &[]), Err(DesignError::NotFinite("air".into())));
        assert!(Design::new(vec![gap], &[vec![0, 0]]).is_err());
    }
}
