//! From the measurement model to the estimates of a trial, and the reasons where there is none.

use super::inputs::Inputs;
use super::model::Model;
use super::slots::Slot;
use crate::Quantity;
use crate::context::Context;
use crate::result::{Missing, TrialEstimate, TrialResult};
use crate::settings::Propagation;
use calefact_data::TrialKind;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::freedom::Freedom;
use calefact_stats::{Estimate, propagate};

/// Quantities asked of each kind of trial.
pub fn asked(kind: TrialKind) -> &'static [Quantity] {
    use Quantity as Q;
    match kind {
        TrialKind::Burn => &[
            Q::HeatingRate,
            Q::HeatStored,
            Q::HeatDelivered,
            Q::HeatInput,
            Q::FuelEnergy,
            Q::ThermalEfficiency,
            Q::ThermalEfficiencyUncredited,
            Q::ThermalEfficiencyGross,
            Q::ThermalEfficiencyGrossUncredited,
            Q::StoredFraction,
            Q::FuelPerHeat,
            Q::BurnRate,
            Q::CostPerHeat,
            Q::ReferenceTime,
            Q::ReferenceFuel,
        ],
        TrialKind::StandingLoss => &[Q::LossCoefficient],
        TrialKind::ReferenceHeater => {
            &[Q::HeatingRate, Q::HeatStored, Q::HeatDelivered, Q::HeatInput, Q::StoredFraction, Q::ReferenceHeaterRatio]
        }
    }
}

/// Propagates the model and writes estimates and missing quantities into the result.
pub fn fill(model: &Model, inputs: &Inputs, context: &Context, result: &mut TrialResult) {
    let traced = propagate::first_order(&inputs.slots, |x| model.evaluate(x));
    let freedom = Freedom::new(&inputs.slots, |source| inputs.own.get(source).or_else(|| context.book.get(source)));
    for &quantity in asked(model.kind) {
        let value = &traced[quantity as usize];
        if !value.value.is_finite() {
            result.missing.extend(reason(quantity, model, inputs).map(|reason| Missing { quantity, reason }));
            continue;
        }
        let (u, dof) = (value.std_uncertainty(), cautious_dof(freedom.parts(value)));
        let level = context.settings.level;
        let estimate =
            Estimate::student(value.value, context.unit(quantity), u, dof, level, method(quantity, model, inputs));
        let note = note(quantity, model, inputs);
        result.estimates.push(TrialEstimate { quantity, estimate, traced: value.clone(), note });
    }
    if let Propagation::MonteCarlo { .. } = context.settings.propagation {
        super::monte_carlo::refine(model, inputs, context, result);
    }
}

/// How the value and its uncertainty were obtained.
fn method(quantity: Quantity, model: &Model, inputs: &Inputs) -> String {
    let scatter = inputs.scatter_method;
    match quantity {
        Quantity::HeatInput if !model.features.line_fits => "mean over the window; first order".into(),
        Quantity::HeatInput => format!("heat line; {scatter}; first order"),
        Quantity::HeatingRate if model.features.rate_from_line() => format!("heat line; {scatter}; first order"),
        Quantity::HeatingRate => "local slope; first order".into(),
        Quantity::LossCoefficient => format!("cooling line; {scatter}; first order"),
        Quantity::ReferenceTime | Quantity::ReferenceFuel => "closed form of the heat balance; first order".into(),
        Quantity::HeatDelivered => "enthalpy plus standing loss; first order".into(),
        Quantity::HeatStored => "enthalpy; first order".into(),
        _ => "ratio of energies; first order".into(),
    }
}

fn note(quantity: Quantity, model: &Model, inputs: &Inputs) -> String {
    let mut notes: Vec<String> = Vec::new();
    if needs(quantity).contains(&Slot::NetDry) {
        notes.extend(inputs.assumed.iter().cloned());
    }
    if quantity == Quantity::HeatingRate {
        notes.push(format!("at a tank of {} degC", model.features.rate_at.0));
    }
    notes.join("; ")
}

/// Slots a quantity of a burn cannot do without.
fn needs(quantity: Quantity) -> &'static [Slot] {
    use Quantity as Q;
    use Slot as S;
    match quantity {
        Q::HeatStored => &[S::Water, S::VesselCapacity],
        Q::HeatDelivered => &[S::Water, S::VesselCapacity, S::Air, S::LossCoefficient],
        Q::HeatInput => &[S::Water, S::VesselCapacity, S::Air, S::LossCoefficient, S::LineNoise],
        Q::HeatingRate => &[S::RateNoise],
        Q::LossCoefficient => &[S::Water, S::VesselCapacity, S::Air, S::LossNoise],
        Q::ReferenceHeaterRatio => &[S::Water, S::VesselCapacity, S::Air, S::LossCoefficient, S::Power],
        Q::BurnRate => &[S::FuelMass, S::Kindling, S::LeftoverFuel],
        Q::FuelPerHeat => &[S::VesselCapacity, S::Air, S::LossCoefficient, S::FuelMass, S::Kindling, S::LeftoverFuel],
        Q::FuelEnergy => {
            &[S::FuelMass, S::Kindling, S::Moisture, S::NetDry, S::LeftoverFuel, S::LeftoverChar, S::CharValue]
        }
        Q::ThermalEfficiencyUncredited | Q::ThermalEfficiencyGrossUncredited => {
            &[S::VesselCapacity, S::Air, S::LossCoefficient, S::FuelMass, S::Kindling, S::Moisture, S::NetDry]
        }
        _ => &[
            S::VesselCapacity,
            S::Air,
            S::LossCoefficient,
            S::FuelMass,
            S::Kindling,
            S::Moisture,
            S::NetDry,
            S::LeftoverFuel,
            S::LeftoverChar,
            S::CharValue,
        ],
    }
}

/// Why a quantity is missing; `None` where it was not to be expected (no price, no reference job).
fn reason(quantity: Quantity, model: &Model, inputs: &Inputs) -> Option<String> {
    match quantity {
        Quantity::CostPerHeat if inputs.value(Slot::Price).is_nan() => return None,
        Quantity::ReferenceTime | Quantity::ReferenceFuel if model.job.is_none() => return None,
        Quantity::StoredFraction if model.kind == TrialKind::ReferenceHeater => {
            return Some(lacking(&[Slot::Water, Slot::VesselCapacity, Slot::Power], model, inputs));
        }
        _ => {}
    }
    let fuel_based = needs(quantity).contains(&Slot::FuelMass);
    if model.kind == TrialKind::Burn && fuel_based && !model.features.whole {
        return Some("the fuel was weighed for the whole burn, but the window covers a part of it".into());
    }
    Some(lacking(needs(quantity), model, inputs))
}

fn lacking(slots: &[Slot], model: &Model, inputs: &Inputs) -> String {
    let empty = |slot: &&Slot| match slot {
        Slot::Air => !model.features.has_air(),
        _ => inputs.value(**slot).is_nan(),
    };
    let words: Vec<&str> = slots.iter().filter(empty).map(|s| s.lack()).collect();
    if words.is_empty() { "the numbers do not allow it (see the findings)".into() } else { words.join("; ") }
}
