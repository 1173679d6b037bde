//! The design of the demo: unbalanced, crossed, blocked by day. Conditions vary from burn to burn as they do outdoors.

use crate::plan::{Air, BurnPlan, Logging, Refuel, TrialPlan};
use crate::stream::stream;
use calefact_data::{Channel, TrialKind};
use rand::RngExt;
use std::collections::BTreeMap;

/// Stove, fuel, exchanger (indices of the scenario) and number of burns.
const CELLS: [([usize; 3], usize); 17] = [
    ([0, 0, 0], 4),
    ([0, 0, 1], 3),
    ([0, 1, 0], 3),
    ([0, 0, 2], 2),
    ([0, 1, 2], 1),
    ([1, 0, 0], 3),
    ([1, 0, 1], 4),
    ([1, 1, 1], 3),
    ([1, 0, 2], 3),
    ([1, 1, 2], 2),
    ([2, 0, 0], 2),
    ([2, 1, 0], 3),
    ([2, 0, 1], 2),
    ([2, 1, 1], 2),
    ([2, 0, 2], 2),
    ([2, 1, 2], 2),
    ([0, 1, 1], 1),
];
/// Burns of the design.
const BURNS: usize = 42;
/// Order of burns: every so many-th of the list, so that a day has several stoves.
const STRIDE: usize = 11;
const BURNS_A_DAY: usize = 3;
/// Wood that brings the tank from cold to a wash, by stove, kg.
const CHARGE: [f64; 3] = [5.9, 4.1, 4.6];
/// Burns logged by hand in five rows.
const BY_HAND: [usize; 8] = [3, 7, 12, 18, 21, 26, 33, 38];

/// The demo as committed: 42 burns, three standing-loss and three reference-heater trials.
pub(crate) fn design() -> Vec<TrialPlan> {
    let mut plans: Vec<TrialPlan> = (0..BURNS).map(|i| burn(i, i, rows(i))).collect();
    refuelled(&mut plans[9]);
    wet_wood(&mut plans[16]);
    pump_stopped(&mut plans[29]);
    plans.extend((0..3).map(standing_loss));
    plans.extend((0..3).map(reference_heater));
    plans
}

/// The design repeated to any number of burns, each log of `rows` rows and all with the columns of the best equipped
/// stove, beside the same six trials without fire.
pub(crate) fn many(burns: usize, rows: usize) -> Vec<TrialPlan> {
    let alike = |i| TrialPlan { logging: logging(1, rows.max(2)), ..burn(i, i % BURNS, rows.max(2)) };
    let mut plans: Vec<TrialPlan> = (0..burns).map(alike).collect();
    plans.extend((0..3).map(standing_loss));
    plans.extend((0..3).map(reference_heater));
    plans
}

/// Rows of a log of the demo: five by hand, else 100 to 240.
fn rows(i: usize) -> usize {
    if BY_HAND.contains(&i) { 5 } else { 100 + (i * 37) % 141 }
}

fn cell(i: usize) -> [usize; 3] {
    let list = CELLS.iter().flat_map(|&(cell, n)| std::iter::repeat_n(cell, n));
    list.cycle().nth(place(i)).unwrap_or([0, 0, 0])
}

/// Place of a burn in the list of cells; split and damper alternate along it, so that no stove has one of them alone.
const fn place(i: usize) -> usize {
    (i * STRIDE) % BURNS
}

fn burn(number: usize, i: usize, rows: usize) -> TrialPlan {
    let mut rng = stream(0, &format!("design/{number}"));
    let mut between = |low: f64, high: f64| rng.random_range(low..high);
    let [stove, fuel, exchanger] = cell(i);
    let day = number / BURNS_A_DAY;
    let morning = between(-3.0, 3.0);
    let damper = [30.0, 50.0, 70.0][place(i) % 3];
    let fire = BurnPlan {
        stove,
        fuel,
        exchanger,
        fuel_mass: CHARGE[stove] * between(0.92, 1.06),
        kindling: between(0.15, 0.35),
        leftover_fuel: if i.is_multiple_of(4) { between(0.1, 0.4) } else { 0.0 },
        leftover_char: between(0.06, 0.22),
        moisture: [0.145, 0.165][fuel] + between(-0.02, 0.02),
        refuel: None,
        efficiency: 0.0,
    };
    TrialPlan {
        trial: format!("b{:02}", number + 1),
        kind: TrialKind::Burn,
        date: date(day),
        block: format!("d{:02}", day + 1),
        operator: ["Ida", "Jorun", "Piet"][day % 3].into(),
        water_m3: between(0.156, 0.163),
        start: between(8.0, 13.0),
        air: Air { start: 11.0 + morning, drift: between(-0.5, 1.5) / 3600.0 },
        burn: Some(fire),
        heater_power: 0.0,
        duration_s: 0.0,
        logging: logging(stove, rows),
        extra: BTreeMap::from([
            ("damper".to_owned(), format!("{damper}")),
            ("split".to_owned(), ["coarse", "fine"][place(i) % 2].to_owned()),
        ]),
        exclude: None,
        note: None,
    }
}

/// Which columns a stove's logger has: the rocket stove has the oxygen probe, the batch stove a probe on the
/// exchanger's casing, the box stove no flow meter.
fn logging(stove: usize, rows: usize) -> Logging {
    use Channel::{Ambient, Casing, CoilIn, CoilOut, Flow, FlueAfter, FlueBefore, FlueO2, Tank};
    let by_hand = rows <= 12;
    let channels = match stove {
        _ if by_hand => vec![Tank, Ambient],
        0 => vec![Tank, CoilIn, CoilOut, FlueBefore, FlueAfter, Ambient],
        1 => vec![Tank, CoilIn, CoilOut, FlueBefore, FlueAfter, Ambient, Flow, FlueO2],
        _ => vec![Tank, CoilIn, CoilOut, FlueBefore, FlueAfter, Ambient, Casing, Flow],
    };
    // The box stove's logger counts in twentieths of a minute.
    let step_s = [3.0, 1.0, 1.0][stove];
    Logging { rows, step_s: if by_hand { 300.0 } else { step_s }, channels }
}

fn refuelled(plan: &mut TrialPlan) {
    if let Some(fire) = &mut plan.burn {
        fire.refuel = Some(Refuel { at: 0.45, mass: 1.5 });
    }
    plan.logging.channels.push(Channel::FuelAdded);
    plan.note = Some("second load put on half-way, weighed apart".into());
}

fn wet_wood(plan: &mut TrialPlan) {
    if let Some(fire) = &mut plan.burn {
        fire.moisture = 0.31;
        fire.efficiency = -0.08;
        fire.fuel_mass *= 1.1;
    }
    plan.note = Some("wood from the open side of the stack, hissing and wet".into());
}

fn pump_stopped(plan: &mut TrialPlan) {
    if let Some(fire) = &mut plan.burn {
        fire.efficiency = -0.12;
    }
    plan.exclude = Some("circulating pump stopped for a quarter of an hour".into());
}

/// A trial without fire, on a day after the burns.
fn plain(number: usize, kind: TrialKind, letter: char, rows: usize, channels: Vec<Channel>) -> TrialPlan {
    let day = 14 + number;
    TrialPlan {
        trial: format!("{letter}{}", number + 1),
        kind,
        date: date(day),
        block: format!("d{:02}", day + 1),
        operator: "Ida".into(),
        water_m3: 0.160,
        start: 10.0,
        air: Air { start: 10.0, drift: 0.0 },
        burn: None,
        heater_power: 0.0,
        duration_s: 0.0,
        logging: Logging { rows, step_s: 60.0, channels },
        extra: BTreeMap::new(),
        exclude: None,
        note: None,
    }
}

/// The hot tank left alone overnight.
fn standing_loss(number: usize) -> TrialPlan {
    TrialPlan {
        start: [57.0, 52.0, 60.0][number],
        air: Air { start: [12.0, 9.0, 14.0][number], drift: [-0.4, -0.3, -0.6][number] / 3600.0 },
        duration_s: [12.0, 10.0, 14.0][number] * 3600.0,
        ..plain(number, TrialKind::StandingLoss, 's', [145, 121, 169][number], vec![Channel::Tank, Channel::Ambient])
    }
}

/// An immersion heater on a plug meter.
fn reference_heater(number: usize) -> TrialPlan {
    let channels = vec![Channel::Tank, Channel::Ambient, Channel::Power];
    TrialPlan {
        start: [11.0, 14.0, 18.0][number],
        heater_power: [2950.0, 2930.0, 2965.0][number],
        duration_s: [10_800.0, 9_000.0, 9_900.0][number],
        ..plain(number, TrialKind::ReferenceHeater, 'h', [181, 151, 166][number], channels)
    }
}

/// Date of a day of the demo, counted from its first.
fn date(day: usize) -> String {
    let first = jiff::civil::date(2025, 3, 3);
    let days = jiff::Span::new().try_days(i64::try_from(day).unwrap_or(0));
    days.and_then(|d| first.checked_add(d)).map_or_else(|_| first.to_string(), |d| d.to_string())
}
