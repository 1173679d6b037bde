//! Slopes along a numeric factor and along covariates.

use super::adjusted::Model;
use super::conditions::step;
use super::outcome::{Question, Slope};
use super::scatter::SCATTER;
use crate::Quantity;
use crate::result::Trend;
use calefact_stats::contrast::ContrastKind;
use calefact_stats::design::Variable;
use calefact_stats::{Estimate, UncertainValue};

/// Slopes of all numbers in the model, the factor's own first.
pub(crate) fn slopes(model: &Model<'_, '_>) -> Vec<Slope> {
    let variables = &model.frame.design.variables;
    let numbers = variables.iter().enumerate().filter(|(_, v)| matches!(v, Variable::Covariate(_)));
    let one = |(index, variable): (usize, &Variable)| {
        let l = model.frame.estimable(&model.frame.design.slope_row(index))?;
        let tested = model.test(&l, ContrastKind::Difference)?;
        Some(Slope {
            factor: variable.name().to_owned(),
            p_value: tested.test.p_value,
            test: tested.test,
            n: model.frame.sample.len(),
            shared: tested.shared,
            confounded: Vec::new(),
        })
    };
    numbers.filter_map(one).collect()
}

/// A slope as it is reported.
pub(crate) fn report(slope: &Slope, quantity: Quantity, question: Question<'_>, p_adjusted: f64) -> Trend {
    let (step, size) = step(&slope.factor);
    let scatter = slope.test.effect_uncertainty.powi(2) - slope.shared.iter().map(|(_, p)| p * p).sum::<f64>();
    let traced = UncertainValue { value: slope.test.effect, parts: slope.shared.clone() };
    let (value, u) = (slope.test.effect * size, slope.test.effect_uncertainty * size);
    let unit = quantity.unit_in(question.currency);
    Trend {
        quantity,
        factor: slope.factor.clone(),
        step,
        n: slope.n,
        estimate: Estimate::student(value, unit, u, slope.test.dof, question.confidence),
        p_value: slope.test.p_value,
        p_adjusted,
        confounded: slope.confounded.clone(),
        traced: traced.with(SCATTER, scatter.max(0.0).sqrt()),
    }
}
