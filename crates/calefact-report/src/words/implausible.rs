//! Results that can hardly be right and char that no fire leaves, in words, and the slips that would explain them.

use super::quantity::short_quantity_name;
use super::{Wording, choice};
use calefact_analysis::fact::implausible::{ImplausibleResult, Slip};

/// Slips that a hint names.
const NAMED: usize = 2;

/// "results that can hardly be right: thermal efficiency 0.02 %, below 1 %; burn rate 7370 kg/h, above 30 kg/h".
pub(super) fn text(w: &Wording<'_>, results: &[ImplausibleResult]) -> String {
    let one = |r: &ImplausibleResult| {
        let unit = w.unit_of_quantity(r.quantity);
        let [value, limit] = [r.value, r.limit].map(|v| {
            let digits = w.typography.significant(unit.value(v), 2);
            w.typography.join(&digits, &unit.symbol)
        });
        let side = if r.is_above() { "above" } else { "below" };
        format!("{} {value}, {side} {limit}", short_quantity_name(r.quantity))
    };
    let count = if results.len() == 1 { "a result" } else { "results" };
    format!("{count} that can hardly be right: {}", results.iter().map(one).collect::<Vec<_>>().join("; "))
}

/// Char worth more than wood leaves in it.
pub(super) fn char_share(w: &Wording<'_>, share: f64, impossible: bool) -> String {
    let verdict = if impossible { "no fire leaves so much" } else { "hardly any fire leaves so much" };
    format!("the char left is worth {} of the energy of the wood burnt; {verdict}", w.percent(share))
}

/// What to check: the slips that would explain the results.
pub(super) fn hint(w: &Wording<'_>, slips: &[Slip]) -> Option<String> {
    let causes: Vec<String> = slips.iter().take(NAMED).map(|slip| explained(w, slip)).collect();
    let is_large = |slip: &Slip| !(0.1..10.0).contains(&slip.factor);
    let how = if slips.len() == 1 && slips.iter().all(is_large) { "likely" } else { "possible" };
    let check = "check the unit in the header and the decimal mark";
    (!causes.is_empty()).then(|| format!("{how} cause: {}; {check}", choice(&causes)))
}

/// "`fuel_mass` is 1000 times too large (kilograms under a header in tonnes, or a decimal comma read as a mark of thousands)".
fn explained(w: &Wording<'_>, slip: &Slip) -> String {
    let too_large = slip.factor < 1.0;
    let times = if too_large { 1.0 / slip.factor } else { slip.factor };
    let size = match (slip.column, too_large) {
        ("elapsed", true) => "too long",
        ("elapsed", false) => "too short",
        (_, true) => "too large",
        (_, false) => "too small",
    };
    let times = w.typography.significant(times, 2);
    format!("{} is {times} times {size} ({})", w.column(slip.column), mistaken(slip))
}

fn mistaken(slip: &Slip) -> &'static str {
    match (slip.column, slip.factor) {
        ("fuel_mass", f) if f < 0.01 => {
            "kilograms under a header in tonnes, or a decimal comma read as a mark of thousands"
        }
        ("fuel_mass", f) if f > 100.0 => {
            "kilograms under a header in grams, or a mark of thousands read as a decimal mark"
        }
        ("fuel_mass", f) if f < 1.0 => "pounds under a header in kilograms",
        ("fuel_mass", _) => "kilograms under a header in pounds",
        ("elapsed", f) if f > 100.0 => "hours under a header in seconds",
        ("elapsed", f) if f > 1.0 => "minutes under a header in seconds",
        ("elapsed", _) => "seconds under a header in minutes",
        (_, f) if f > 100.0 => "litres under a header in millilitres",
        (_, f) if f < 0.01 => "millilitres under a header in litres",
        (_, f) if f > 1.0 => "US gallons under a header in litres",
        _ => "litres under a header in US gallons",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_analysis::Quantity;

    #[test]
    fn results_are_named_with_their_limits() {
        let result = |quantity, value, limit| ImplausibleResult { quantity, value, limit };
        let results = [result(Quantity::ThermalEfficiency, 0.000_238, 0.01), result(Quantity::BurnRate, 7374.0, 30.0)];
        let plain = Wording::plain();
        assert_eq!(
            text(&plain, &results),
            "results that can hardly be right: thermal efficiency 0.024 %, below 1 %; burn rate 7374 kg/h, above 30 kg/h"
        );
        assert_eq!(
            text(&plain, &[result(Quantity::HeatInput, 317e3, 100e3)]),
            "a result that can hardly be right: mean heat flow over the trial 317 kW, above 100 kW"
        );
    }

    #[test]
    fn slips_are_explained() {
        let w = Wording::plain();
        let slip = |column, factor| Slip { column, factor };
        assert_eq!(
            hint(&w, &[slip("fuel_mass", 1e-3)]).as_deref(),
            Some(
                "likely cause: `fuel_mass` is 1000 times too large (kilograms under a header in tonnes, or a decimal comma read as a mark of thousands); check the unit in the header and the decimal mark"
            )
        );
        assert_eq!(
            hint(&w, &[slip("elapsed", 60.0), slip("water", 3.785_411_784)]).as_deref(),
            Some(
                "possible cause: `elapsed` is 60 times too short (minutes under a header in seconds) or `water` is 3.8 times too small (US gallons under a header in litres); check the unit in the header and the decimal mark"
            )
        );
        assert_eq!(hint(&w, &[]), None);
    }
}
