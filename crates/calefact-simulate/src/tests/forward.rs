//! Checks of the forward model: first law, closed forms, seeds.

use crate::forward::Forward;
use crate::group::group_truth;
use crate::nursery::{design, many, scenario};
use crate::plan::{Air, Logging, TrialPlan};
use crate::rig::Rig;
use crate::scenario::{Scenario, VesselModel};
use calefact_analysis::Quantity;
use calefact_data::apparatus::{Stated, Vessel};
use calefact_data::{Channel, TrialKind};
use calefact_physics::water::{density, enthalpy};
use std::collections::BTreeMap;

#[test]
fn every_trial_keeps_the_first_law() {
    let scenario = scenario();
    for seed in 1..=5 {
        let rig = Rig::draw(&scenario, seed);
        for plan in design() {
            let forward = Forward::new(&rig, &plan).expect(&plan.trial);
            let (stored, lost, delivered) = (forward.stored(), forward.course.lost, forward.course.delivered);
            let closure = (stored + lost - delivered).abs() / delivered.max(lost.abs());
            assert!(closure < 2e-6, "{}: {closure:e}", plan.trial);
            let truth = rig.truth(&plan).expect(&plan.trial);
            if let Some(&share) = truth.get(&Quantity::Unaccounted) {
                assert!((0.02..0.75).contains(&share), "{}: unaccounted {share}", plan.trial);
            }
            for (quantity, value) in &truth {
                assert!(value.is_finite(), "{}: {}", plan.trial, quantity.name());
            }
        }
    }
}

#[test]
fn figures_are_of_the_size_of_the_trade() {
    let scenario = scenario();
    let rig = Rig::draw(&scenario, 1);
    for plan in design() {
        let truth = rig.truth(&plan).expect("a trial");
        let exact = Forward::new(&rig, &plan).expect("a trial").readings();
        let Some(efficiency) = truth.get(&Quantity::ThermalEfficiency) else { continue };
        assert!((0.20..0.62).contains(efficiency), "{}: efficiency {efficiency}", plan.trial);
        let power = truth[&Quantity::SteadyHeatInput];
        assert!((2500.0..7500.0).contains(&power), "{}: {power} W", plan.trial);
        let tank = exact.channel(Channel::Tank).expect("a tank column");
        let last = tank[tank.len() - 1];
        assert!((30.0..72.0).contains(&last), "{}: ends at {last} degC", plan.trial);
        if let Some(before) = exact.channel(Channel::FlueBefore) {
            let hottest = before.iter().copied().fold(0.0, f64::max);
            assert!((250.0..720.0).contains(&hottest), "{}: flue at {hottest} degC", plan.trial);
        }
    }
}

#[test]
fn a_seed_is_a_world() {
    let scenario = scenario();
    let plans = design();
    let first_of = |seed| Rig::draw(&scenario, seed).trial(&plans[0]);
    let first = first_of(7);
    assert_eq!(first, first_of(7));
    assert_ne!(first, first_of(8));
    // A trial is the same whether made alone or after others.
    let rig = Rig::draw(&scenario, 7);
    let _ = rig.trial(&plans[5]);
    assert_eq!(first, rig.trial(&plans[0]));
}

/// A vessel of 200 kg of water in a heat flow that is simply on.
fn heater(power: f64, start: f64, air: Air, duration_s: f64, rows: usize) -> TrialPlan {
    TrialPlan {
        trial: "x".into(),
        kind: if power > 0.0 { TrialKind::ReferenceHeater } else { TrialKind::StandingLoss },
        date: String::new(),
        block: String::new(),
        operator: String::new(),
        water_m3: 0.2,
        start,
        air,
        burn: None,
        heater_power: power,
        duration_s,
        logging: Logging { rows, step_s: 0.0, channels: vec![Channel::Tank, Channel::Ambient] },
        extra: BTreeMap::new(),
        exclude: None,
        note: None,
    }
}

fn bare(loss_coefficient: f64) -> Scenario {
    let entry = Vessel { heat_capacity: Some(Stated { value: 0.0, std_uncertainty: None }), ..Vessel::default() };
    let vessel = VesselModel { id: "v".into(), entry, loss_coefficient };
    Scenario { vessel, instruments: Vec::new(), ..scenario() }
}

fn last_tank(scenario: &Scenario, plan: &TrialPlan) -> f64 {
    let rig = Rig::draw(scenario, 1);
    *Forward::new(&rig, plan)
        .expect("a trial")
        .readings()
        .channel(Channel::Tank)
        .and_then(<[f64]>::last)
        .expect("a tank column")
}

/// Cooling of a vessel in air whose temperature falls linearly: `T = a + b (t - tau) + (T0 - a + b tau) exp(-t/tau)`
/// (solution of the linear heat balance with a constant specific heat). The specific heat of water varies by 0.3 %
/// between 48 and 60 degC about the 4183 J/(kg K) of its middle (IAPWS-95 at 55 degC, 0.101325 MPa), which bounds the
/// difference.
#[test]
fn cooling_follows_the_closed_form() {
    let (loss, hours) = (3.0, 6.0);
    let capacity = 0.2 * 983.2 * 4183.0;
    let tau = capacity / loss;
    let t = hours * 3600.0;
    for drift in [0.0, -2.0 / 3600.0] {
        let plan = heater(0.0, 60.0, Air { start: 15.0, drift }, t, 73);
        let exact = 15.0 + drift * (t - tau) + (60.0 - 15.0 + drift * tau) * libm::exp(-t / tau);
        let got = last_tank(&bare(loss), &plan);
        assert!((got - exact).abs() < 0.004, "drift {drift}: {got} against {exact}");
    }
}

/// Constant heat flow in constant air: `T = Teq + (T0 - Teq) exp(-t/tau)`, 6000 W and 3 W/K over two hours. The lag of
/// the heater (20 s) is taken off the time; the specific heat is the mean between start and end (IAPWS).
#[test]
fn heating_follows_the_closed_form() {
    let (power, loss, start, t) = (6000.0, 3.0, 15.0, 7200.0);
    let plan = heater(power, start, Air { start, drift: 0.0 }, t, 241);
    let got = last_tank(&bare(loss), &plan);
    let mean = (enthalpy(got) - enthalpy(start)) / (got - start);
    let capacity = 0.2 * density(start) * mean;
    let exact = start + power / loss * (1.0 - libm::exp(-(t - 20.0) * loss / capacity));
    assert!((got - exact).abs() < 0.002, "{got} against {exact}");
}

#[test]
fn the_log_interval_does_not_matter_to_the_truth() {
    let air = Air { start: 15.0, drift: 0.0 };
    let [few, many] = [5, 2000].map(|rows| last_tank(&bare(3.0), &heater(5000.0, 12.0, air, 7200.0, rows)));
    assert!((few - many).abs() < 1e-4, "{few} against {many}");
}

#[test]
fn repeats_of_the_design_keep_its_levels() {
    let plans = many(84, 20);
    assert_eq!(plans.len(), 84 + 6);
    let setup = |plan: &TrialPlan| plan.burn.as_ref().map(|b| (b.stove, b.fuel, b.exchanger));
    assert_eq!(setup(&plans[3]), setup(&plans[45]));
    assert_eq!(plans[0].logging.rows, 20);
}

/// Effects are additive, so a group's mean is the mean of its burns' effects: checked for a level in one cell.
#[test]
fn group_truth_is_the_mean_of_expected_burns() {
    let scenario = scenario();
    let plans: Vec<TrialPlan> = design();
    let groups = group_truth(&scenario, &plans, 1).expect("groups");
    let group = |factor: &str, level: &str, quantity| {
        groups.iter().find(|g| g.factor == factor && g.level == level && g.quantity == quantity).expect("a group")
    };
    let rocket = group("stove", "rocket", Quantity::ThermalEfficiency);
    let expected: Vec<f64> = plans
        .iter()
        .filter(|p| p.exclude.is_none())
        .filter_map(|p| Some((p, p.burn.as_ref().filter(|b| b.stove == 1)?)))
        .map(|(p, b)| {
            let damper: f64 = p.extra["damper"].parse().expect("a number");
            let split = if p.extra["split"] == "fine" { 0.012 } else { 0.0 };
            0.47 + [0.0, -0.015][b.fuel] + [0.0, 0.040, 0.065][b.exchanger] + split - 0.0006 * (damper - 50.0)
        })
        .collect();
    assert_eq!(rocket.burns, expected.len());
    assert!((rocket.value - expected.iter().sum::<f64>() / expected.len() as f64).abs() < 1e-9);
}

/// The effectiveness a person would compute from exact readings, `(before - after)/(before - inlet)`, and the heat the gas
/// gives up against the heat the water takes, are those of the truth.
#[test]
fn flue_readings_agree_with_their_truth() {
    let scenario = scenario();
    let rig = Rig::draw(&scenario, 3);
    for plan in design().iter().filter(|p| p.logging.wants_flue()) {
        let trial = rig.trial(plan).expect("a trial");
        let exact = Forward::new(&rig, plan).expect("a trial").readings();
        let channel = |c| exact.channel(c).expect("a column");
        let (before, after) = (channel(Channel::FlueBefore), channel(Channel::FlueAfter));
        let (inlet, outlet) = (channel(Channel::CoilIn), channel(Channel::CoilOut));
        let mid = exact.len() * 2 / 5;
        let share = (before[mid] - after[mid]) / (before[mid] - inlet[mid]);
        let truth = trial.truth[&Quantity::ExchangerEffectiveness];
        assert!((share / truth - 1.0).abs() < 0.02, "{}: {share} against {truth}", plan.trial);
        let water = trial.truth[&Quantity::CoilFlow] * 4180.0 * (outlet[mid] - inlet[mid]);
        let truth = trial.truth[&Quantity::CoilPower];
        assert!((water / truth - 1.0).abs() < 0.10, "{}: {water} W against {truth} W", plan.trial);
    }
}
