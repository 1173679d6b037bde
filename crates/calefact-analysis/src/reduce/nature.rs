//! Results of a trial against nature and against common practice: more heat than was supplied, char worth more than wood
//! can leave, results that can hardly be right. The limits are in `limits`.

use super::inputs::Inputs;
use super::limits::{CHAR_HARDLY, CHAR_IMPOSSIBLE, Judged};
use super::model::Model;
use super::slots::Slot;
use crate::Quantity;
use crate::fact::TrialFact;
use crate::fact::trial::Supply;
use crate::finding::Finding;
use crate::result::{TrialEstimate, TrialResult};
use calefact_data::{Severity, TrialKind};
use calefact_physics::{fuel, water};
use calefact_stats::UncertainValue;
use calefact_stats::dist::t_quantile;

/// Probability with which a sound trial that turns all its fuel into heat counts as impossible.
const FALSE_ALARM: f64 = 1e-3;

/// Findings on what the trial results in.
pub(crate) fn findings(result: &TrialResult, model: &Model, inputs: &Inputs) -> Vec<Finding> {
    let judged = Judged::new(|q| Some(result.get(q)?.estimate.value), water_share(model, inputs));
    let above = heat_above_supply(result, &judged);
    let burn = result.row.kind == TrialKind::Burn;
    let implausible = if burn { implausible(&judged, above.is_some()) } else { None };
    let above = above.map(Finding::error);
    above.into_iter().chain(char_share(inputs)).chain(implausible.map(Finding::warning)).collect()
}

/// Share of the water in the heat capacity of water and vessel; one where the vessel's is not known.
fn water_share(model: &Model, inputs: &Inputs) -> f64 {
    let capacity = inputs.capacity(&model.features);
    let water = capacity.water_kg * water::heat_capacity(model.features.start_c);
    if capacity.vessel.is_finite() { water / (water + capacity.vessel) } else { 1.0 }
}

/// First law: no more heat than was supplied, beyond what the uncertainty allows.
fn heat_above_supply(result: &TrialResult, judged: &Judged) -> Option<TrialFact> {
    use Quantity as Q;
    let (supply, ratios): (_, &[(Q, Q)]) = match result.row.kind {
        TrialKind::Burn => (
            Supply::Fuel,
            &[
                (Q::HeatDelivered, Q::ThermalEfficiency),
                (Q::HeatStored, Q::StoredFraction),
                (Q::HeatDelivered, Q::ThermalEfficiencyUncredited),
            ],
        ),
        _ => (Supply::Electricity, &[(Q::HeatDelivered, Q::ReferenceHeaterRatio), (Q::HeatStored, Q::StoredFraction)]),
    };
    let known = ratios.iter().filter_map(|(heat, ratio)| Some((&result.get(*heat)?.traced, result.get(*ratio)?)));
    let (_, found) = known.into_iter().find(|(heat, ratio)| is_above_supply(heat, ratio))?;
    let slips = if supply == Supply::Fuel { judged.slips() } else { Vec::new() };
    Some(TrialFact::HeatAboveSupply { supply, ratio: found.estimate.value, slips })
}

/// Whether heat Q exceeds the supply E = Q / r beyond doubt: Q - E > t u(Q - E), with the one-sided quantile t of a
/// [`FALSE_ALARM`]. This is the test of r > 1 by Fieller's theorem (E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175), which
/// a supply that is hardly known does not weaken as it does r - 2 u(r) > 1. To first order dE = dQ/r - Q dr/r^2, so that
/// d(Q - E) = (1 - 1/r) dQ + Q/r^2 dr.
fn is_above_supply(heat: &UncertainValue, ratio: &TrialEstimate) -> bool {
    let (q, r) = (heat.value, ratio.traced.value);
    let excess = UncertainValue::combine(&[(1.0 - 1.0 / r, heat), (q / (r * r), &ratio.traced)]);
    let t = t_quantile(1.0 - FALSE_ALARM, ratio.estimate.dof);
    r > 1.0 && q * (1.0 - 1.0 / r) > t * excess.std_uncertainty()
}

/// Char worth more of the energy of the wood burnt than wood can leave in char.
fn char_share(inputs: &Inputs) -> Option<Finding> {
    let or_zero = |slot| Some(inputs.value(slot)).filter(|v| v.is_finite()).unwrap_or(0.0);
    let burnt = inputs.value(Slot::FuelMass) + or_zero(Slot::Kindling) - or_zero(Slot::LeftoverFuel);
    let wood = burnt * fuel::net_as_fired(inputs.value(Slot::NetDry), inputs.value(Slot::Moisture));
    let share = inputs.value(Slot::LeftoverChar) * inputs.value(Slot::CharValue) / wood;
    if wood <= 0.0 || share.is_nan() || share <= CHAR_HARDLY {
        return None;
    }
    let impossible = share > CHAR_IMPOSSIBLE;
    let severity = if impossible { Severity::Error } else { Severity::Warning };
    Some(Finding::new(severity, TrialFact::CharShare { share, impossible }))
}

/// Results that can hardly be right; an efficiency that is an error already is not named again.
fn implausible(judged: &Judged, is_above_supply: bool) -> Option<TrialFact> {
    let mut results = judged.implausible();
    results.retain(|r| !(is_above_supply && r.value > 1.0 && r.quantity.unit() == "1"));
    (!results.is_empty()).then(|| TrialFact::Implausible { results, slips: judged.slips() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fact::Derivation;
    use crate::test_support::row;
    use calefact_stats::{Estimate, Source, rng};
    use rand_distr::{Distribution, StandardNormal};

    fn estimate(quantity: Quantity, traced: UncertainValue, dof: f64) -> TrialEstimate {
        TrialEstimate {
            quantity,
            estimate: Estimate::student(traced.value, quantity.unit(), traced.std_uncertainty(), dof, 0.95),
            traced,
            method: Derivation::EnergyRatio.to_first_order(),
            notes: Vec::new(),
        }
    }

    /// Heat and supply with independent relative uncertainties, as their ratio shows them.
    fn heat_and_ratio(heat: f64, supply: f64, (u_heat, u_supply): (f64, f64), dof: f64) -> [TrialEstimate; 2] {
        let r = heat / supply;
        let sources: [Source; 2] = ["heat".into(), "supply".into()];
        let delivered = UncertainValue::new(heat, sources[0].clone(), u_heat * heat);
        let ratio = UncertainValue::new(r, sources[0].clone(), r * u_heat).with(sources[1].clone(), -r * u_supply);
        [estimate(Quantity::HeatDelivered, delivered, dof), estimate(Quantity::ThermalEfficiency, ratio, dof)]
    }

    fn above(kind: TrialKind, estimates: Vec<TrialEstimate>) -> Option<TrialFact> {
        let mut result = TrialResult::empty(row(kind), 5, Vec::new());
        result.estimates = estimates;
        heat_above_supply(&result, &Judged::new(|_| None, 1.0))
    }

    fn is_above(heat: f64, supply: f64, u: (f64, f64), dof: f64) -> bool {
        let [heat, ratio] = heat_and_ratio(heat, supply, u, dof);
        is_above_supply(&heat.traced, &ratio)
    }

    /// t of one in a thousand is 3.0902 for many degrees of freedom and 10.2145 for three (tables of Student's t).
    #[test]
    fn heat_above_the_supply_counts_beyond_a_false_alarm_in_a_thousand() {
        assert!(!is_above(13.0, 10.0, (0.1, 0.0), f64::INFINITY), "3 of 1.3: 2.3 standard uncertainties");
        assert!(is_above(15.0, 10.0, (0.1, 0.0), f64::INFINITY), "5 of 1.5: 3.3 standard uncertainties");
        assert!(!is_above(15.0, 10.0, (0.1, 0.0), 3.0));
        assert!(!is_above(9.9, 10.0, (0.0, 0.0), f64::INFINITY));
        assert!(is_above(10.1, 10.0, (0.0, 0.0), f64::INFINITY));
    }

    /// r = 2.3 with u(r) = 0.69: r - 2 u(r) is below one, though the fuel would have to be 4.3 u(E) above its estimate.
    #[test]
    fn a_supply_that_is_hardly_known_hides_no_excess() {
        assert!(is_above(23.0, 10.0, (0.0, 0.3), f64::INFINITY));
        assert!(!is_above(18.0, 10.0, (0.0, 0.3), f64::INFINITY));
    }

    /// A trial that turns all its fuel into heat is called impossible once in a thousand: 40 +- 6 of 40 000.
    #[test]
    fn false_alarms_are_as_rare_as_stated() {
        let mut rng = rng::stream(7, "heat above supply");
        let mut measured = |u: f64| -> f64 { 10.0 + u * Distribution::<f64>::sample(&StandardNormal, &mut rng) };
        let alarm = |_: &u32| {
            let (heat, supply) = (measured(0.3), measured(0.8));
            is_above(heat, supply, (0.3 / heat, 0.8 / supply), f64::INFINITY)
        };
        let alarms = (0..40_000).filter(alarm).count();
        assert!((20..=65).contains(&alarms), "{alarms} false alarms");
    }

    #[test]
    fn stored_heat_and_electricity_are_judged_too() {
        let ratio = |q, r: f64| estimate(q, UncertainValue::new(r, "x", 0.05), f64::INFINITY);
        let heat = |q| estimate(q, UncertainValue::exact(20.0), f64::INFINITY);
        let stored = vec![heat(Quantity::HeatStored), ratio(Quantity::StoredFraction, 1.3)];
        let fuel = TrialFact::HeatAboveSupply { supply: Supply::Fuel, ratio: 1.3, slips: Vec::new() };
        assert_eq!(above(TrialKind::Burn, stored), Some(fuel));
        let heater = vec![heat(Quantity::HeatDelivered), ratio(Quantity::ReferenceHeaterRatio, 1.4)];
        let electricity = TrialFact::HeatAboveSupply { supply: Supply::Electricity, ratio: 1.4, slips: Vec::new() };
        assert_eq!(above(TrialKind::ReferenceHeater, heater), Some(electricity));
    }

    #[test]
    fn an_efficiency_that_is_an_error_is_not_also_a_warning() {
        let value = |q| match q {
            Quantity::ThermalEfficiency => Some(1.9),
            Quantity::HeatInput => Some(317e3),
            _ => None,
        };
        let judged = Judged::new(value, 1.0);
        let named = |above| match implausible(&judged, above) {
            Some(TrialFact::Implausible { results, .. }) => results.iter().map(|r| r.quantity).collect(),
            _ => Vec::new(),
        };
        assert_eq!(named(false), [Quantity::ThermalEfficiency, Quantity::HeatInput]);
        assert_eq!(named(true), [Quantity::HeatInput]);
    }
}
