//! The design of an adjusted comparison: which trials, which effects, which blocks; or why there is none.

use super::conditions::{number, parse, words};
use super::sample::Sample;
use crate::settings::ComparisonRequest;
use crate::words::plural;
use calefact_stats::design::{Basis, Covariate, Design, Factor, Variable};
use calefact_stats::influence::{Outlyingness, studentized};
use nalgebra::{DMatrix, DVector};
use std::sync::Arc;

/// Whether a model is called for.
#[derive(Debug)]
pub enum Plan<'t> {
    /// No: compare the bare means, with these remarks.
    Plain(Vec<String>),
    /// Yes.
    Model(Box<Frame<'t>>),
}

/// Fixed effects and blocks of a model. Variable 0 is the factor compared.
#[derive(Debug)]
pub struct Frame<'t> {
    /// Trials with all that the model needs.
    pub sample: Sample<'t>,
    /// Fixed effects.
    pub design: Design,
    /// Independent columns of the design.
    pub matrix: DMatrix<f64>,
    /// Block column and the block of each trial.
    pub blocks: Option<(String, Vec<usize>)>,
    /// Whether the factor is a number, so that it has a slope and no levels.
    pub numeric: bool,
    /// Levels of the factor, in order.
    pub levels: Vec<String>,
    /// Remarks.
    pub remarks: Vec<String>,
    whole: bool,
    basis: Basis,
}

/// Whether all levels are numbers and there are more than two.
pub fn is_numeric(levels: &[String]) -> bool {
    levels.len() > 2 && levels.iter().all(|l| parse(l).is_some())
}

impl<'t> Frame<'t> {
    /// What the request and the trials allow.
    pub fn plan(request: &ComparisonRequest, sample: &Sample<'t>, order: &[String]) -> Plan<'t> {
        let numeric = is_numeric(order);
        let mut remarks = Vec::new();
        let (adjust, covariates) = known_columns(request, sample, &mut remarks);
        let sample = complete(request, sample, &adjust, &covariates, &mut remarks);
        let levels = sample.levels(order);
        let blocks = blocks(request, &sample);
        let further = further(&sample, &adjust, &covariates);
        let asked = numeric || blocks.is_some() || !further.is_empty();
        if levels.len() < 2 || !asked {
            return Plan::Plain(remarks);
        }
        let mut variables = vec![factor(request, &sample, &levels, numeric)];
        variables.extend(further);
        let design = match Design::new(variables, &[]) {
            Ok(design) => design,
            Err(error) => return Plan::Plain(vec![not_adjusted(request, &error.to_string())]),
        };
        let basis = Basis::new(&design.matrix);
        let matrix = design.matrix.select_columns(&basis.kept);
        let whole = basis.dependent.is_empty();
        let frame = Self { sample, design, matrix, blocks, numeric, levels, remarks, whole, basis };
        frame.checked(request)
    }

    /// The frame, if the factor's effects can be told from the others and scatter is left.
    fn checked(mut self, request: &ComparisonRequest) -> Plan<'t> {
        let (n, effects) = (self.sample.len(), self.basis.kept.len());
        if n <= effects {
            let why = format!("{} cannot carry {effects} effects and a scatter", plural(n, "burn"));
            return Plan::Plain(vec![not_adjusted(request, &why)]);
        }
        if self.whole {
            return Plan::Model(Box::new(self));
        }
        let why: Vec<String> = self.design.aliased().iter().map(ToString::to_string).collect();
        let why = why.join("; ").replace('=', " ");
        if self.rows().iter().any(|row| self.estimable(row).is_none()) {
            return Plan::Plain(vec![not_adjusted(request, &why)]);
        }
        self.remarks.push(why);
        Plan::Model(Box::new(self))
    }

    /// What is asked of the factor, over the design's columns: its slope, or the mean of each level.
    pub fn rows(&self) -> Vec<Vec<f64>> {
        if self.numeric { vec![self.design.slope_row(0)] } else { self.design.marginal_rows(0).unwrap_or_default() }
    }

    /// Over the independent columns; none where these trials cannot tell.
    pub fn estimable(&self, row: &[f64]) -> Option<Vec<f64>> {
        if self.whole { Some(row.to_vec()) } else { self.design.estimable(row) }
    }

    /// Number of independent effects.
    pub fn effects(&self) -> usize {
        self.basis.kept.len()
    }

    /// Trials that are odd beside what the fixed effects expect of them.
    pub fn odd(&self) -> Vec<(Arc<str>, Outlyingness)> {
        let residuals = self.basis.residuals(&DVector::from_vec(self.sample.bare()));
        let found = studentized(residuals.as_slice(), &self.basis.leverage(), self.effects());
        self.sample.odd(&found, self.effects())
    }
}

fn not_adjusted(request: &ComparisonRequest, why: &str) -> String {
    let held: Vec<String> = request.adjust.iter().chain(&request.covariates).map(|c| words(c)).collect();
    let held = if held.is_empty() { String::new() } else { format!(" for {}", held.join(", ")) };
    format!("the comparison of {} is not adjusted{held}: {why}", request.factor)
}

/// Columns that at least one trial has; the others are remarked upon.
fn known_columns<'r>(
    request: &'r ComparisonRequest,
    sample: &Sample<'_>,
    remarks: &mut Vec<String>,
) -> (Vec<&'r str>, Vec<&'r str>) {
    let mut keep = |name: &&'r str, any: bool| {
        if !any && !sample.is_empty() {
            remarks.push(format!("no burn has {}, so nothing is adjusted for it", words(name)));
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
    remarks: &mut Vec<String>,
) -> Sample<'t> {
    let has = |i: &usize| {
        let trial = sample.trials[*i];
        adjust.iter().all(|name| trial.level(name).is_some())
            && covariates.iter().all(|name| number(trial, name).is_some())
    };
    let rows: Vec<usize> = (0..sample.len()).filter(has).collect();
    let lacking = sample.len() - rows.len();
    if lacking > 0 {
        remarks.push(format!(
            "{} of {} left out of the comparison of {}: a column it is adjusted for is blank",
            lacking,
            plural(sample.len(), "burn"),
            request.factor
        ));
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
