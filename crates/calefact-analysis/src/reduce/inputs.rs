//! The inputs of one trial: values from register and apparatus, each with its parts by source of error.

use super::capacity::Capacity;
use super::features::Features;
use super::slots::Slot;
use crate::assumed::table::Limits;
use crate::assumed::{self, owner, table};
use crate::context::Context;
use crate::errors::with_instrument;
use crate::fact::{AssumedInput, ErrorSource, Note, ScatterMethod, TrialError};
use crate::thermometer::Thermometer;
use calefact_data::apparatus::Stated;
use calefact_data::{MoistureBasis, RegisterRow, Water};
use calefact_physics::{fuel, water};
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};

/// Air temperature at which the error of its probe is reckoned, degC.
const AIR: f64 = 20.0;

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
    /// Remarks on the fuel, for the notes of the estimates.
    pub(crate) fuel_notes: Vec<Note>,
}

impl Inputs {
    /// Inputs from register and apparatus; those that come from fits are added with [`Inputs::noise`].
    pub(crate) fn new(row: &RegisterRow, context: &Context) -> Self {
        let mut inputs = Self {
            slots: vec![UncertainValue::exact(f64::NAN); Slot::COUNT],
            own: ErrorSources::new(),
            gross_extra: f64::NAN,
            scatter_method: ScatterMethod::DisplayStep,
            fuel_notes: Vec::new(),
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

    /// Puts the range of an input that nobody recorded into its slot, as a multiple (a share of the fuel mass, or one).
    fn assume(&mut self, slot: Slot, input: AssumedInput, times: f64, row: &RegisterRow, context: &Context) {
        if let Some((low, high)) = assumed::limits(input, row, context.apparatus) {
            self.set(slot, assumed::value(input, row, (times * low, times * high)));
            self.own.insert(owner::source(input, row), assumed::info());
        }
    }

    /// Whether an input of the trial is assumed.
    pub(crate) fn assumes(&self, input: AssumedInput, row: &RegisterRow) -> bool {
        self.own.contains_key(&owner::source(input, row))
    }

    /// Adds the range of an air temperature that nobody recorded to the error of the air probe.
    pub(crate) fn assume_air(&mut self, limits: Limits, row: &RegisterRow) {
        let source = owner::source(AssumedInput::AirTemperature, row);
        let held = std::mem::take(&mut self.slots[Slot::Air as usize]);
        self.set(Slot::Air, held.with(source.clone(), assumed::std_uncertainty(limits)));
        self.own.insert(source, assumed::info());
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

    /// Adds a shared error to a slot.
    pub(crate) fn add(&mut self, slot: Slot, source: &ErrorSource, std_uncertainty: f64) {
        let slot = &mut self.slots[slot as usize];
        *slot = std::mem::take(slot).with(source.key(), std_uncertainty);
    }

    fn vessel(&mut self, row: &RegisterRow, context: &Context) {
        let vessel = context.apparatus.vessels.get(&row.vessel);
        let amount = match row.water {
            Water::Volume(v) | Water::Mass(v) => v,
        };
        self.set_measured(Slot::Water, "water", Some(amount), row, context);
        let capacity = vessel.and_then(|v| v.heat_capacity);
        self.set(Slot::VesselCapacity, stated(capacity, &ErrorSource::HeatCapacity { vessel: row.vessel.clone() }));
        if capacity.is_none() {
            self.assume(Slot::VesselCapacity, AssumedInput::VesselHeatCapacity, 1.0, row, context);
        }
        match context.loss(&row.vessel) {
            Some(loss) => self.set(Slot::LossCoefficient, loss.clone()),
            None => self.assume(Slot::LossCoefficient, AssumedInput::LossCoefficient, 1.0, row, context),
        }
    }

    fn probes(&mut self, context: &Context) {
        let slots = [Slot::TankCommon, Slot::TankLow, Slot::TankHigh];
        for (i, slot) in slots.into_iter().enumerate() {
            let zero = UncertainValue::exact(0.0);
            let error = |probe: &Thermometer| zero.clone().with(probe.sources[i].clone(), Thermometer::deviations()[i]);
            self.set(slot, context.tank_probe().map_or_else(|| zero.clone(), error));
        }
        let air = with_instrument(&context.errors, "ambient", AIR);
        self.set(Slot::Air, UncertainValue { value: 0.0, ..air });
        for slot in [Slot::StartNoise, Slot::EndNoise, Slot::Course] {
            self.set(slot, UncertainValue::exact(0.0));
        }
    }

    fn fuel(&mut self, row: &RegisterRow, context: &Context) {
        let composition = assumed::composition(row, context.apparatus);
        // Gross minus net calorific value of dry matter (ISO 18125).
        self.gross_extra = composition.map_or(f64::NAN, |c| fuel::gross_dry(0.0, c.h, c.o, c.n));
        let entry = row.fuel.as_ref().and_then(|id| Some((id, context.apparatus.fuels.get(id)?)));
        let Some((id, entry)) = entry else {
            self.assume(Slot::NetDry, AssumedInput::CalorificValue, 1.0, row, context);
            self.assume(Slot::CharValue, AssumedInput::CharCalorificValue, 1.0, row, context);
            return;
        };
        let typical = entry.class.map(fuel::typical);
        let net = match (entry.net_calorific_value_dry, typical) {
            (Some(own), _) => Some(with_default(own, table::STATED_CALORIFIC_VALUE)),
            (None, Some(t)) => {
                self.fuel_notes.push(Note::TypicalCalorificValue { fuel: id.clone() });
                Some(Stated { value: t.net.value, std_uncertainty: Some(t.net.standard_uncertainty()) })
            }
            (None, None) => None,
        };
        match net {
            Some(_) => self.set(Slot::NetDry, stated(net, &ErrorSource::CalorificValue { fuel: id.clone() })),
            None => self.assume(Slot::NetDry, AssumedInput::CalorificValue, 1.0, row, context),
        }
        match entry.char_calorific_value {
            Some(value) => {
                let value = with_default(value, table::STATED_CHAR_VALUE * value.value);
                self.set(Slot::CharValue, stated(Some(value), &ErrorSource::CharValue { fuel: id.clone() }));
            }
            None => self.assume(Slot::CharValue, AssumedInput::CharCalorificValue, 1.0, row, context),
        }
        self.set(Slot::Price, UncertainValue::exact(entry.price_per_kg.unwrap_or(f64::NAN)));
    }

    fn weighings(&mut self, row: &RegisterRow, context: &Context) {
        self.set_measured(Slot::FuelMass, "fuel_mass", row.fuel_mass, row, context);
        let weighings = [
            (Slot::Kindling, AssumedInput::KindlingMass, row.kindling_mass),
            (Slot::LeftoverFuel, AssumedInput::LeftoverFuel, row.leftover_fuel),
            (Slot::LeftoverChar, AssumedInput::LeftoverChar, row.leftover_char),
        ];
        for (slot, input, weighed) in weighings {
            match (weighed, row.fuel_mass) {
                (None, Some(fuel)) => self.assume(slot, input, fuel, row, context),
                _ => self.set_measured(slot, input.id(), weighed, row, context),
            }
        }
        self.moisture(row, context);
    }

    fn moisture(&mut self, row: &RegisterRow, context: &Context) {
        if row.fuel_moisture.is_none() {
            if row.fuel_mass.is_some() {
                self.assume(Slot::Moisture, AssumedInput::FuelMoisture, 1.0, row, context);
            }
            return;
        }
        self.set_measured(Slot::Moisture, "fuel_moisture", row.fuel_moisture, row, context);
        let measured = &mut self.slots[Slot::Moisture as usize];
        match row.moisture_basis {
            Some(MoistureBasis::Wet) => {}
            Some(MoistureBasis::Dry) => to_wet_basis(measured),
            None => {
                let parts = std::mem::take(measured).parts;
                self.set(Slot::Moisture, UncertainValue::exact(f64::NAN));
                self.assume(Slot::Moisture, AssumedInput::MoistureBasis, 1.0, row, context);
                let either = std::mem::take(&mut self.slots[Slot::Moisture as usize]);
                self.set(Slot::Moisture, parts.into_iter().fold(either, |m, (source, part)| m.with(source, part)));
            }
        }
    }

    /// A register value with the error of the instrument that reads its column. A value of exactly zero was not weighed
    /// and has no error.
    fn set_measured(&mut self, slot: Slot, column: &str, value: Option<f64>, row: &RegisterRow, context: &Context) {
        let Some(value) = value else { return };
        let mut traced = UncertainValue::exact(value);
        let mut step = 0.0;
        if let Some(error) = context.errors.column(column).filter(|_| value != 0.0) {
            traced = with_instrument(&context.errors, column, value);
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

/// The source of what few readings leave open in all trials of a stove.
pub(crate) fn few_readings(row: &RegisterRow, context: &Context) -> ErrorSource {
    let stove = row.stove.clone().filter(|stove| context.apparatus.stoves.contains_key(stove));
    ErrorSource::FewReadings { stove: stove.unwrap_or_default() }
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

impl Features {
    /// Whether any air temperature is known over the window.
    pub(crate) fn has_air(&self) -> bool {
        self.excess_integral.is_finite()
    }
}
