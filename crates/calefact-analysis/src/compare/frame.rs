//! The design of an adjusted comparison: which trials, which effects, which blocks; or why there is none.

use super::conditions::{number, parse};
use super::limits::{MOST_EFFECTS, MOST_LEVELS};
use super::sample::Sample;
use crate::result::{Confounded, Effect, NoAdjustment, Remark};
use crate::settings::ComparisonRequest;
use calefact_stats::design::{Basis, Covariate, Dependences, Design, Factor, Variable};
use calefact_stats::influence::{Outlyingness, studentized};
use nalgebra::{DMatrix, DVector};
use std::sync::Arc;

/// Whether a model is called for.
#[derive(Debug)]
pub(crate) enum Plan<'t> {
    /// No: compare the bare means.
    Plain(Plain),
    /// Yes.
    Model(Box<Frame<'t>>),
}

/// A comparison without a model.
#[derive(Debug, Default)]
pub(crate) struct Plain {
    /// Remarks.
    pub(crate) remarks: Vec<Remark>,
    /// Pairs of levels that the columns asked for do not let a model tell apart.
    pub(crate) aliased: Vec<AliasedPair>,
}

/// Two levels that a model cannot tell apart.
#[derive(Debug)]
pub(crate) struct AliasedPair {
    /// The levels.
    pub(crate) levels: (String, String),
    /// The adjusting columns that change together with them.
    pub(crate) columns: Vec<String>,
}

impl From<Vec<Remark>> for Plain {
    fn from(remarks: Vec<Remark>) -> Self {
        Self { remarks, aliased: Vec::new() }
    }
}

/// Fixed effects and blocks of a model. Variable 0 is the factor compared.
#[derive(Debug)]
pub(crate) struct Frame<'t> {
    /// Trials with all that the model needs.
    pub(crate) sample: Sample<'t>,
    /// Fixed effects.
    pub(crate) design: Design,
    /// Independent columns of the design.
    pub(crate) matrix: DMatrix<f64>,
    /// Block column and the block of each trial.
    pub(crate) blocks: Option<(String, Vec<usize>)>,
    /// Whether the factor is a number, so that it has a slope and no levels.
    pub(crate) numeric: bool,
    /// Levels of the factor, in order.
    pub(crate) levels: Vec<String>,
    /// Remarks.
    pub(crate) remarks: Vec<Remark>,
    whole: bool,
    basis: Basis,
    dependences: Dependences,
}

/// Whether all levels are numbers and there are more than two.
pub(crate) fn is_numeric(levels: &[String]) -> bool {
    levels.len() > 2 && levels.iter().all(|l| parse(l).is_some())
}

impl<'t> Frame<'t> {
    /// What the request and the trials allow.
    pub(crate) fn plan(request: &ComparisonRequest, sample: &Sample<'t>, order: &[String]) -> Plan<'t> {
        let numeric = is_numeric(order);
        let mut remarks = Vec::new();
        let (adjust, covariates) = known_columns(request, sample, &mut remarks);
        let sample = complete(request, sample, &adjust, &covariates, &mut remarks);
        let levels = sample.levels(order);
        let blocks = blocks(request, &sample);
        let further = further(&sample, &adjust, &covariates);
        let asked = numeric || blocks.is_some() || !further.is_empty();
        if levels.len() < 2 || !asked {
            return Plan::Plain(remarks.into());
        }
        let mut variables = vec![factor(request, &sample, &levels, numeric)];
        variables.extend(further);
        if let Some(remark) = too_large(request, &variables) {
            return Plan::Plain(vec![remark].into());
        }
        let Ok(design) = Design::new(variables, &[]) else {
            return Plan::Plain(vec![not_adjusted(request, NoAdjustment::NoDesign)].into());
        };
        let basis = Basis::new(&design.matrix);
        let matrix = design.matrix.select_columns(&basis.kept);
        let whole = basis.dependent.is_empty();
        let dependences = Dependences::new(&design.matrix, &basis);
        let frame = Self { sample, design, matrix, blocks, numeric, levels, remarks, whole, basis, dependences };
        frame.checked(request)
    }

    /// Place of each trial's level among the levels; none where the factor is a number.
    pub(crate) fn level_of(&self) -> Option<Vec<usize>> {
        let place = |label: &&str| self.levels.iter().position(|level| level == label);
        if self.numeric { None } else { self.sample.labels.iter().map(place).collect() }
    }

    /// The frame, if the factor's effects can be told from the others and scatter is left.
    fn checked(mut self, request: &ComparisonRequest) -> Plan<'t> {
        let (trials, effects) = (self.sample.len(), self.basis.kept.len());
        if trials <= effects {
            return Plan::Plain(vec![not_adjusted(request, NoAdjustment::TooManyEffects { trials, effects })].into());
        }
        if self.whole {
            return Plan::Model(Box::new(self));
        }
        let confounded = confounded(&self.design);
        if self.rows().iter().any(|row| self.estimable(row).is_none()) {
            let remarks = vec![not_adjusted(request, NoAdjustment::Confounded(confounded))];
            return Plan::Plain(Plain { remarks, aliased: self.aliased() });
        }
        self.remarks.push(Remark::Confounded(confounded));
        Plan::Model(Box::new(self))
    }

    /// Questions to the factor, over the design's columns: its slope, or the mean of each level.
    pub(crate) fn rows(&self) -> Vec<Vec<f64>> {
        if self.numeric { vec![self.design.slope_row(0)] } else { self.design.marginal_rows(0).unwrap_or_default() }
    }

    /// Columns held constant.
    pub(crate) fn held(&self) -> Vec<String> {
        self.design.variables[1..].iter().map(|v| v.name().to_owned()).collect()
    }

    /// Pairs of levels whose difference these trials cannot tell from the adjusting columns.
    fn aliased(&self) -> Vec<AliasedPair> {
        let rows = if self.numeric { Vec::new() } else { self.rows() };
        let indices = (0..rows.len()).flat_map(|a| (a + 1..rows.len()).map(move |b| (a, b)));
        let inestimable = indices.filter(|(a, b)| self.estimable(&difference(&rows[*a], &rows[*b])).is_none());
        let pair = |(a, b): (usize, usize)| AliasedPair {
            levels: (self.levels[a].clone(), self.levels[b].clone()),
            columns: self.aliases((a, b)),
        };
        inestimable.map(pair).collect()
    }

    /// The adjusting columns that each alone cannot be told from a difference of levels; all where they do it together.
    fn aliases(&self, (a, b): (usize, usize)) -> Vec<String> {
        let alone = |variable: &&Variable| {
            let pair = vec![self.design.variables[0].clone(), (*variable).clone()];
            let Ok(design) = Design::new(pair, &[]) else { return false };
            let rows = design.marginal_rows(0).unwrap_or_default();
            rows.len() > a.max(b) && design.estimable(&difference(&rows[a], &rows[b])).is_none()
        };
        let found: Vec<String> = self.design.variables[1..].iter().filter(alone).map(|v| v.name().to_owned()).collect();
        if found.is_empty() { self.held() } else { found }
    }

    /// Over the independent columns; none where these trials cannot tell.
    pub(crate) fn estimable(&self, row: &[f64]) -> Option<Vec<f64>> {
        if self.whole { Some(row.to_vec()) } else { self.dependences.estimable(row) }
    }

    /// Number of independent effects.
    pub(crate) fn effects(&self) -> usize {
        self.basis.kept.len()
    }

    /// Residuals of a value a trial about the fixed effects, and the leverage of each trial.
    pub(super) fn residuals(&self, y: &[f64]) -> (Vec<f64>, Vec<f64>) {
        (self.basis.residuals(&DVector::from_column_slice(y)).as_slice().to_vec(), self.basis.leverage())
    }

    /// Trials that are odd beside what the fixed effects expect of them.
    pub(crate) fn odd(&self) -> Vec<(Arc<str>, Outlyingness)> {
        let (residuals, leverage) = self.residuals(&self.sample.bare());
        let found = studentized(&residuals, &leverage, self.effects());
        self.sample.odd(&found, self.effects())
    }
}

/// a - b, entry by entry.
pub(super) fn difference(a: &[f64], b: &[f64]) -> Vec<f64> {
    a.iter().zip(b).map(|(x, y)| x - y).collect()
}

/// The remark that a comparison is not adjusted for what it asks to be.
pub(super) fn not_adjusted(request: &ComparisonRequest, reason: NoAdjustment) -> Remark {
    let held = request.adjust.iter().chain(&request.covariates).cloned().collect();
    Remark::NotAdjusted { factor: request.factor.clone(), held, reason }
}

/// A remark where a model would have more effects than are fitted.
fn too_large(request: &ComparisonRequest, variables: &[Variable]) -> Option<Remark> {
    let levels = |v: &Variable| v.factor().map_or(1, |f| f.levels.len());
    let effects = 1 + variables.iter().map(|v| levels(v).saturating_sub(1).max(1)).sum::<usize>();
    let is_cut = effects > MOST_EFFECTS || variables.first().is_some_and(|v| levels(v) > MOST_LEVELS);
    is_cut.then(|| not_adjusted(request, NoAdjustment::TooLarge { effects, most: MOST_EFFECTS }))
}

/// Effects of the design that cannot be told apart.
fn confounded(design: &Design) -> Vec<Confounded> {
    let effect = |column: &String| effect(design, column);
    let aliased = design.aliased();
    let confounded = aliased
        .iter()
        .map(|a| Confounded { effect: effect(&a.column), with: a.depends_on.iter().map(effect).collect() });
    confounded.collect()
}

/// The level or covariate behind a column of a design without interactions.
fn effect(design: &Design, column: &str) -> Effect {
    let of_factor = |factor: &Factor| {
        let level = factor.levels.iter().find(|level| format!("{}={level}", factor.name) == column)?;
        Some(Effect { column: factor.name.clone(), level: Some(level.clone()) })
    };
    let found = design.variables.iter().filter_map(Variable::factor).find_map(of_factor);
    found.unwrap_or_else(|| Effect { column: column.to_owned(), level: None })
}

/// Columns that at least one trial has; the others are remarked upon.
fn known_columns<'r>(
    request: &'r ComparisonRequest,
    sample: &Sample<'_>,
    remarks: &mut Vec<Remark>,
) -> (Vec<&'r str>, Vec<&'r str>) {
    let mut keep = |name: &&'r str, any: bool| {
        if !any && !sample.is_empty() {
            remarks.push(Remark::ColumnEmpty((*name).to_owned()));
        }
        any
    };
    let adjust = request.adjust.iter().map(String::as_str).filter(|name| *name != request.factor);
    let adjust = adjust.filter(|name| keep(name, sample.trials.iter().any(|t| t.level(name).is_some()))).collect();
    let covariates = request.covariates.iter().map(String::as_str);
    let covariates =
        covariates.filter(|name| keep(name, sample.trials.iter().any(|t| number(t, name).is_some()))).collect();
    (adjust, covariates)
}

/// The trials that have all columns.
fn complete<'t>(
    request: &ComparisonRequest,
    sample: &Sample<'t>,
    adjust: &[&str],
    covariates: &[&str],
    remarks: &mut Vec<Remark>,
) -> Sample<'t> {
    let has = |i: &usize| {
        let trial = sample.trials[*i];
        adjust.iter().all(|name| trial.level(name).is_some())
            && covariates.iter().all(|name| number(trial, name).is_some())
    };
    let rows: Vec<usize> = (0..sample.len()).filter(has).collect();
    let left_out = sample.len() - rows.len();
    if left_out > 0 {
        remarks.push(Remark::Incomplete { factor: request.factor.clone(), left_out, of: sample.len() });
    }
    sample.keep(&rows)
}

fn factor(request: &ComparisonRequest, sample: &Sample<'_>, levels: &[String], numeric: bool) -> Variable {
    if numeric {
        let values = sample.labels.iter().map(|l| parse(l).unwrap_or(f64::NAN)).collect();
        return Variable::Covariate(Covariate { name: request.factor.clone(), values });
    }
    let code = |label: &&str| levels.iter().position(|l| l == label).unwrap_or(0);
    let codes = sample.labels.iter().map(code).collect();
    Variable::Factor(Factor { name: request.factor.clone(), levels: levels.to_vec(), codes })
}

/// Adjusting factors with two levels or more, and covariates that vary.
fn further(sample: &Sample<'_>, adjust: &[&str], covariates: &[&str]) -> Vec<Variable> {
    let factors = adjust.iter().map(|name| {
        let labels: Vec<&str> = sample.trials.iter().map(|t| t.level(name).unwrap_or_default()).collect();
        Factor::from_labels(*name, &labels)
    });
    let mut variables: Vec<Variable> = factors.filter(|f| f.levels.len() > 1).map(Variable::Factor).collect();
    for name in covariates {
        let values: Vec<f64> = sample.trials.iter().map(|t| number(t, name).unwrap_or(f64::NAN)).collect();
        let first = values.first().copied().unwrap_or(f64::NAN);
        if values.iter().any(|v| (v - first).abs() > 1e-9 * first.abs()) {
            variables.push(Variable::Covariate(Covariate { name: (*name).to_owned(), values }));
        }
    }
    variables
}

/// Blocks of the request's block column, where at least two trials share one and there are two; a trial without block is
/// one of its own.
fn blocks(request: &ComparisonRequest, sample: &Sample<'_>) -> Option<(String, Vec<usize>)> {
    let column = request.block.as_ref()?;
    let own: Vec<String> = sample
        .trials
        .iter()
        .map(|t| t.level(column).map_or_else(|| format!("\u{0}{}", t.trial), ToOwned::to_owned))
        .collect();
    let factor = Factor::from_labels(column.as_str(), &own);
    let count = factor.levels.len();
    (count > 1 && count < sample.len()).then(|| (column.clone(), factor.codes))
}
