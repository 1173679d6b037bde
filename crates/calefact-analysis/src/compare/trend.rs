//! Slopes along a numeric factor and along covariates, with what can be said of them.

use super::adjusted::Model;
use super::conditions::{step, words};
use super::outcome::Slope;
use super::sentence::{capital, name, noun, plain};
use crate::Quantity;
use crate::result::Trend;
use crate::settings::ComparisonRequest;
use crate::words::{difference_unit, plural, spoken};
use calefact_stats::Estimate;
use calefact_stats::contrast::ContrastKind;
use calefact_stats::design::Variable;

/// Slopes of all numbers in the model, the factor's own first.
pub fn slopes(model: &Model<'_, '_>) -> Vec<Slope> {
    let variables = &model.frame.design.variables;
    let numbers = variables.iter().enumerate().filter(|(_, v)| matches!(v, Variable::Covariate(_)));
    let one = |(index, variable): (usize, &Variable)| {
        let l = model.frame.estimable(&model.frame.design.slope_row(index))?;
        let tested = model.test(&l, ContrastKind::Difference)?;
        Some(Slope { factor: variable.name().to_owned(), test: tested.test, n: model.frame.sample.len() })
    };
    numbers.filter_map(one).collect()
}

/// A slope as it is reported.
pub fn report(slope: &Slope, quantity: Quantity, request: &ComparisonRequest, level: f64) -> Trend {
    let (per, size) = step(&slope.factor);
    let unit = format!("{} {per}", quantity.unit());
    let (value, u) = (slope.test.effect * size, slope.test.effect_uncertainty * size);
    let estimate = Estimate::student(value, unit, u, slope.test.dof, level, "slope of the linear model");
    let mut trend = Trend {
        quantity,
        factor: slope.factor.clone(),
        per,
        n: slope.n,
        estimate,
        p_value: slope.test.p_value,
        sentence: String::new(),
    };
    trend.sentence = sentence(&trend, request);
    trend
}

fn sentence(trend: &Trend, request: &ComparisonRequest) -> String {
    let (q, e) = (trend.quantity, &trend.estimate);
    let (factor, _) = spoken(q);
    let sign = if e.value < 0.0 { -1.0 } else { 1.0 };
    let number = |x: f64| plain(x * factor, e.std_uncertainty * factor);
    let (low, high) = (sign * e.interval.lower, sign * e.interval.upper);
    let interval = format!(
        "{:.0} % interval {} to {}",
        100.0 * e.interval.confidence,
        number(low.min(high)),
        number(low.max(high))
    );
    let from = plural(trend.n, noun(request.kind));
    let (follows, size, unit) = (words(&trend.factor), number(sign * e.value), difference_unit(q));
    if trend.p_value < 1.0 - e.interval.confidence {
        let way = if sign > 0.0 { "rises" } else { "falls" };
        let what = capital(name(q));
        return format!("{what} {way} with {follows}: by {size}{unit} {} ({interval}), from {from}.", trend.per);
    }
    let down = if sign < 0.0 { "down " } else { "" };
    format!("No sign that {} follows {follows}: {down}{size}{unit} {} ({interval}), from {from}.", name(q), trend.per)
}
