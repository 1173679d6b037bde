//! The burns of a world: what is set up on each day, within what varies outdoors.

use super::draws::Draws;
use super::facts::{AIR_ABOVE_TANK, Facts, KINDLING, LEFTOVER_CHAR, LEFTOVER_FUEL};
use super::spec::{Logs, Missing, Trouble, World};
use crate::plan::{Air, BurnPlan, Logging, Refuel, TrialPlan};
use calefact_data::{Channel, TrialKind};
use std::collections::BTreeMap;

/// Wood that brings the tank from cold to a wash, by stove, kg.
const CHARGE: [f64; 2] = [5.6, 4.9];
/// Rows of the fine grid that hand notes are taken from, and of a logger.
const GRID: [usize; 2] = [61, 121];

/// Which burn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Which<'a> {
    /// Id of the trial.
    pub(super) trial: &'a str,
    /// Index of the stove.
    pub(super) stove: usize,
    /// Number of the burn of its stove.
    pub(super) number: usize,
    /// Whether everything random about it lies on the other side of its middle.
    pub(super) mirrored: bool,
}

/// Whether a burn is logged by hand.
pub(super) const fn by_hand(world: &World, number: usize) -> bool {
    match world.logs {
        Logs::FiveRows | Logs::TenRows => true,
        Logs::Logger => false,
        Logs::Mixed => number.is_multiple_of(2),
    }
}

/// The plan of a burn.
pub(super) fn plan(world: &World, facts: &Facts, seed: u64, which: Which<'_>) -> TrialPlan {
    let mut draws = Draws::new(seed, &format!("world/burn/{}", which.trial), world.place, which.mirrored);
    let start = draws.between((8.0, 13.0));
    let burn = fire(world, facts, &mut draws, which.stove);
    let damper = ["30", "50", "70"][which.number % 3];
    TrialPlan {
        trial: which.trial.to_owned(),
        kind: TrialKind::Burn,
        date: format!("2025-03-{:02}", which.number + 1),
        block: format!("d{:02}", which.number + 1),
        operator: "Ida".into(),
        water_m3: draws.between((0.150, 0.158)),
        start,
        air: air(world, facts, &mut draws, start),
        burn: Some(burn),
        heater_power: 0.0,
        duration_s: 0.0,
        logging: logging(world, which.number),
        extra: if world.damper { [("damper".to_owned(), damper.to_owned())].into() } else { BTreeMap::new() },
        exclude: None,
        note: None,
    }
}

fn fire(world: &World, facts: &Facts, draws: &mut Draws, stove: usize) -> BurnPlan {
    let charge = CHARGE[if world.alike { 0 } else { stove }];
    let fuel_mass = charge * draws.between((0.93, 1.07));
    let recorded = [draws.between((0.15, 0.35)), draws.between((0.0, 0.3)), draws.between((0.06, 0.22))];
    let unrecorded = [
        draws.about(facts.kindling, KINDLING) * fuel_mass,
        draws.about(facts.leftover_fuel[stove], LEFTOVER_FUEL) * fuel_mass,
        draws.about(facts.leftover_char[stove], LEFTOVER_CHAR) * fuel_mass,
    ];
    let mass = |i: usize, input| if world.lacks(input) { unrecorded[i] } else { recorded[i] };
    BurnPlan {
        stove,
        fuel: 0,
        exchanger: 0,
        fuel_mass,
        kindling: mass(0, Missing::Kindling),
        leftover_fuel: mass(1, Missing::Leftovers),
        leftover_char: mass(2, Missing::Leftovers),
        moisture: moisture(world, facts, draws),
        refuel: world.has(Trouble::Refuelled).then(|| Refuel { at: draws.between((0.3, 0.6)), mass: 0.3 * fuel_mass }),
        efficiency: 0.0,
    }
}

/// One stack of wood; where its moisture was measured, each charge by itself.
fn moisture(world: &World, facts: &Facts, draws: &mut Draws) -> f64 {
    let of_charge = draws.between((-0.015, 0.015));
    if world.lacks(Missing::Moisture) { facts.moisture } else { facts.moisture + of_charge }
}

/// Air around the vessel; where it was not measured, it keeps to what is assumed of it.
fn air(world: &World, facts: &Facts, draws: &mut Draws, start: f64) -> Air {
    let (recorded, above) = (draws.between((5.0, 16.0)), draws.about(facts.air_above_tank, AIR_ABOVE_TANK));
    let drift = draws.between((-0.5, 1.5)) / 3600.0;
    if world.lacks(Missing::Air) { Air { start: start + above, drift: 0.0 } } else { Air { start: recorded, drift } }
}

fn logging(world: &World, number: usize) -> Logging {
    use Channel::{Ambient, CoilIn, CoilOut, Flow, FlueAfter, FlueBefore, FlueO2, Tank};
    let by_hand = by_hand(world, number);
    let mut channels = match world.logs {
        Logs::TenRows => vec![Tank, CoilOut, FlueBefore, FlueAfter],
        _ if by_hand => vec![Tank],
        _ => vec![Tank, CoilIn, CoilOut, FlueBefore, FlueAfter, Flow, FlueO2],
    };
    if !world.lacks(Missing::Air) {
        channels.push(Ambient);
    }
    // The log ends when the after-heat is over; its times are written to the second.
    Logging { rows: GRID[usize::from(!by_hand)], step_s: 0.0, channels }
}
