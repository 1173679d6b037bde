//! From the measurement model to the estimates of a trial, and the reasons where there is none.

use super::inputs::Inputs;
use super::law;
use super::model::Model;
use super::slots::Slot;
use crate::Quantity;
use crate::assumed;
use crate::context::Context;
use crate::fact::{Derivation, Lack, Note};
use crate::result::{Missing, TrialEstimate, TrialResult};
use calefact_data::{Readings, RegisterRow, TrialKind};
use calefact_stats::contrast::cautious_dof;
use calefact_stats::freedom::Freedom;
use calefact_stats::{Estimate, propagate};

/// Quantities asked of each kind of trial.
pub(crate) fn asked(kind: TrialKind) -> &'static [Quantity] {
    use Quantity as Q;
    match kind {
        TrialKind::Burn => &[
            Q::HeatingRate,
            Q::HeatStored,
            Q::HeatDelivered,
            Q::HeatInput,
            Q::SteadyHeatInput,
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
pub(crate) fn fill(model: &Model, inputs: &Inputs, readings: &Readings, context: &Context, result: &mut TrialResult) {
    let traced = propagate::first_order(&inputs.slots, |x| model.evaluate(x));
    let freedom = Freedom::new(&inputs.slots, |source| inputs.own.get(source).or_else(|| context.book.get(source)));
    for &quantity in asked(model.kind) {
        let value = &traced[quantity as usize];
        if !value.value.is_finite() || !value.std_uncertainty().is_finite() {
            result.missing.extend(lacks(quantity, model, inputs, &result.row).map(|lacks| Missing { quantity, lacks }));
            continue;
        }
        let (u, dof) = (value.std_uncertainty(), cautious_dof(freedom.parts(value)));
        let level = context.settings.level;
        let plain = Estimate::student(value.value, context.unit(quantity), u, dof, level);
        if quantity.bounds().is_filled_by(plain.interval) {
            result.missing.push(Missing { quantity, lacks: vec![Lack::WholeRange] });
            continue;
        }
        let estimate = plain.within(quantity.bounds());
        let method = derivation(quantity, model, inputs).to_first_order();
        let notes = notes(quantity, model, inputs);
        result.estimates.push(TrialEstimate { quantity, estimate, traced: value.clone(), method, notes });
    }
    result.law = law::of_trial(&traced, &model.features, inputs, &result.row, readings);
    super::monte_carlo::refine(model, inputs, context, result);
}

/// How the value was obtained.
fn derivation(quantity: Quantity, model: &Model, inputs: &Inputs) -> Derivation {
    match quantity {
        Quantity::HeatInput => Derivation::MeanOverWindow,
        Quantity::SteadyHeatInput => Derivation::MeanOverSteadyPart,
        Quantity::HeatingRate if model.features.local_rate.is_some_and(|r| r.secant) => Derivation::Secant,
        Quantity::HeatingRate => Derivation::LocalSlope,
        Quantity::LossCoefficient => Derivation::CoolingLine(inputs.scatter_method),
        Quantity::ReferenceTime | Quantity::ReferenceFuel => Derivation::HeatBalance,
        Quantity::HeatDelivered => Derivation::EnthalpyAndLoss,
        Quantity::HeatStored => Derivation::Enthalpy,
        _ => Derivation::EnergyRatio,
    }
}

fn notes(quantity: Quantity, model: &Model, inputs: &Inputs) -> Vec<Note> {
    let mut notes: Vec<Note> = Vec::new();
    if needs(quantity).contains(&Slot::NetDry) {
        notes.extend(inputs.fuel_notes.iter().cloned());
    }
    if quantity == Quantity::HeatingRate {
        notes.push(Note::RateAt { tank_degc: model.features.rate_at });
    }
    notes
}

/// Slots a quantity of a burn cannot do without.
fn needs(quantity: Quantity) -> &'static [Slot] {
    use Quantity as Q;
    use Slot as S;
    match quantity {
        Q::HeatStored => &[S::Water, S::VesselCapacity],
        Q::HeatDelivered | Q::HeatInput | Q::SteadyHeatInput => {
            &[S::Water, S::VesselCapacity, S::Air, S::LossCoefficient]
        }
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
fn lacks(quantity: Quantity, model: &Model, inputs: &Inputs, row: &RegisterRow) -> Option<Vec<Lack>> {
    match quantity {
        Quantity::CostPerHeat if inputs.value(Slot::Price).is_nan() => return None,
        Quantity::ReferenceTime | Quantity::ReferenceFuel if model.job.is_none() => return None,
        Quantity::StoredFraction if model.kind == TrialKind::ReferenceHeater => {
            return Some(empty(&[Slot::Water, Slot::VesselCapacity, Slot::Power], model, inputs, row));
        }
        _ => {}
    }
    if quantity == Quantity::SteadyHeatInput && model.features.steady.is_none() {
        return Some(vec![Lack::SteadyPart]);
    }
    let fuel_based = needs(quantity).contains(&Slot::FuelMass);
    if model.kind == TrialKind::Burn && fuel_based && !model.features.whole {
        return Some(vec![Lack::WholeBurn]);
    }
    Some(empty(needs(quantity), model, inputs, row))
}

/// Inputs whose range is assumed once the wood is weighed.
const WITH_FUEL: [Slot; 4] = [Slot::Kindling, Slot::LeftoverFuel, Slot::LeftoverChar, Slot::Moisture];

/// The empty ones of some slots; of those that a weight of the wood would fill by a range, the weight alone.
fn empty(slots: &[Slot], model: &Model, inputs: &Inputs, row: &RegisterRow) -> Vec<Lack> {
    let is_empty = |slot: &&Slot| match slot {
        Slot::Air => !model.features.has_air(),
        _ => inputs.value(**slot).is_nan(),
    };
    let ranged = assumed::allowed(row) && inputs.value(Slot::FuelMass).is_nan();
    let is_lack = |slot: &&Slot| is_empty(slot) && !(ranged && WITH_FUEL.contains(slot));
    let lacks: Vec<Lack> = slots.iter().filter(is_lack).map(|s| Lack::Input(*s)).collect();
    if lacks.is_empty() { vec![Lack::Undefined] } else { lacks }
}
