//! The currency of costs: put into units and sentences once everything is computed. No amount is converted.

use crate::Quantity;
use crate::result::Analysis;
use calefact_data::Apparatus;
use calefact_stats::Estimate;

/// The currency that all priced fuels state; `None` if there is none or more than one.
pub fn common(apparatus: &Apparatus) -> Option<String> {
    let mut stated = apparatus.fuels.values().filter_map(|f| f.currency.as_ref());
    let first = stated.next()?;
    stated.all(|c| c == first).then(|| first.clone())
}

/// Writes the currency into the unit of every cost, `1/kWh` to `EUR/kWh`, and into the sentences on costs.
pub fn name(analysis: &mut Analysis) {
    let Some(currency) = analysis.currency.clone() else { return };
    let cost = Quantity::CostPerHeat;
    let put = |e: &mut Estimate| e.unit = format!("{currency}/kWh").into();
    let trials = analysis.trials.iter_mut().flat_map(|t| &mut t.estimates);
    trials.filter(|e| e.quantity == cost).for_each(|e| put(&mut e.estimate));
    for comparison in &mut analysis.comparisons {
        comparison.groups.iter_mut().filter(|g| g.quantity == cost).for_each(|g| put(&mut g.mean));
        for contrast in comparison.contrasts.iter_mut().filter(|c| c.quantity == cost) {
            if contrast.estimate.unit == cost.unit() {
                put(&mut contrast.estimate);
            }
            contrast.sentence = spoken(&contrast.sentence, &currency);
        }
        for trend in comparison.trends.iter_mut().filter(|t| t.quantity == cost) {
            trend.estimate.unit = trend.estimate.unit.replacen(cost.unit(), &format!("{currency}/kWh"), 1).into();
            trend.sentence = spoken(&trend.sentence, &currency);
        }
    }
}

/// "0.13 per kWh" becomes "0.13 EUR per kWh"; "cost per kWh" stays.
fn spoken(sentence: &str, currency: &str) -> String {
    let mut parts = sentence.split(" per kWh");
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        if out.ends_with(|c: char| c.is_ascii_digit()) {
            out = out + " " + currency;
        }
        out = out + " per kWh" + part;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::apparatus::Fuel;

    #[test]
    fn only_amounts_are_given_a_currency() {
        let said = spoken("fuel cost per kWh of heat: 0.13 per kWh against 0.11 per kWh", "EUR");
        assert_eq!(said, "fuel cost per kWh of heat: 0.13 EUR per kWh against 0.11 EUR per kWh");
    }

    #[test]
    fn two_currencies_are_no_currency() {
        let fuel = |c: &str| Fuel { currency: Some(c.into()), ..Fuel::default() };
        let mut apparatus = Apparatus::default();
        assert_eq!(common(&apparatus), None);
        apparatus.fuels.insert("spruce".into(), fuel("EUR"));
        assert_eq!(common(&apparatus), Some("EUR".into()));
        apparatus.fuels.insert("beech".into(), fuel("CHF"));
        assert_eq!(common(&apparatus), None);
    }
}
