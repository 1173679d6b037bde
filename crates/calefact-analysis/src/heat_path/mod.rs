//! Where the heat goes: exchanger, flue gas and energy balance of a burn.
//!
//! Steps: phases -> steady means with their errors ([`inputs`]) -> one model of water side, gas side and exchanger
//! ([`model`]) propagated to first order -> estimates, balance, cross-checks, points for charts. What the log does not
//! hold stays empty with a reason. The usual case, two flue probes and no gas analysis, takes the gas flow from the heat
//! the water took and says so.

mod apparatus;
pub(crate) mod balance;
pub(crate) mod closure;
pub(crate) mod course;
pub(crate) mod estimates;
mod evaluate;
mod gas_side;
pub(crate) mod inputs;
pub(crate) mod means;
pub(crate) mod model;
mod operating;
mod part;
mod path;
pub(crate) mod scatter;
pub(crate) mod slots;
pub(crate) mod steady;
pub(crate) mod terms;
mod transfer;
mod water_side;
pub(crate) mod whole;

use crate::Quantity;
use crate::burn::Burn;
use crate::cautions::{self, Scene};
use crate::ending;
use crate::phases::Phases;
use crate::result::TrialResult;
use path::Path;

/// Adds phases, exchanger quantities, balance and their findings to the result of a burn.
pub(crate) fn extend(burn: &Burn, result: &mut TrialResult) {
    let capacity = burn.inputs.capacity(&burn.model.features);
    let path = Path::new(burn, capacity);
    estimates::fill(&path, &path.traced, result);
    balance::fill(&path, &path.traced, result);
    result.findings.extend(closure::findings(&path, &path.traced));
    let energy = result.get(Quantity::FuelEnergy).map_or(f64::NAN, |e| 1e6 * e.estimate.value);
    result.findings.extend(ending::findings(burn, capacity, energy));
    result.findings.extend(cautions::findings(&scene(burn, &path.phases)));
    result.exchanger = course::point(result);
    result.operating = operating::values(&path, result);
    if path.asked {
        result.exchanger_course = course::course(&path, burn);
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
        steady: phases.steady_part(),
    }
}

#[cfg(test)]
mod tests;
