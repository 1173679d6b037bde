//! The scenario of a world: stoves, wood, exchanger, vessel and instruments with their true errors, and what is written of them.

use super::facts::{Facts, HEAT_CAPACITY, LOSS, VOLUME};
use super::spec::{Logs, Missing, Place, World};
use crate::instrument::InstrumentModel;
use crate::nursery;
use crate::scenario::{FuelModel, Scenario, StoveModel, Trend, VesselModel};
use calefact_data::apparatus::{Apparatus, Instrument, Site, Stated, Tolerance, Vessel};
use calefact_data::register_columns;

/// Efficiency added by a per cent of damper, in worlds where it is varied.
pub(super) const DAMPER_SLOPE: f64 = -0.0012;

/// The scenario of a world.
pub(super) fn scenario(world: &World, facts: &Facts) -> Scenario {
    Scenario {
        title: "Two stoves (invented)".into(),
        site: Site { name: "Yard".into(), altitude_m: Some(300.0) },
        vessel: vessel(world, facts),
        stoves: stoves(world),
        fuels: vec![fuel(world, facts)],
        exchangers: nursery::exchangers().into_iter().skip(1).take(1).collect(),
        effects: Vec::new(),
        trends: vec![Trend { column: "damper".into(), centre: 50.0, slope: DAMPER_SLOPE }],
        day_sd: 0.0,
        scatter: 1.0,
        instruments: instruments(world),
        heating_rate_at: 40.0,
    }
}

fn vessel(world: &World, facts: &Facts) -> VesselModel {
    let known = |u| if world.lacks(Missing::Vessel) { None } else { Some(u) };
    let entry = Vessel {
        name: "Drum".into(),
        heat_capacity: Some(Stated { value: facts.heat_capacity, std_uncertainty: known(HEAT_CAPACITY[1]) }),
        volume: Some(Stated { value: VOLUME, std_uncertainty: None }),
        loss_coefficient: Some(Stated { value: LOSS[0], std_uncertainty: known(LOSS[1]) }),
        ..Vessel::default()
    };
    VesselModel { id: "drum".into(), entry, loss_coefficient: facts.loss }
}

/// The second stove is more efficient by some standard deviations of a burn, burns slower and lights up faster.
fn stoves(world: &World) -> Vec<StoveModel> {
    let mut stoves: Vec<StoveModel> = nursery::stoves().into_iter().take(2).collect();
    for (stove, efficiency) in stoves.iter_mut().zip([0.32, 0.36]) {
        stove.efficiency = efficiency;
    }
    if world.alike {
        stoves[1] = StoveModel { id: stoves[1].id.clone(), entry: stoves[1].entry.clone(), ..stoves[0].clone() };
    }
    stoves
}

fn fuel(world: &World, facts: &Facts) -> FuelModel {
    let mut fuel = nursery::fuels().swap_remove(0);
    let known = |u| if world.lacks(Missing::CalorificValue) { None } else { Some(u) };
    let entry = &mut fuel.entry;
    entry.net_calorific_value_dry = Some(Stated { value: facts.calorific, std_uncertainty: known(0.25e6) });
    entry.char_calorific_value = Some(Stated { value: facts.char_calorific, std_uncertainty: known(1.0e6) });
    (entry.price_per_kg, entry.currency) = (None, None);
    fuel
}

/// Limits of thermometers whose tolerance nobody states, in water and air: 1.5 K. Of a flue probe: class 2 of type K
/// (IEC 60584-1) and 15 K or 5 % for radiation and placing.
const WATER_PROBE: Tolerance = Tolerance::Absolute(1.5);
const FLUE_PROBE: [Tolerance; 2] = [Tolerance::GreaterOf(2.5, 0.0075), Tolerance::GreaterOf(15.0, 0.05)];

fn instruments(world: &World) -> Vec<InstrumentModel> {
    let mut list = nursery::instruments();
    for model in &mut list {
        model.at_limit = world.lacks(Missing::Tolerances) && world.place == Place::Edge;
        if world.lacks(Missing::Tolerances) {
            model.entry.tolerance = assumed(&model.entry);
        }
        let by_hand = matches!(world.logs, Logs::FiveRows | Logs::TenRows);
        if by_hand && model.entry.reads.iter().any(|column| column == "tank" || column == "coil_out") {
            model.entry.resolution = Some(0.5);
        }
    }
    list
}

/// Limits of error of an instrument whose tolerance nobody states.
fn assumed(instrument: &Instrument) -> Vec<Tolerance> {
    match instrument.reads.first().map_or("", String::as_str) {
        "flue_before" | "flue_after" => FLUE_PROBE.to_vec(),
        "fuel_mass" => vec![Tolerance::OfReading(0.02)],
        "water" => vec![Tolerance::OfReading(0.03)],
        "fuel_moisture" => vec![Tolerance::Absolute(0.03)],
        "flow" => vec![Tolerance::OfReading(0.10)],
        "tank" | "coil_in" | "coil_out" | "ambient" => vec![WATER_PROBE],
        _ => instrument.tolerance.clone(),
    }
}

/// What the owner writes of the apparatus.
pub(super) fn written(world: &World, scenario: &Scenario) -> Apparatus {
    let mut apparatus = scenario.apparatus();
    for vessel in apparatus.vessels.values_mut().filter(|_| world.lacks(Missing::Vessel)) {
        (vessel.heat_capacity, vessel.loss_coefficient) = (None, None);
    }
    for fuel in apparatus.fuels.values_mut().filter(|_| world.lacks(Missing::CalorificValue)) {
        (fuel.class, fuel.composition) = (None, None);
        (fuel.net_calorific_value_dry, fuel.char_calorific_value) = (None, None);
    }
    if world.lacks(Missing::Tolerances) {
        apparatus.instruments.clear();
    }
    apparatus
}

/// Columns of the register that the owner does not have.
pub(super) fn left_out(world: &World) -> Vec<&'static str> {
    let columns = |input| match input {
        Missing::Kindling => vec!["kindling_mass"],
        Missing::Leftovers => vec!["leftover_fuel", "leftover_char"],
        Missing::Moisture => vec!["fuel_moisture", "moisture_basis"],
        Missing::MoistureBasis => vec!["moisture_basis"],
        _ => Vec::new(),
    };
    let never = ["ambient", "altitude", "heater_power", "exclude", "note"];
    let all: Vec<&str> = world.missing.iter().flat_map(|&input| columns(input)).chain(never).collect();
    register_columns::names().into_iter().filter(|name| all.contains(name)).collect()
}
