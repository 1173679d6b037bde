//! Fills the heat path's slots from the log's steady part and the instruments that read it.

use super::means::{AssumedScatter, Mean, Part};
use super::slots::PathSlot as P;
use super::steady::SteadyTank;
use super::whole;
use crate::burn::Burn;
use crate::context::Context;
use crate::errors::with_instrument;
use crate::fact::TrialError;
use crate::reduce::inputs::{few_readings, own_source};
use crate::series::interpolate;
use calefact_data::Channel;
use calefact_stats::{ErrorSources, Source, SourceInfo, UncertainValue};

/// Uncertainty of a coil inlet that was not read but taken as the tank's mean, K: ten probes in a vessel being heated
/// differed by up to 4.3 K from each other (ten-channel bath log; half of it as a limit, rectangular).
const INLET_FROM_TANK: f64 = 1.25;
/// Scatter of few readings of one steady fire, as shares of how far they lie above the tank, of a rise or of the value itself
/// (common practice, no source); of carbon monoxide half, since it comes in gusts.
const FIRE_SCATTER: f64 = 0.1;
const CO_SCATTER: f64 = 0.5;
/// Scatter of few readings of the coil's inlet beside the tank, K (common practice, no source).
const INLET_SCATTER: f64 = 0.5;
/// Gas after the exchanger at the moments that a hand chooses, against its mean over the steady part: up to this share of how
/// far it lies above the tank (common practice, no source).
const MOMENTS: f64 = 0.05;
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
    /// Whether the scatter of a column is partly assumed, its readings being few.
    pub(crate) scatter_assumed: bool,
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
    /// Inputs of a burn: its steady part, the random error of the tank's heat flow over it with degrees of freedom, the
    /// whole burn's flue loss over the steady part's with its uncertainty, and the part to look for readings where the steady
    /// part has none.
    pub(crate) fn new(
        burn: &Burn,
        steady: Option<(&SteadyTank, (f64, f64))>,
        noise: (f64, f64),
        whole: (f64, f64),
        wide: Option<(f64, f64)>,
    ) -> Self {
        let (row, readings) = (burn.row, burn.readings);
        let mut slots = burn.inputs.slots.clone();
        slots.extend(std::iter::repeat_n(UncertainValue::exact(f64::NAN), P::COUNT));
        let mut inputs = Self { slots, own: ErrorSources::new(), inlet_from_tank: false, scatter_assumed: false };
        if let Some((tank, range)) = steady {
            // A single reading may stand outside the inner part; it is still one of this fire.
            let parts = [range, wide.unwrap_or(range)].map(|range| Part::new(readings, range));
            let holding = |channels: &[Channel]| {
                let holds = |part: &&Part<'_>| channels.iter().any(|c| part.read(*c).is_some());
                parts.iter().find(holds).unwrap_or(&parts[0])
            };
            for (slot, channel) in CHANNELS.into_iter().filter(|(slot, _)| !COIL.contains(slot)) {
                inputs.mean(slot, channel, holding(&[channel]), tank, burn);
            }
            inputs.coil(holding(&[Channel::CoilOut, Channel::CoilIn]), tank, burn);
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

    fn mean(&mut self, slot: P, channel: Channel, part: &Part<'_>, tank: &SteadyTank, burn: &Burn) {
        let Some(cells) = part.read(channel) else { return };
        let mean = part.mean(cells, step(burn.context, channel), assumed_scatter(channel, tank.tank_mean));
        if let Some(mean) = mean {
            self.set(slot, with_instrument(&burn.context.errors, channel.name(), mean.value));
            self.scatter(slot, channel, mean, burn);
        }
    }

    /// Water into and out of the coil. Both warm with the tank, so the inlet is taken beside the tank and the outlet beside
    /// the inlet, reading by reading, and the warming counts as no scatter. Where the inlet was not read the tank at that
    /// time stands in, with an uncertainty for stratification.
    fn coil(&mut self, part: &Part<'_>, tank: &SteadyTank, burn: &Burn) {
        let (inlet, outlet) = (part.read(Channel::CoilIn), part.read(Channel::CoilOut));
        let beside: Vec<f64> = match inlet.or(outlet) {
            Some(_) => part.times().iter().map(|t| interpolate(&burn.series.t, &burn.series.tank, *t)).collect(),
            None => Vec::new(),
        };
        if let Some(cells) = inlet {
            self.read_inlet(cells, &beside, part, tank, burn);
        } else {
            self.inlet_from_tank = true;
            self.set(P::CoilIn, with_instrument(&burn.context.errors, "tank", tank.tank_mean));
            self.noise(P::CoilIn, &burn.row.trial, TrialError::InletFromTank, INLET_FROM_TANK, f64::INFINITY);
        }
        let Some(outlet) = outlet else { return };
        let rise = |from: &[f64]| part.mean(&less(outlet, from), step(burn.context, Channel::CoilOut), RISE_SCATTER);
        if let Some(rise) = inlet.and_then(rise) {
            self.outlet(self.get(P::CoilIn).value, rise, burn);
            // The inlet's scatter moves the outlet too; only that of the rise lies between them.
            let (source, _) = column_scatter(burn, Channel::CoilIn);
            let shared = self.get(P::CoilIn).parts.iter().find(|(s, _)| *s == source).map_or(0.0, |(_, p)| *p);
            self.set(P::CoilOut, self.get(P::CoilOut).clone().with(source, shared));
        } else if let Some(rise) = rise(&beside) {
            self.outlet(tank.tank_mean, rise, burn);
        }
    }

    /// A coil inlet that was read: beside the tank where it follows the tank, else by itself.
    fn read_inlet(&mut self, cells: &[f64], beside: &[f64], part: &Part<'_>, tank: &SteadyTank, burn: &Burn) {
        let step = step(burn.context, Channel::CoilIn);
        let (plain, over) = (part.mean(cells, step, INLET), part.mean(&less(cells, beside), step, INLET));
        let (Some(plain), Some(over)) = (plain, over) else { return };
        let follows =
            2.0 * over.std_uncertainty < plain.std_uncertainty || cells.iter().filter(|v| v.is_finite()).count() == 1;
        let mean = if follows { Mean { value: tank.tank_mean + over.value, ..over } } else { plain };
        self.set(P::CoilIn, with_instrument(&burn.context.errors, Channel::CoilIn.name(), mean.value));
        self.scatter(P::CoilIn, Channel::CoilIn, mean, burn);
    }

    /// The coil outlet at a rise above a temperature.
    fn outlet(&mut self, from: f64, rise: Mean, burn: &Burn) {
        self.set(P::CoilOut, with_instrument(&burn.context.errors, Channel::CoilOut.name(), from + rise.value));
        self.scatter(P::CoilOut, Channel::CoilOut, rise, burn);
    }

    fn scatter(&mut self, slot: P, channel: Channel, mean: Mean, burn: &Burn) {
        let error = TrialError::ColumnScatter(channel.name().to_owned());
        self.scatter_assumed |= mean.assumed;
        self.noise(slot, &burn.row.trial, error, mean.std_uncertainty, mean.dof);
    }

    /// Doubt that few readings leave about the steady fire: its heat flow, lower and higher by these bounds (W); the gas after the
    /// exchanger, read at a few moments; the flue loss of the whole burn. Burns that are logged alike err to the same side,
    /// so that it is one error of all such trials of a stove.
    pub(super) fn leave_open(&mut self, burn: &Burn, (below, above): (f64, f64), tank_c: f64) {
        let after = MOMENTS * (self.get(P::FlueAfter).value - tank_c);
        let source = few_readings(burn.row, burn.context).key();
        let mut add = |slot: P, (from, to): (f64, f64)| {
            let held = std::mem::take(&mut self.slots[slot.index()]);
            let moved = UncertainValue { value: held.value + f64::midpoint(from, to), ..held };
            // Rectangular, GUM 4.3.7.
            self.set(slot, moved.with(source.clone(), 0.5 * (to - from) / 3.0_f64.sqrt()));
        };
        add(P::SteadyNoise, (below, above));
        add(P::FlueAfter, (-after, after));
        add(P::Whole, whole::FEW_READINGS);
    }

    /// Adds one error that moves several slots at once, each by its own part.
    pub(super) fn shift(&mut self, trial: &str, error: TrialError, parts: &[(P, f64)]) {
        let (source, info) = own_source(trial, error, f64::INFINITY);
        for (slot, part) in parts {
            let held = std::mem::take(&mut self.slots[slot.index()]);
            self.set(*slot, held.with(source.clone(), *part));
        }
        self.own.insert(source, info);
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

/// Slots of the water at the ends of the coil.
const COIL: [P; 2] = [P::CoilIn, P::CoilOut];
const RISE_SCATTER: AssumedScatter = AssumedScatter { fixed: 0.0, share: FIRE_SCATTER, above: 0.0 };
const INLET: AssumedScatter = AssumedScatter { fixed: INLET_SCATTER, share: 0.0, above: 0.0 };

/// Scatter assumed of few readings of a channel, with the tank at a mean of `tank_c`.
fn assumed_scatter(channel: Channel, tank_c: f64) -> AssumedScatter {
    let (share, above) = match channel {
        Channel::FlueBefore | Channel::FlueAfter | Channel::Casing => (FIRE_SCATTER, tank_c),
        Channel::FlueCo => (CO_SCATTER, 0.0),
        _ => (FIRE_SCATTER, 0.0),
    };
    AssumedScatter { fixed: 0.0, share, above }
}

/// Standard uncertainty of one reading of a channel from the display step.
fn step(context: &Context, channel: Channel) -> f64 {
    context.errors.column(channel.name()).map_or(0.0, |e| e.step)
}

/// Source of the scatter of a channel.
fn column_scatter(burn: &Burn, channel: Channel) -> (Source, SourceInfo) {
    own_source(&burn.row.trial, TrialError::ColumnScatter(channel.name().to_owned()), f64::INFINITY)
}

/// Differences row by row.
fn less(a: &[f64], b: &[f64]) -> Vec<f64> {
    a.iter().zip(b).map(|(a, b)| a - b).collect()
}
