//! Where the heat goes: exchanger, flue gas and energy balance of a burn.
//!
//! Steps: phases -> steady means with their errors ([`inputs`]) -> one model of water side, gas side and exchanger
//! ([`model`]) propagated to first order -> estimates, balance, cross-checks, points for charts. What the log does not
//! hold stays empty with a reason. The usual case, two flue probes and no gas analysis, takes the gas flow from the heat
//! the water took and says so.

mod apparatus;
pub mod balance;
pub mod closure;
pub mod course;
pub mod estimates;
mod gas_side;
pub mod inputs;
pub mod means;
pub mod model;
pub(crate) mod scatter;
pub mod slots;
pub mod steady;
pub mod terms;
mod transfer;
mod water_side;
pub mod whole;

use crate::Quantity;
use crate::cautions::{self, Scene};
use crate::context::Context;
use crate::ending;
use crate::phases::{Fire, Phases};
use crate::reduce::features::Capacity;
use crate::reduce::inputs::Inputs;
use crate::reduce::model::Model;
use crate::result::TrialResult;
use crate::series::Series;
use calefact_data::{Channel, Readings, RegisterRow, TrialKind};
use calefact_physics::air;
use calefact_stats::freedom::Freedom;
use calefact_stats::{Estimate, UncertainValue, propagate};
use inputs::PathInputs;
use model::PathModel;
use slots::PathSlot as P;
use steady::steady_tank;

/// How many standard uncertainties a fall or rise must exceed to say anything.
pub const TELLS: f64 = 3.0;

/// A burn after its vessel has been reduced.
#[derive(Debug, Clone, Copy)]
pub struct Burn<'a> {
    /// Register row.
    pub row: &'a RegisterRow,
    /// Log.
    pub readings: &'a Readings,
    /// Tank curve of the whole log.
    pub series: &'a Series,
    /// The vessel's model.
    pub model: &'a Model<'a>,
    /// The vessel's inputs.
    pub inputs: &'a Inputs,
    /// Surroundings.
    pub context: &'a Context<'a>,
    /// What the log shows of the fire.
    pub fire: &'a Fire,
}

/// The heat path of one burn, ready to be read out.
pub struct Path<'a> {
    /// Phases of the burn.
    pub phases: Phases,
    /// Its model.
    pub model: PathModel<'a>,
    /// Its inputs.
    pub inputs: PathInputs,
    /// Outputs of the model with their parts.
    pub traced: Vec<UncertainValue>,
    /// Fall of the gas and its standard uncertainty, K.
    pub drop: (f64, f64),
    /// Rise of the water and its standard uncertainty, K.
    pub rise: (f64, f64),
    /// Whether the arrangement had to be assumed.
    pub assumed_counter: bool,
    /// Whether the trial has an exchanger or channels of one, so that its quantities are asked for.
    pub asked: bool,
    /// Degrees of freedom of the inputs' sources.
    freedom: Freedom,
    /// Level of intervals.
    level: f64,
}

/// Adds phases, exchanger quantities, balance and their findings to the result of a burn. Other kinds are left alone.
pub fn extend(burn: &Burn, result: &mut TrialResult) {
    if burn.row.kind != TrialKind::Burn {
        return;
    }
    let capacity = burn.inputs.capacity(&burn.model.features);
    let path = Path::new(burn, capacity);
    estimates::fill(&path, &path.traced, result);
    balance::fill(&path, &path.traced, result);
    result.findings.extend(closure::findings(&path, &path.traced));
    let energy = result.get(Quantity::FuelEnergy).map_or(f64::NAN, |e| 1e6 * e.estimate.value);
    result.findings.extend(ending::findings(burn, capacity, energy));
    result.findings.extend(cautions::findings(&scene(burn, &path.phases)));
    result.exchanger = course::point(result);
    if path.asked {
        result.exchanger_course = course::course(&path, burn.readings, burn.series);
    }
    result.sources.extend(path.inputs.own);
    result.phases = path.phases;
}

/// What the cautions look at.
fn scene<'a>(burn: &Burn<'a>, phases: &Phases) -> Scene<'a> {
    Scene {
        row: burn.row,
        readings: burn.readings,
        series: burn.series,
        altitude: burn.row.altitude.or(burn.context.apparatus.site.altitude_m),
        steady: phases.steady(),
    }
}

impl<'a> Path<'a> {
    fn new(burn: &Burn<'a>, capacity: Capacity) -> Self {
        let (readings, series) = (burn.readings, burn.series);
        let delay = burn.model.features.line.as_ref().map_or(0.0, |l| l.delay);
        let phases = burn.fire.phases(readings, series, delay);
        let range = phases.steady();
        let step = burn.context.errors.column("tank").map_or(0.0, |e| e.step);
        let steady = range.and_then(|r| steady_tank(series, r));
        let whole = match (range.filter(|_| phases.certain), &steady) {
            (Some(range), Some(s)) => whole::ratio(readings, &burn.fire.strength, range, s.air_mean),
            _ => (1.0, 0.1),
        };
        let noise = range.map_or((f64::NAN, f64::INFINITY), |r| steady::noise(series, r, capacity, step));
        let held = steady.as_ref().zip(range);
        let inputs = PathInputs::new(burn, held, noise, whole);
        let (drop, rise) = (change(&inputs, P::FlueBefore, P::FlueAfter), change(&inputs, P::CoilOut, P::CoilIn));
        let exchanger = apparatus::exchanger(burn.row, burn.context.apparatus);
        let (arrangement, assumed_counter) = apparatus::arrangement(exchanger);
        let altitude = burn.row.altitude.or(burn.context.apparatus.site.altitude_m).unwrap_or(0.0);
        let finite = |slot: P| inputs.get(slot).value.is_finite();
        let model = PathModel {
            base: burn.model,
            steady,
            composition: apparatus::composition(burn.row, burn.context.apparatus),
            arrangement,
            tube_area: apparatus::area(exchanger),
            casing: apparatus::casing(exchanger, readings),
            pressure: air::pressure_at(altitude),
            drop_tells: drop.0 > TELLS * drop.1,
            rise_tells: rise.0 > TELLS * rise.1,
            has_analysis: finite(P::Oxygen) || finite(P::CarbonDioxide),
        };
        let traced = propagate::first_order(&inputs.slots, |x| model.evaluate(x));
        let freedom = Freedom::new(&inputs.slots, |source| {
            let own = inputs.own.get(source).or_else(|| burn.inputs.own.get(source));
            own.or_else(|| burn.context.book.get(source))
        });
        let asked = burn.row.exchanger.is_some() || ASKING.iter().any(|c| readings.channel(*c).is_some());
        Self {
            phases,
            model,
            inputs,
            traced,
            drop,
            rise,
            assumed_counter,
            asked,
            freedom,
            level: burn.context.settings.level,
        }
    }

    /// An estimate from a traced value, with degrees of freedom from its sources.
    pub fn estimate(&self, value: &UncertainValue, unit: &'static str, method: &'static str) -> Estimate {
        let (u, dof) = (value.std_uncertainty(), self.freedom.effective(value));
        Estimate::student(value.value, unit, u, dof, self.level, method)
    }
}

/// Channels that show there is an exchanger to speak of.
const ASKING: [Channel; 4] = [Channel::FlueBefore, Channel::FlueAfter, Channel::CoilOut, Channel::Flow];

/// Difference of two slots and its standard uncertainty, shared errors cancelling.
fn change(inputs: &PathInputs, a: P, b: P) -> (f64, f64) {
    let difference = UncertainValue::combine(&[(1.0, inputs.get(a)), (-1.0, inputs.get(b))]);
    (difference.value, difference.std_uncertainty())
}

#[cfg(test)]
mod tests;
