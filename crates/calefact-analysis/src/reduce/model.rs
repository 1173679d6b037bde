//! The measurement model of a trial: from inputs to quantities, a pure function of numbers.
//!
//! GUM 4.1: Y = f(X1, ..., XN). First-order propagation and Monte Carlo both call this function; nothing else computes a
//! reported quantity. Heats in J inside, table units (`Quantity::unit`) on the way out.

use super::capacity::Capacity;
use super::features::Features;
use super::law::Law;
use super::slots::Slot;
use super::tank_probe::{self, TankProbe};
use crate::Quantity;
use crate::context::Context;
use crate::reference_job::{self, Task};
use crate::result::LawParameter;
use crate::settings::ReferenceJob;
use crate::thermometer::ErrorNear;
use calefact_data::TrialKind;
use calefact_physics::{fuel, water};

/// Everything of a trial that is not an uncertain input.
#[derive(Debug, Clone)]
pub(crate) struct Model<'a> {
    /// Kind of trial.
    pub(crate) kind: TrialKind,
    /// Numbers from the log.
    pub(crate) features: Features,
    /// The thermometer in the tank, where its limits of error are known.
    probe: Option<TankProbe<'a>>,
    /// Gross minus net calorific value of dry fuel, J/kg.
    pub(crate) gross_extra: f64,
    /// Job that trials are normalised to, and the heat that its water takes, J.
    pub(crate) job: Option<(&'a ReferenceJob, f64)>,
    /// Whether delivered heat is divided by the rig's ratio.
    pub(crate) correct_rig: bool,
}

/// Least and largest share of a burn's duration that light-up, burn-down and after-heat cost: the time beyond that in which
/// the steady fire alone would have given the heat. Common practice, no source.
pub(crate) const FIXED_SHARE: (f64, f64) = (0.0, 0.4);

/// Values of all quantities by index in [`Quantity::ALL`], then of [`LawParameter::ALL`]; NaN where not defined.
pub(crate) type Values = Vec<f64>;

impl<'a> Model<'a> {
    /// A model for a trial in these surroundings.
    pub(crate) fn new(kind: TrialKind, features: Features, gross_extra: f64, context: &'a Context<'_>) -> Self {
        let settings = context.settings;
        let correct_rig = settings.rig_check != crate::settings::RigCheck::Report && kind == TrialKind::Burn;
        let probe = context.tank_probe().map(|thermometer| TankProbe::new(thermometer, &features));
        let job = settings.reference_job.as_ref().map(|job| (job, reference_job::water_heat(job)));
        Self { kind, features, probe, gross_extra, job, correct_rig }
    }

    /// Evaluates the model.
    pub(crate) fn evaluate(&self, x: &[f64]) -> Values {
        let mut values = vec![f64::NAN; Quantity::ALL.len() + LawParameter::ALL.len()];
        let (quantities, parameters) = values.split_at_mut(Quantity::ALL.len());
        if let Some((law, fuel)) = self.fill(x, quantities) {
            parameters.copy_from_slice(&law.parameters(fuel.burnt, get(x, Slot::Moisture), vessel(x)));
        }
        values
    }

    /// Heat stored and heat delivered, J.
    pub(crate) fn heats(&self, x: &[f64]) -> (f64, f64) {
        let state = State::new(self, x);
        (state.stored, state.delivered)
    }

    /// Fills in the quantities by index in [`Quantity::ALL`], all NaN so far; gives the law and the fuel of a burn.
    pub(super) fn fill(&self, x: &[f64], quantities: &mut [f64]) -> Option<(Law, FuelUse)> {
        let (mut out, state) = (Out(quantities), State::new(self, x));
        out.set(Quantity::HeatStored, state.stored / 1e6);
        out.set(Quantity::HeatDelivered, state.delivered / 1e6);
        out.set(Quantity::HeatInput, state.heat_input);
        out.set(Quantity::SteadyHeatInput, state.steady_heat_input);
        out.set(Quantity::HeatingRate, 60.0 * state.rate);
        match self.kind {
            TrialKind::Burn => return self.burn(x, &state, &mut out),
            TrialKind::StandingLoss => out.set(Quantity::LossCoefficient, self.loss_coefficient(x, &state)),
            TrialKind::ReferenceHeater => {
                let electric = get(x, Slot::Power) * self.features.duration;
                out.set(Quantity::StoredFraction, state.stored / electric);
                out.set(Quantity::ReferenceHeaterRatio, state.delivered / electric);
            }
        }
        None
    }

    fn burn(&self, x: &[f64], state: &State, out: &mut Out<'_>) -> Option<(Law, FuelUse)> {
        if !self.features.whole {
            return None;
        }
        let fuel = FuelUse::new(x, self.gross_extra);
        out.set(Quantity::FuelEnergy, fuel.net_credited() / 1e6);
        out.set(Quantity::ThermalEfficiency, state.delivered / fuel.net_credited());
        out.set(Quantity::ThermalEfficiencyUncredited, state.delivered / fuel.net);
        out.set(Quantity::ThermalEfficiencyGross, state.delivered / fuel.gross_credited());
        out.set(Quantity::ThermalEfficiencyGrossUncredited, state.delivered / fuel.gross);
        out.set(Quantity::StoredFraction, state.stored / fuel.net_credited());
        let per_heat = fuel.burnt / state.delivered * 3.6e6;
        out.set(Quantity::FuelPerHeat, per_heat);
        out.set(Quantity::CostPerHeat, per_heat * get(x, Slot::Price));
        out.set(Quantity::BurnRate, fuel.burnt / self.features.duration * 3600.0);
        let vessel = vessel(x);
        let law = Law::new(self.features.duration, self.fixed_share(x, state), &state.task, vessel);
        self.reference(x, &law, &fuel, out);
        Some((law, fuel))
    }

    /// The reference job by the law of the burn: the same mass of wood in a second, at the job's moisture. What was left of the
    /// fuel is credited, as in the efficiency.
    fn reference(&self, x: &[f64], law: &Law, fuel: &FuelUse, out: &mut Out<'_>) {
        let Some((job, water_heat)) = self.job else { return };
        let vessel = vessel(x);
        let own = fuel::net_as_fired(get(x, Slot::NetDry), get(x, Slot::Moisture));
        let net = job.fuel_moisture.map_or(own, |moisture| fuel::net_as_fired(get(x, Slot::NetDry), moisture));
        let drier = if own.is_nan() { 1.0 } else { net / own };
        let steady = reference_job::steady_time(
            &Task::with_water(job, water_heat, vessel),
            vessel,
            law.power * drier,
            law.fixed_s,
        );
        out.set(Quantity::ReferenceTime, law.fixed_s + steady);
        out.set(Quantity::ReferenceFuel, steady / law.steady_s * fuel.net_credited() / own);
    }

    /// Share of the duration that the steady fire would not have needed for the heat.
    fn fixed_share(&self, x: &[f64], state: &State) -> f64 {
        match self.features.steady {
            Some(_) => (1.0 - state.heat_input / state.steady_heat_input).clamp(FIXED_SHARE.0, FIXED_SHARE.1),
            None => get(x, Slot::FixedShare),
        }
    }

    /// Loss coefficient from the cooling line, W/K.
    fn loss_coefficient(&self, x: &[f64], state: &State) -> f64 {
        let Some(c) = &self.features.cooling else { return f64::NAN };
        let stretch = self.tank_stretch(x, |probe| probe.cooling);
        let bias = self.tank_error(x, |probe| probe.cooling) - get(x, Slot::Air);
        let per_excess = state.water_kg * c.enthalpy_slope + get(x, Slot::VesselCapacity) * c.tank_slope;
        per_excess * stretch * c.excess_mean / (c.excess_mean + bias) + get(x, Slot::LossNoise)
    }

    /// Error of the tank probe at the temperature it is taken at, K.
    pub(crate) fn tank_error(&self, x: &[f64], at: impl Fn(&TankProbe<'_>) -> ErrorNear) -> f64 {
        self.probe.as_ref().map_or(0.0, |probe| at(probe).error(tank_probe::draws(x)))
    }

    /// Factor by which the error of the tank probe stretches differences of temperature about one.
    pub(crate) fn tank_stretch(&self, x: &[f64], at: impl Fn(&TankProbe<'_>) -> ErrorNear) -> f64 {
        1.0 + self.probe.as_ref().map_or(0.0, |probe| at(probe).slope(tank_probe::draws(x)))
    }
}

/// Value of a slot.
pub(crate) fn get(x: &[f64], slot: Slot) -> f64 {
    x[slot as usize]
}

/// The vessel by its slots.
fn vessel(x: &[f64]) -> reference_job::Vessel {
    reference_job::Vessel { capacity: get(x, Slot::VesselCapacity), loss: get(x, Slot::LossCoefficient) }
}

struct Out<'v>(&'v mut [f64]);

impl Out<'_> {
    fn set(&mut self, quantity: Quantity, value: f64) {
        self.0[quantity as usize] = value;
    }
}

/// Heats of the vessel for one set of inputs.
struct State {
    water_kg: f64,
    stored: f64,
    delivered: f64,
    heat_input: f64,
    steady_heat_input: f64,
    rate: f64,
    /// What the trial did, as a job.
    task: Task,
}

impl State {
    fn new(model: &Model, x: &[f64]) -> Self {
        let f = &model.features;
        let start = f.start_c + model.tank_error(x, |probe| probe.start) + get(x, Slot::StartNoise);
        let end = f.end_c + model.tank_error(x, |probe| probe.end) + get(x, Slot::EndNoise);
        let water_kg = get(x, Slot::Water)
            * if f.water_is_mass { 1.0 } else { water::density(f.fill_c + model.tank_error(x, |probe| probe.fill)) };
        let capacity = Capacity { water_kg, vessel: get(x, Slot::VesselCapacity), loss: get(x, Slot::LossCoefficient) };
        let stored = capacity.stored_from(start, end);
        let mean_error = model.tank_error(x, |probe| probe.mean) - get(x, Slot::Air);
        let excess = f.excess_integral + get(x, Slot::Course) + f.duration * mean_error;
        let rig = if model.correct_rig { get(x, Slot::Rig) } else { 1.0 };
        let delivered = (stored + capacity.loss * excess) / rig;
        let air = f.air_mean + get(x, Slot::Air);
        Self {
            water_kg,
            stored,
            delivered,
            heat_input: delivered / f.duration,
            steady_heat_input: steady_flow(model, x, capacity) / rig,
            rate: rate(model, x),
            task: Task { stored: stored / rig, excess: (start - air, end - air) },
        }
    }
}

/// Mean heat flow over the steady part, W.
fn steady_flow(model: &Model, x: &[f64], capacity: Capacity) -> f64 {
    let Some(steady) = &model.features.steady else { return f64::NAN };
    let stored = capacity.water_kg * steady.enthalpy_slope + capacity.vessel * steady.tank_slope;
    let excess = steady.excess_mean + model.tank_error(x, |probe| probe.steady) - get(x, Slot::Air);
    stored * model.tank_stretch(x, |probe| probe.steady) + capacity.loss * excess + get(x, Slot::SteadyFlowNoise)
}

/// Heating rate at the stated tank temperature, K/s.
fn rate(model: &Model, x: &[f64]) -> f64 {
    let f = &model.features;
    f.local_rate
        .map_or(f64::NAN, |local| local.rate * model.tank_stretch(x, |probe| probe.rate) + get(x, Slot::RateNoise))
}

/// Fuel of a burn in energy terms, J.
pub(crate) struct FuelUse {
    /// Wood burnt: fuel and kindling less leftover wood, kg.
    burnt: f64,
    /// Fuel and kindling put on, kg.
    pub(crate) put_on: f64,
    /// Net energy of what was put on, J.
    pub(crate) net: f64,
    gross: f64,
    credit_net: f64,
    credit_gross: f64,
}

impl FuelUse {
    pub(crate) fn new(x: &[f64], gross_extra: f64) -> Self {
        let moisture = get(x, Slot::Moisture);
        let net = fuel::net_as_fired(get(x, Slot::NetDry), moisture);
        let gross = (get(x, Slot::NetDry) + gross_extra) * (1.0 - moisture);
        let put_on = get(x, Slot::FuelMass) + get(x, Slot::Kindling);
        let left = get(x, Slot::LeftoverFuel);
        let char_energy = get(x, Slot::LeftoverChar) * get(x, Slot::CharValue);
        Self {
            burnt: put_on - left,
            put_on,
            net: put_on * net,
            gross: put_on * gross,
            credit_net: left * net + char_energy,
            credit_gross: left * gross + char_energy,
        }
    }

    /// The fuel of a window that weighed fuel does not belong to.
    pub(crate) const fn unknown() -> Self {
        let no = f64::NAN;
        Self { burnt: no, put_on: no, net: no, gross: no, credit_net: no, credit_gross: no }
    }

    /// Net energy less that of what was left, J.
    pub(crate) fn net_credited(&self) -> f64 {
        self.net - self.credit_net
    }

    fn gross_credited(&self) -> f64 {
        self.gross - self.credit_gross
    }
}
