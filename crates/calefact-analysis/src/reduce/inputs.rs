//! The inputs of one trial: values from register and apparatus, each with its parts by source of error.

use super::features::{Capacity, Features};
use super::slots::Slot;
use crate::context::Context;
use crate::fact::{ErrorSource, Note, ScatterMethod, TrialError};
use calefact_data::apparatus::{Fuel, Stated};
use calefact_data::{MoistureBasis, RegisterRow, Water};
use calefact_physics::{fuel, water};
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};

/// Inputs by slot, with the trial's own sources and remarks on assumptions.
#[derive(Debug, Clone)]
pub(crate) struct Inputs {
    /// One traced value a slot; NaN where the trial has none.
    pub(crate) slots: Vec<UncertainValue>,
    /// Sources that belong to this trial alone.
    pub(crate) own: ErrorSources,
    /// Gross minus net calorific value of dry fuel, J/kg; NaN if the fuel is unknown.
    pub(crate) gross_extra: f64,
    /// How the scatter about the fitted line became an uncertainty.
    pub(crate) scatter_method: ScatterMethod,
    /// Assumptions made, for the notes of the estimates.
    pub(crate) assumed: Vec<Note>,
}

impl Inputs {
    /// Inputs from register and apparatus; those that come from fits are added with [`Inputs::noise`].
    pub(crate) fn new(row: &RegisterRow, context: &Context) -> Self {
        let mut inputs = Self {
            slots: vec![UncertainValue::exact(f64::NAN); Slot::COUNT],
            own: ErrorSources::new(),
            gross_extra: f64::NAN,
            scatter_method: ScatterMethod::DisplayStep,
            assumed: Vec::new(),
        };
        inputs.vessel(row, context);
        inputs.probes(context);
        inputs.fuel(row, context);
        inputs.weighings(row, context);
        inputs.set_measured(Slot::Power, "heater_power", row.heater_power, row, context);
        inputs.set(Slot::Rig, context.rig.clone().unwrap_or_else(|| UncertainValue::exact(1.0)));
        inputs
    }

    /// The value of a slot.
    pub(crate) fn value(&self, slot: Slot) -> f64 {
        self.slots[slot as usize].value
    }

    /// Heat capacity and loss coefficient at their best estimates.
    pub(crate) fn capacity(&self, features: &Features) -> Capacity {
        let amount = self.value(Slot::Water);
        Capacity {
            water_kg: if features.water_is_mass { amount } else { amount * water::density(features.fill_c) },
            vessel: self.value(Slot::VesselCapacity),
            loss: self.value(Slot::LossCoefficient),
        }
    }

    /// Puts a traced value into a slot.
    pub(crate) fn set(&mut self, slot: Slot, value: UncertainValue) {
        self.slots[slot as usize] = value;
    }

    /// Adds a random error of this trial to a slot (zero if it was empty).
    pub(crate) fn noise(&mut self, slot: Slot, trial: &str, error: TrialError, std_uncertainty: f64, dof: f64) {
        let slot = &mut self.slots[slot as usize];
        if slot.value.is_nan() {
            *slot = UncertainValue::exact(0.0);
        }
        let (source, info) = own_source(trial, error, dof);
        *slot = std::mem::take(slot).with(source.clone(), std_uncertainty);
        self.own.insert(source, info);
    }

    fn vessel(&mut self, row: &RegisterRow, context: &Context) {
        let vessel = context.apparatus.vessels.get(&row.vessel);
        let amount = match row.water {
            Water::Volume(v) | Water::Mass(v) => v,
        };
        self.set_measured(Slot::Water, "water", Some(amount), row, context);
        let capacity = vessel.and_then(|v| v.heat_capacity);
        self.set(Slot::VesselCapacity, stated(capacity, &ErrorSource::HeatCapacity { vessel: row.vessel.clone() }));
        if let Some(loss) = context.loss(&row.vessel) {
            self.set(Slot::LossCoefficient, loss.clone());
        }
    }

    fn probes(&mut self, context: &Context) {
        let (mut low, mut high, mut air) =
            (UncertainValue::exact(0.0), UncertainValue::exact(0.0), UncertainValue::exact(0.0));
        if let Some(error) = context.errors.column("tank") {
            low = error.low.iter().fold(low, |t, (s, u)| t.with(s.clone(), *u));
            high = error.high.iter().fold(high, |t, (s, u)| t.with(s.clone(), *u));
        }
        if let Some(error) = context.errors.column("ambient") {
            air = error.low.iter().fold(air, |t, (s, u)| t.with(s.clone(), *u));
        }
        self.set(Slot::TankLow, low);
        self.set(Slot::TankHigh, high);
        self.set(Slot::Air, air);
        for slot in [Slot::StartNoise, Slot::EndNoise] {
            self.set(slot, UncertainValue::exact(0.0));
        }
    }

    fn fuel(&mut self, row: &RegisterRow, context: &Context) {
        let Some(id) = &row.fuel else { return };
        let Some(entry) = context.apparatus.fuels.get(id) else { return };
        let typical = entry.class.map(fuel::typical);
        let net = match (entry.net_calorific_value_dry, typical) {
            (Some(own), _) => Some(with_default(own, context.settings.assumed.calorific_value)),
            (None, Some(t)) => {
                self.assumed.push(Note::TypicalCalorificValue { fuel: id.clone() });
                Some(Stated { value: t.net.value, std_uncertainty: Some(t.net.standard_uncertainty()) })
            }
            (None, None) => None,
        };
        self.set(Slot::NetDry, stated(net, &ErrorSource::CalorificValue { fuel: id.clone() }));
        self.gross_extra = gross_extra(entry, typical);
        let relative = context.settings.assumed.char_relative;
        let value = entry.char_calorific_value.unwrap_or_else(|| {
            self.assumed.push(Note::DefaultCharValue);
            Stated { value: fuel::CHAR_NET_DEFAULT, std_uncertainty: None }
        });
        let value = with_default(value, relative * value.value);
        self.set(Slot::CharValue, stated(Some(value), &ErrorSource::CharValue { fuel: id.clone() }));
        self.set(Slot::Price, UncertainValue::exact(entry.price_per_kg.unwrap_or(f64::NAN)));
    }

    fn weighings(&mut self, row: &RegisterRow, context: &Context) {
        self.set_measured(Slot::FuelMass, "fuel_mass", row.fuel_mass, row, context);
        self.set_measured(Slot::Kindling, "kindling_mass", row.kindling_mass, row, context);
        self.set_measured(Slot::LeftoverFuel, "leftover_fuel", row.leftover_fuel, row, context);
        self.set_measured(Slot::LeftoverChar, "leftover_char", row.leftover_char, row, context);
        self.set_measured(Slot::Moisture, "fuel_moisture", row.fuel_moisture, row, context);
        let moisture = &mut self.slots[Slot::Moisture as usize];
        match row.moisture_basis {
            Some(MoistureBasis::Wet) => {}
            Some(MoistureBasis::Dry) => to_wet_basis(moisture),
            None => *moisture = UncertainValue::exact(f64::NAN),
        }
    }

    /// A register value with the error of the instrument that reads its column. A value of exactly zero was not weighed
    /// and has no error.
    fn set_measured(&mut self, slot: Slot, column: &str, value: Option<f64>, row: &RegisterRow, context: &Context) {
        let Some(value) = value else { return };
        let mut traced = UncertainValue::exact(value);
        let mut step = 0.0;
        if let Some(error) = context.errors.column(column).filter(|_| value != 0.0) {
            traced = error.low.iter().fold(traced, |t, (s, u)| t.with(s.clone(), *u));
            traced = error.high.iter().fold(traced, |t, (s, u)| t.with(s.clone(), u * value));
            step = error.step;
        }
        self.set(slot, traced);
        if step > 0.0 {
            self.noise(slot, &row.trial, TrialError::DisplayStep(column.to_owned()), step, f64::INFINITY);
        }
    }
}

/// The source of an error that is one trial's alone.
pub(crate) fn own_source(trial: &str, error: TrialError, dof: f64) -> (Source, SourceInfo) {
    let shape = if dof.is_finite() { Shape::Student } else { Shape::Normal };
    let source = ErrorSource::Trial { trial: trial.to_owned(), error };
    (source.key(), SourceInfo { shared: false, dof, shape })
}

/// First-order change of basis: M = U / (1 + U), dM/dU = 1 / (1 + U)^2.
fn to_wet_basis(moisture: &mut UncertainValue) {
    let dry = moisture.value;
    moisture.value = fuel::wet_from_dry(dry);
    for (_, part) in &mut moisture.parts {
        *part /= (1.0 + dry) * (1.0 + dry);
    }
}

/// A stated value as a traced one with its own source.
fn stated(value: Option<Stated>, source: &ErrorSource) -> UncertainValue {
    match value {
        None => UncertainValue::exact(f64::NAN),
        Some(Stated { value, std_uncertainty: Some(u) }) if u > 0.0 => UncertainValue::new(value, source.key(), u),
        Some(Stated { value, .. }) => UncertainValue::exact(value),
    }
}

fn with_default(value: Stated, std_uncertainty: f64) -> Stated {
    Stated { std_uncertainty: value.std_uncertainty.or(Some(std_uncertainty)), ..value }
}

/// Gross minus net calorific value of dry matter (ISO 18125), from the fuel's own composition or its class's.
fn gross_extra(entry: &Fuel, typical: Option<&fuel::Typical>) -> f64 {
    let own = entry.composition.map(|c| (c.h, c.o, c.n));
    let class = typical.map(fuel::Typical::composition).map(|c| (c.h, c.o, c.n));
    own.or(class).map_or(f64::NAN, |(h, o, n)| fuel::gross_dry(0.0, h, o, n))
}

impl Features {
    /// Whether any air temperature is known over the window.
    pub(crate) fn has_air(&self) -> bool {
        self.excess_integral.is_finite()
    }
}
