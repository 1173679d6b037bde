//! The currency of costs: put into units and sentences once everything is computed. No amount is converted.

use crate::Quantity;
use crate::result::Analysis;
use calefact_stats::Estimate;

/// Writes the currency into the unit of every compared cost, `1/kWh` to `EUR/kWh`, and into the sentences on costs.
pub fn name(analysis: &mut Analysis) {
    let Some(currency) = analysis.currency.clone() else { return };
    let cost = Quantity::CostPerHeat;
    let put = |e: &mut Estimate| e.unit = format!("{currency}/kWh").into();
    for comparison in &mut analysis.comparisons {
        comparison.remarks.iter_mut().for_each(|remark| *remark = spoken(remark, &currency));
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

    #[test]
    fn only_amounts_are_given_a_currency() {
        let said = spoken("fuel cost per kWh of heat: 0.13 per kWh against 0.11 per kWh", "EUR");
        assert_eq!(said, "fuel cost per kWh of heat: 0.13 EUR per kWh against 0.11 EUR per kWh");
    }
}
