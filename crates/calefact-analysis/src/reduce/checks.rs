//! Checks of a reduced trial: what stops it from being compared, and what the reader should know. Results against nature
//! are in `nature`.

use super::inputs::Inputs;
use super::model::Model;
use super::nature;
use crate::Quantity;
use crate::context::Context;
use crate::fact::TrialFact;
use crate::finding::Finding;
use crate::result::TrialResult;
use crate::series::Series;
use calefact_physics::air;

/// Kelvin above the boiling point of the standard atmosphere that weather can explain (3 kPa are 0.85 K).
const WEATHER_MARGIN: f64 = 1.0;

/// All findings of a reduced trial.
pub(crate) fn after(
    result: &TrialResult,
    series: &Series,
    model: &Model,
    inputs: &Inputs,
    context: &Context,
) -> Vec<Finding> {
    let errors = [above_boiling(result, series, context), no_heat_gained(result), loss_not_positive(result)];
    let notes = [misfit(result), excluded(result)];
    let errors = errors.into_iter().flatten().map(Finding::error);
    let notes = notes.into_iter().flatten().map(Finding::note);
    let all = errors.chain(nature::findings(result, model, inputs)).chain(notes);
    all.map(|finding| finding.at(result.row.log.clone(), None, None)).collect()
}

fn above_boiling(result: &TrialResult, series: &Series, context: &Context) -> Option<TrialFact> {
    let altitude_m = result.row.altitude.or(context.apparatus.site.altitude_m);
    let boiling_degc = air::boiling_point(altitude_m.unwrap_or(0.0));
    let u = context.tank_probe().map_or(0.0, |probe| probe.std_uncertainty(boiling_degc));
    let (i, &highest_degc) = series.tank.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
    let fact = TrialFact::AboveBoiling { highest_degc, at_s: series.t[i], boiling_degc, altitude_m };
    (highest_degc > boiling_degc + WEATHER_MARGIN + 2.0 * u).then_some(fact)
}

fn no_heat_gained(result: &TrialResult) -> Option<TrialFact> {
    let energy_mj = result.get(Quantity::FuelEnergy)?.estimate.value;
    let stored_mj = result.get(Quantity::HeatStored)?.estimate.value;
    match (energy_mj > 0.0, stored_mj > 0.0) {
        (true, true) => None,
        (false, _) => Some(TrialFact::NoFuelEnergy { energy_mj }),
        (true, false) => Some(TrialFact::NotWarmed { stored_mj }),
    }
}

fn loss_not_positive(result: &TrialResult) -> Option<TrialFact> {
    let loss = result.get(Quantity::LossCoefficient)?;
    (loss.estimate.value <= 0.0).then_some(TrialFact::LossNotPositive)
}

fn misfit(result: &TrialResult) -> Option<TrialFact> {
    result.fit.filter(|f| !f.fits).map(TrialFact::Misfit)
}

fn excluded(result: &TrialResult) -> Option<TrialFact> {
    result.row.exclude.clone().map(|reason| TrialFact::Excluded { reason })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fact::Derivation;
    use crate::result::TrialEstimate;
    use crate::test_support::row;
    use calefact_data::TrialKind;
    use calefact_stats::{Estimate, UncertainValue};

    fn result(kind: TrialKind, values: &[(Quantity, f64, f64)]) -> TrialResult {
        let mut result = TrialResult::empty(row(kind), 5, Vec::new());
        result.estimates = values
            .iter()
            .map(|(quantity, value, u)| TrialEstimate {
                quantity: *quantity,
                estimate: Estimate::student(*value, quantity.unit(), *u, f64::INFINITY, 0.95),
                traced: UncertainValue::exact(*value),
                method: Derivation::EnergyRatio.to_first_order(),
                notes: Vec::new(),
            })
            .collect();
        result
    }

    #[test]
    fn heat_and_fuel_must_be_positive() {
        let burn = |energy, stored| {
            let values = [(Quantity::FuelEnergy, energy, 0.1), (Quantity::HeatStored, stored, 0.1)];
            no_heat_gained(&result(TrialKind::Burn, &values))
        };
        assert_eq!(burn(100.0, 20.0), None);
        assert_eq!(burn(-1.0, 20.0), Some(TrialFact::NoFuelEnergy { energy_mj: -1.0 }));
        assert_eq!(burn(100.0, -2.0), Some(TrialFact::NotWarmed { stored_mj: -2.0 }));
        let loss =
            |value| loss_not_positive(&result(TrialKind::StandingLoss, &[(Quantity::LossCoefficient, value, 0.1)]));
        assert_eq!((loss(2.0), loss(-0.1)), (None, Some(TrialFact::LossNotPositive)));
    }
}
