//! Data of the page's calculator: the laws of the combinations with their draws, the vessels, the units. Its script
//! (`templates/calculator.js`) repeats the function of [`calefact_analysis::forecast`] with them. Nothing is computed here.

use crate::words::forecast::combination;
use crate::words::{Units, Wording};
use calefact_analysis::forecast::outcome::LIMITS;
use calefact_analysis::result::{Analysis, Combination, Draw, Extent, Stretch, VesselDraws};
use calefact_analysis::settings::ReferenceJob;
use calefact_data::ApparatusKind;
use serde::Serialize;

/// Combinations given, those with most burns: the draws of one take about 20 kB.
const MOST: usize = 40;

/// All that the script reads. A number that is not known is null.
#[derive(Serialize)]
struct Given<'a> {
    level: f64,
    us: bool,
    boiling: f64,
    altitude: Option<f64>,
    start: ReferenceJob,
    limits: Stretch,
    stretch: Columns<3>,
    combinations: Vec<Law<'a>>,
    of_its_size: Vessel,
}

/// Numbers by draw, a list a parameter.
type Columns<const N: usize> = [Vec<f64>; N];

/// A combination.
#[derive(Serialize)]
struct Law<'a> {
    name: String,
    levels: [String; 3],
    n: usize,
    centre: [f64; 4],
    mean: Columns<4>,
    next: Columns<4>,
    extent: &'a Extent,
    net_dry: f64,
    vessel: Vessel,
    volume: Option<f64>,
}

/// A vessel: heat capacity and loss.
#[derive(Serialize)]
struct Vessel {
    name: String,
    centre: [f64; 2],
    draws: Columns<2>,
}

/// The data of the script, safe inside a page; none without burns.
pub(super) fn data(w: &Wording<'_>, analysis: &Analysis) -> Option<String> {
    let forecasts = &analysis.forecasts;
    let mut chosen: Vec<usize> = (0..forecasts.combinations.len()).collect();
    chosen.sort_by_key(|i| std::cmp::Reverse(forecasts.combinations[*i].trials.len()));
    chosen.truncate(MOST);
    chosen.sort_unstable();
    if chosen.is_empty() {
        return None;
    }
    let usual = ReferenceJob { water_m3: 0.1, from: 10.0, to: 50.0, ambient: 10.0, fuel_moisture: None };
    let given = Given {
        level: analysis.level,
        us: w.units == Units::Us,
        boiling: forecasts.own.boiling,
        altitude: forecasts.own.altitude_m,
        start: forecasts.jobs.first().map_or(usual, |job| job.job.task),
        limits: LIMITS,
        stretch: columns(&forecasts.stretch, |s| [s.power, s.burn_rate, s.hot]),
        combinations: chosen.iter().map(|i| law(w, &forecasts.combinations[*i], &forecasts.own.usual[*i])).collect(),
        of_its_size: vessel(w, &forecasts.own.of_its_size),
    };
    // A `<` could end the script that holds the data.
    serde_json::to_string(&given).ok().map(|json| json.replace('<', "\\u003c"))
}

fn columns<T, const N: usize>(draws: &[T], of: fn(&T) -> [f64; N]) -> Columns<N> {
    std::array::from_fn(|place| draws.iter().map(|draw| of(draw)[place]).collect())
}

fn law<'a>(w: &Wording<'_>, c: &'a Combination, (usual, volume): &(VesselDraws, Option<f64>)) -> Law<'a> {
    let parameters = |d: &Draw| [d.power, d.fixed_s, d.burn_rate, d.moisture];
    let name = |kind, id: &Option<String>| id.as_ref().map_or_else(String::new, |id| w.apparatus(kind, id));
    Law {
        name: combination(w, c),
        levels: [
            name(ApparatusKind::Stove, &c.stove),
            name(ApparatusKind::Fuel, &c.fuel),
            name(ApparatusKind::Exchanger, &c.exchanger),
        ],
        n: c.trials.len(),
        centre: parameters(&c.centre),
        mean: columns(&c.mean, parameters),
        next: columns(&c.next, parameters),
        extent: &c.extent,
        net_dry: c.net_dry,
        vessel: vessel(w, usual),
        volume: *volume,
    }
}

fn vessel(w: &Wording<'_>, vessel: &VesselDraws) -> Vessel {
    Vessel {
        name: crate::words::forecast::vessel_name(w, vessel),
        centre: [vessel.centre.capacity, vessel.centre.loss],
        draws: columns(&vessel.draws, |v| [v.capacity, v.loss]),
    }
}
