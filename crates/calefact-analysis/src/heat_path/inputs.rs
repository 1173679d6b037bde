//! Fills the heat path's slots from the log's steady part and the instruments that read it.

use super::means::{Mean, Part};
use super::slots::PathSlot as P;
use super::steady::SteadyTank;
use crate::burn::Burn;
use crate::context::Context;
use crate::errors::with_instrument;
use crate::fact::TrialError;
use crate::reduce::inputs::own_source;
use calefact_data::{Channel, RegisterRow};
use calefact_stats::{ErrorSources, UncertainValue};

/// Uncertainty of a coil inlet that was not read but taken as the tank's mean, K: ten probes in a vessel being heated
/// differed by up to 4.3 K from each other (ten-channel bath log; half of it as a limit, rectangular).
const INLET_FROM_TANK: f64 = 1.25;
/// Relative uncertainty of the burn rate that goes with the share of the heat (common practice, no source).
const BURN_SHARE: f64 = 0.05;
/// Relative uncertainty of a natural-convection correlation (common practice, no source).
const CASING_FACTOR: f64 = 0.2;

/// Inputs of the heat path, behind those of the vessel, with their own sources.
#[derive(Debug, Clone)]
pub(crate) struct PathInputs {
    /// All inputs, those of the vessel first.
    pub(crate) slots: Vec<UncertainValue>,
    /// Sources that belong to this trial alone.
    pub(crate) own: ErrorSources,
    /// Whether the coil inlet is the tank's mean for want of a probe.
    pub(crate) inlet_from_tank: bool,
}

/// Channels that enter as means.
pub(super) const CHANNELS: [(P, Channel); 9] = [
    (P::FlueBefore, Channel::FlueBefore),
    (P::FlueAfter, Channel::FlueAfter),
    (P::CoilIn, Channel::CoilIn),
    (P::CoilOut, Channel::CoilOut),
    (P::Flow, Channel::Flow),
    (P::Oxygen, Channel::FlueO2),
    (P::CarbonDioxide, Channel::FlueCo2),
    (P::CarbonMonoxide, Channel::FlueCo),
    (P::Casing, Channel::Casing),
];

impl PathInputs {
    /// Inputs of a burn: its steady part, the random error of the tank's heat flow over it with degrees of freedom, and
    /// the whole burn's flue loss over the steady part's with its uncertainty.
    pub(crate) fn new(
        burn: &Burn,
        steady: Option<(&SteadyTank, (f64, f64))>,
        noise: (f64, f64),
        whole: (f64, f64),
    ) -> Self {
        let (row, readings, context) = (burn.row, burn.readings, burn.context);
        let mut slots = burn.inputs.slots.clone();
        slots.extend(std::iter::repeat_n(UncertainValue::exact(f64::NAN), P::COUNT));
        let mut inputs = Self { slots, own: ErrorSources::new(), inlet_from_tank: false };
        if let Some((tank, range)) = steady {
            let part = Part::new(readings, range);
            for (slot, channel) in CHANNELS {
                inputs.mean(slot, channel, &part, row, context);
            }
            inputs.inlet(tank, row, context);
            inputs.set(P::SteadyNoise, UncertainValue::exact(0.0));
            inputs.noise(P::SteadyNoise, &row.trial, TrialError::SteadyTank, noise.0, noise.1);
        }
        for (slot, value, error, u) in [
            (P::BurnShare, 1.0, TrialError::BurnRate, BURN_SHARE),
            (P::Whole, whole.0, TrialError::WholeBurn, whole.1),
            (P::CasingFactor, 1.0, TrialError::CasingCorrelation, CASING_FACTOR),
        ] {
            inputs.set(slot, UncertainValue::exact(value));
            inputs.noise(slot, &row.trial, error, u, f64::INFINITY);
        }
        inputs
    }

    /// The traced value of a slot.
    pub(crate) fn get(&self, slot: P) -> &UncertainValue {
        &self.slots[slot.index()]
    }

    fn set(&mut self, slot: P, value: UncertainValue) {
        self.slots[slot.index()] = value;
    }

    fn mean(&mut self, slot: P, channel: Channel, part: &Part<'_>, row: &RegisterRow, context: &Context) {
        let step = context.errors.column(channel.name()).map_or(0.0, |e| e.step);
        let Some(Mean { value, std_uncertainty, dof }) = part.mean(channel, step) else { return };
        self.set(slot, with_instrument(&context.errors, channel.name(), value));
        let error = TrialError::ColumnScatter(channel.name().to_owned());
        self.noise(slot, &row.trial, error, std_uncertainty, dof);
    }

    /// Where the coil inlet was not read, the tank's mean stands in, with an uncertainty for stratification.
    fn inlet(&mut self, tank: &SteadyTank, row: &RegisterRow, context: &Context) {
        if self.get(P::CoilIn).value.is_nan() {
            self.inlet_from_tank = true;
            self.set(P::CoilIn, with_instrument(&context.errors, "tank", tank.tank_mean));
            self.noise(P::CoilIn, &row.trial, TrialError::InletFromTank, INLET_FROM_TANK, f64::INFINITY);
        }
    }

    fn noise(&mut self, slot: P, trial: &str, error: TrialError, std_uncertainty: f64, dof: f64) {
        if std_uncertainty <= 0.0 || std_uncertainty.is_nan() {
            return;
        }
        let (source, info) = own_source(trial, error, dof);
        let held = std::mem::take(&mut self.slots[slot.index()]);
        self.set(slot, held.with(source.clone(), std_uncertainty));
        self.own.insert(source, info);
    }
}
