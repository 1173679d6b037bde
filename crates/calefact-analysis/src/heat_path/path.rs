//! The heat path of one burn: its model with the inputs it was propagated from.

use super::inputs::PathInputs;
use super::model::PathModel;
use super::slots::PathSlot as P;
use super::steady::{self, SteadyTank, steady_tank};
use super::{apparatus, part, whole};
use crate::assumed;
use crate::burn::Burn;
use crate::phases::Phases;
use crate::reduce::capacity::Capacity;
use calefact_data::Channel;
use calefact_physics::air;
use calefact_stats::freedom::Freedom;
use calefact_stats::{Estimate, UncertainValue, propagate};

/// How many standard uncertainties a fall or rise must exceed to say anything.
pub(super) const TELLS: f64 = 3.0;

/// The heat path of one burn, ready to be read out.
pub(crate) struct Path<'a> {
    /// Phases of the burn.
    pub(crate) phases: Phases,
    /// Its model.
    pub(crate) model: PathModel<'a>,
    /// Its inputs.
    pub(crate) inputs: PathInputs,
    /// Outputs of the model with their parts.
    pub(crate) traced: Vec<UncertainValue>,
    /// Fall of the gas and its standard uncertainty, K.
    pub(crate) drop: (f64, f64),
    /// Rise of the water and its standard uncertainty, K.
    pub(crate) rise: (f64, f64),
    /// Whether the arrangement had to be assumed.
    pub(crate) assumed_counter: bool,
    /// Whether the trial has an exchanger or channels of one, so that its quantities are asked for.
    pub(crate) asked: bool,
    /// Whether there is a coil to speak of: the trial names an exchanger, or the water of one was logged.
    pub(crate) has_coil: bool,
    /// Degrees of freedom of the inputs' sources.
    freedom: Freedom,
    /// Confidence of intervals.
    confidence: f64,
}

impl<'a> Path<'a> {
    pub(super) fn new(burn: &Burn<'a>, capacity: Capacity) -> Self {
        let delay = burn.model.features.line.as_ref().map_or(0.0, |l| l.delay);
        let phases = burn.fire.phases(burn.readings, burn.series, delay);
        let (steady, inputs) = steady_inputs(burn, &phases, capacity);
        let (drop, rise) = (change(&inputs, P::FlueBefore, P::FlueAfter), change(&inputs, P::CoilOut, P::CoilIn));
        let exchanger = apparatus::exchanger(burn.row, burn.context.apparatus);
        let (arrangement, assumed_counter) = apparatus::arrangement(exchanger);
        let altitude = burn.row.altitude.or(burn.context.apparatus.site.altitude_m).unwrap_or(0.0);
        let finite = |slot: P| inputs.get(slot).value.is_finite();
        let model = PathModel {
            base: burn.model,
            steady,
            composition: assumed::composition(burn.row, burn.context.apparatus),
            arrangement,
            tube_area: apparatus::area(exchanger),
            casing: apparatus::casing(exchanger, burn.readings),
            pressure: air::pressure_at(altitude),
            drop_tells: drop.0 > TELLS * drop.1,
            rise_tells: rise.0 > TELLS * rise.1,
            has_analysis: finite(P::Oxygen) || finite(P::CarbonDioxide),
        };
        let traced = propagate::first_order(&inputs.slots, |x| model.evaluate(x));
        let (freedom, asked, has_coil) = (freedom(burn, &inputs), asks(burn), has_coil(burn));
        let confidence = burn.context.settings.level;
        Self { phases, model, inputs, traced, drop, rise, assumed_counter, asked, has_coil, freedom, confidence }
    }

    /// An estimate from a traced value with degrees of freedom from its sources, its interval not yet held within bounds.
    pub(crate) fn estimate(&self, value: &UncertainValue, unit: &'static str) -> Estimate {
        let (u, dof) = (value.std_uncertainty(), self.freedom.effective(value));
        Estimate::student(value.value, unit, u, dof, self.confidence)
    }
}

/// The tank over the steady part, and the inputs of the heat path.
fn steady_inputs(burn: &Burn, phases: &Phases, capacity: Capacity) -> (Option<SteadyTank>, PathInputs) {
    let (readings, series) = (burn.readings, burn.series);
    let range = part::range(burn, phases);
    let step = burn.context.tank_step();
    let steady = range.and_then(|r| steady_tank(series, burn.enthalpies, r));
    let whole = match (range.filter(|_| phases.certain), &steady) {
        (Some(range), Some(s)) => whole::ratio(readings, &burn.fire.strength, range, s.air_mean),
        // Few readings leave it open.
        _ => (1.0, 0.0),
    };
    let shown = range.filter(|_| phases.certain).and_then(|part| steady::noise(series, part, capacity, step));
    let few = range.filter(|_| shown.is_none()).map(|part| steady::few(series, part, capacity, reading_scatter(burn)));
    let noise = shown.or(few.map(|few| (few.ends, f64::INFINITY))).unwrap_or((f64::NAN, f64::INFINITY));
    let mut inputs = PathInputs::new(burn, steady.as_ref().zip(range), noise, whole, phases.steady());
    if let Some((few, tank)) = few.zip(steady.as_ref()) {
        inputs.leave_open(burn, few.open, tank.tank_mean);
    }
    for end in range.map_or_else(Vec::new, |range| part::moved(burn, phases, range, capacity)) {
        inputs.shift(&burn.row.trial, end.error, &end.changes);
    }
    (steady, inputs)
}

/// Standard deviation of one reading of the tank where it is not seen, K.
fn reading_scatter(burn: &Burn) -> f64 {
    burn.context.assumed_scatter(0.5 * (burn.series.tank[0] + burn.series.tank[burn.series.len() - 1]))
}

/// Degrees of freedom of the sources behind the inputs.
fn freedom(burn: &Burn, inputs: &PathInputs) -> Freedom {
    Freedom::new(&inputs.slots, |source| {
        let own = inputs.own.get(source).or_else(|| burn.inputs.own.get(source));
        own.or_else(|| burn.context.book.get(source))
    })
}

/// Whether the trial has an exchanger or channels of one.
fn asks(burn: &Burn) -> bool {
    burn.row.exchanger.is_some() || ASKING.iter().any(|c| burn.readings.channel(*c).is_some())
}

/// Whether the trial names an exchanger, or the water of one was logged.
fn has_coil(burn: &Burn) -> bool {
    let logged = |channel: &Channel| burn.readings.channel(*channel).is_some();
    burn.row.exchanger.is_some() || [Channel::CoilIn, Channel::CoilOut, Channel::Flow].iter().any(logged)
}

/// Channels that show there is an exchanger to speak of.
const ASKING: [Channel; 4] = [Channel::FlueBefore, Channel::FlueAfter, Channel::CoilOut, Channel::Flow];

/// Difference of two slots and its standard uncertainty, shared errors cancelling.
fn change(inputs: &PathInputs, a: P, b: P) -> (f64, f64) {
    let difference = UncertainValue::combine(&[(1.0, inputs.get(a)), (-1.0, inputs.get(b))]);
    (difference.value, difference.std_uncertainty())
}
