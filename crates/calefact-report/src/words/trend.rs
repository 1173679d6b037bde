//! Trends along a number: one plain sentence each.

use super::comparison_finding::noun;
use super::confounding::inseparable;
use super::number::places;
use super::quantity::quantity_in_sentence;
use super::{Measure, Wording, plural, sentence};
use calefact_analysis::result::{Comparison, Step, Trend};

/// A step of the number that a quantity follows, as people read it.
pub(crate) struct StepWords {
    /// "per K of start temperature".
    pub(crate) per: String,
    /// Steps of the fact in a step shown: a trend in 1/K is five ninths of that in 1/°F.
    pub(crate) size: f64,
}

/// The step of a trend.
pub(crate) fn step(w: &Wording<'_>, trend: &Trend) -> StepWords {
    let number = trend.factor.replace('_', " ");
    match trend.step {
        Step::Kelvin => {
            let kelvin = w.unit(Measure::TemperatureDifference);
            StepWords { per: format!("per {} of {number}", kelvin.symbol), size: 1.0 / kelvin.width(1.0) }
        }
        Step::Point => StepWords { per: format!("per percentage point of {number}"), size: 1.0 },
        Step::Unit => StepWords { per: format!("per unit of {number}"), size: 1.0 },
    }
}

/// A trend of a comparison as a sentence.
pub(crate) fn trend(w: &Wording<'_>, comparison: &Comparison, trend: &Trend) -> String {
    sentence(&trend_clause(w, comparison, trend))
}

/// A trend of a comparison without capital and full stop.
pub(crate) fn trend_clause(w: &Wording<'_>, comparison: &Comparison, trend: &Trend) -> String {
    let StepWords { per, size } = step(w, trend);
    let (estimate, quantity) = (&trend.estimate, trend.quantity);
    let unit = w.unit_of_difference(quantity);
    let places = places(unit.width(estimate.std_uncertainty * size)).map_or(1, |two_digits| two_digits - 1);
    let number = |x: f64| w.typography.fixed(unit.width(x * size), places);
    let rises = estimate.value >= 0.0;
    let (lower, upper) = (estimate.interval.lower, estimate.interval.upper);
    let (low, high) = if rises { (lower, upper) } else { (-upper, -lower) };
    let slope = format!(
        "{} {per} ({} interval {} to {}), from {}",
        w.typography.join(&number(estimate.value.abs()), &unit.symbol),
        w.confidence(estimate.interval.confidence),
        number(low),
        number(high),
        plural(trend.n, noun(comparison.kind))
    );
    let (name, factor) = (quantity_in_sentence(quantity), trend.factor.replace('_', " "));
    if !trend.confounded.is_empty() {
        let way = if rises { "up" } else { "down" };
        let columns = trend.confounded.iter().map(String::as_str);
        return format!("how {name} follows {factor} {}: {way} {slope}", inseparable(w, columns));
    }
    if trend.follows() {
        return format!("{name} {} with {factor}: by {slope}", if rises { "rises" } else { "falls" });
    }
    if !estimate.interval.contains(0.0) {
        let way = if rises { "up" } else { "down" };
        return format!(
            "{name} may follow {factor}, which is not settled beside the other verdicts of the page: {way} {slope}"
        );
    }
    let down = if rises { "" } else { "down " };
    format!("no sign that {name} follows {factor}: {down}{slope}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Units, tests::comparison};
    use calefact_analysis::Quantity;
    use calefact_stats::{Estimate, UncertainValue};

    fn slope(factor: &str, step: Step, value: f64, p_value: f64) -> Trend {
        let estimate = Estimate::student(value, "1", 0.0002, f64::INFINITY, 0.95);
        Trend {
            quantity: Quantity::ThermalEfficiency,
            factor: factor.into(),
            step,
            n: 9,
            estimate,
            p_value,
            p_adjusted: p_value,
            confounded: vec![],
            traced: UncertainValue::exact(value),
        }
    }

    #[test]
    fn a_trend_says_which_way_and_how_fast() {
        let words = |t: &Trend| trend(&Wording::plain(), &comparison("damper", &[]), t);
        assert_eq!(
            words(&slope("damper", Step::Unit, -0.0006, 0.003)),
            "Thermal efficiency falls with damper: by 0.06 percentage points per unit of damper (95 % interval 0.02 to 0.10), from \
             9 burns."
        );
        assert_eq!(
            words(&slope("fuel_moisture", Step::Point, 0.0006, 0.003)),
            "Thermal efficiency rises with fuel moisture: by 0.06 percentage points per percentage point of fuel moisture (95 % \
             interval 0.02 to 0.10), from 9 burns."
        );
        assert_eq!(
            words(&slope("damper", Step::Unit, -0.0002, 0.3)),
            "No sign that thermal efficiency follows damper: down 0.02 percentage points per unit of damper (95 % interval -0.02 to \
             0.06), from 9 burns."
        );
    }

    #[test]
    fn a_step_of_a_temperature_is_in_the_units_of_the_reader() {
        let us = Wording { units: Units::Us, ..Wording::plain() };
        let fact = slope("start_temperature", Step::Kelvin, -0.0018, 0.003);
        assert_eq!(
            trend(&us, &comparison("damper", &[]), &fact),
            "Thermal efficiency falls with start temperature: by 0.10 percentage points per degF of start temperature (95 % interval \
             0.08 to 0.12), from 9 burns."
        );
        assert_eq!(step(&Wording::plain(), &fact).per, "per K of start temperature");
    }
}
