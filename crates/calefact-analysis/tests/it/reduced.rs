//! Trials whose result is known in closed form, reduced through the public interface: the curve for charts, trials of the rig,
//! Monte Carlo at the ends of its range.

use calefact_analysis::fact::{Derivation, Note, TrialFact};
use calefact_analysis::finding::{Fact, Finding};
use calefact_analysis::result::TrialResult;
use calefact_analysis::settings::Propagation;
use calefact_analysis::{Quantity, Reducer, Settings, pool_losses};
use calefact_data::apparatus::{Apparatus, Fuel, Stated, Vessel};
use calefact_data::{Channel, MoistureBasis, Readings, RegisterRow, TrialKind, Water};

/// Heat capacity of the vessel, J/K: all there is, since the water weighs next to nothing.
const CAPACITY: f64 = 500_000.0;
/// Its loss coefficient, W/K.
const LOSS: f64 = 4.0;
/// Air, degC.
const AIR: f64 = 15.0;

fn exact(value: f64) -> Stated {
    Stated { value, std_uncertainty: None }
}

fn apparatus() -> Apparatus {
    let vessel =
        Vessel { heat_capacity: Some(exact(CAPACITY)), loss_coefficient: Some(exact(LOSS)), ..Vessel::default() };
    let fuel = Fuel { net_calorific_value_dry: Some(exact(19.0e6)), ..Fuel::default() };
    Apparatus {
        vessels: [("block".into(), vessel)].into(),
        fuels: [("wood".into(), fuel)].into(),
        assumes_nothing: true,
        ..Apparatus::default()
    }
}

fn row(kind: TrialKind) -> RegisterRow {
    RegisterRow {
        stove: Some("box".into()),
        fuel: Some("wood".into()),
        fuel_mass: Some(3.0),
        fuel_moisture: Some(0.2),
        moisture_basis: Some(MoistureBasis::Wet),
        kindling_mass: Some(0.0),
        leftover_fuel: Some(0.0),
        leftover_char: Some(0.0),
        ambient: Some(AIR),
        ..RegisterRow::bare("t1", kind, "t1.csv", "block", Water::Mass(1e-6))
    }
}

fn reduced(settings: &Settings, row: &RegisterRow, readings: &Readings) -> TrialResult {
    let apparatus = apparatus();
    let losses = pool_losses(&[], &apparatus, settings);
    Reducer::new(settings, &apparatus, &losses).reduce(row, readings, Vec::new())
}

/// Temperature of the block after so long (s) under a constant heat flow (W) from a start: C dT/dt = Q - UA (T - Ta).
fn block(start: f64, heat: f64, t: f64) -> f64 {
    let end = AIR + heat / LOSS;
    end + (start - end) * libm::exp(-LOSS * t / CAPACITY)
}

/// A reading every `step` s.
fn log(count: usize, step: f64, tank: impl Fn(f64) -> f64) -> Readings {
    let elapsed_s: Vec<f64> = (0..count).map(|i| step * i as f64).collect();
    let tank = elapsed_s.iter().map(|t| tank(*t)).collect();
    Readings { flags: vec![0; count], channels: [(Channel::Tank, tank)].into(), elapsed_s, ..Readings::default() }
}

/// The curve drawn beside the readings of a cooling block is that of the exponential law; of 1,000 readings every seventh is
/// kept, and the last.
#[test]
fn the_curve_for_charts_follows_the_law_of_cooling() {
    let result =
        reduced(&Settings::default(), &row(TrialKind::StandingLoss), &log(1000, 60.0, |t| block(60.0, 0.0, t)));
    let measured = &result.curve.measured;
    assert_eq!(measured.len(), 144);
    let times: Vec<f64> = measured.iter().map(|(t, _)| *t).collect();
    assert_eq!((times[0], times[1], times[142], times[143]), (0.0, 420.0, 59_640.0, 59_940.0));
    let fitted = &result.curve.fitted;
    assert_eq!((fitted.len(), fitted[0].0), (61, 0.0));
    for (i, (t, tank)) in fitted.iter().enumerate() {
        assert!((t - 999.0 * i as f64).abs() < 1e-6, "{t}");
        assert!((tank - block(60.0, 0.0, *t)).abs() < 0.01, "{tank} at {t}");
    }
    let loss = &result.get(Quantity::LossCoefficient).expect("a loss").estimate;
    assert!((loss.value / LOSS - 1.0).abs() < 1e-3, "{loss:?}");
}

/// A heater whose power was logged and stands nowhere else: the block takes all of its 2,000 W but what it loses.
#[test]
fn the_power_of_a_heater_is_taken_from_the_log() {
    let mut readings = log(121, 60.0, |t| block(20.0, 2000.0, t));
    readings.channels.insert(Channel::Power, vec![2000.0; 121]);
    let result = reduced(&Settings::default(), &row(TrialKind::ReferenceHeater), &readings);
    let ratio = &result.get(Quantity::ReferenceHeaterRatio).expect("a ratio").estimate;
    assert!((ratio.value - 1.0).abs() < 1e-4, "{ratio:?}");
}

/// A fire of 6,000 W for two hours between two hours of rest, logged every minute.
fn burn() -> Readings {
    burn_after(7200.0, |_| 0.0)
}

/// A fire of 6,000 W for two hours after a rest (s) and before two more, logged every minute with an error by reading, K.
fn burn_after(rest: f64, error: impl Fn(usize) -> f64) -> Readings {
    let lit = block(20.0, 0.0, rest);
    let hot = block(lit, 6000.0, 7200.0);
    let tank = |t: f64| {
        if t < rest {
            block(20.0, 0.0, t)
        } else if t < rest + 7200.0 {
            block(lit, 6000.0, t - rest)
        } else {
            block(hot, 0.0, t - rest - 7200.0)
        }
    };
    let count = (rest + 14_400.0) as usize / 60 + 1;
    log(count, 60.0, |t| tank(t) + error((t / 60.0) as usize))
}

/// The mean flow over all of the log is a third of the flow in the steady part.
#[test]
fn the_steady_part_has_a_heat_flow_of_its_own() {
    let result = reduced(&Settings::default(), &row(TrialKind::Burn), &burn());
    let found = |q: Quantity| result.get(q).unwrap_or_else(|| panic!("{}: {:?}", q.name(), result.missing));
    let steady = found(Quantity::SteadyHeatInput);
    assert!((steady.estimate.value / 6000.0 - 1.0).abs() < 0.005, "{:?}", steady.estimate);
    assert_eq!(steady.method.derivation, Derivation::MeanOverSteadyPart);
    let mean = found(Quantity::HeatInput);
    assert!((mean.estimate.value / 2000.0 - 1.0).abs() < 0.005, "{:?}", mean.estimate);
    assert_eq!(mean.method.derivation, Derivation::MeanOverWindow);
    assert!((found(Quantity::HeatDelivered).estimate.value / 43.2 - 1.0).abs() < 0.005);
}

/// Without a job to reckon for, its time and fuel are not missing.
#[test]
fn no_job_leaves_no_gap() {
    let settings = Settings { reference_job: None, ..Settings::default() };
    let row = RegisterRow { fuel_mass: None, ..row(TrialKind::Burn) };
    let result = reduced(&settings, &row, &burn());
    let lacks = |q: Quantity| result.missing.iter().any(|m| m.quantity == q);
    assert!(lacks(Quantity::ThermalEfficiency));
    assert!(!lacks(Quantity::ReferenceTime) && !lacks(Quantity::ReferenceFuel), "{:?}", result.missing);
}

/// JCGM 101:2008 7.9.4 b: a level of 99.99 % needs 100 / 0.0001 draws, more than are made.
#[test]
fn a_level_that_needs_too_many_draws_keeps_first_order() {
    let propagation = Propagation::MonteCarlo { seed: 1, digits: 1 };
    let notes = |level: f64| {
        let result = reduced(&Settings { level, propagation, ..Settings::default() }, &row(TrialKind::Burn), &burn());
        result.get(Quantity::HeatDelivered).expect("given").notes.clone()
    };
    let too_many =
        |n: &Note| matches!(n, Note::TooManyDraws { draws, most } if (*draws, *most) == (1_000_000, 100_000));
    assert!(notes(0.9999).iter().any(too_many), "{:?}", notes(0.9999));
    assert!(!notes(0.99).iter().any(|n| matches!(n, Note::TooManyDraws { .. })));
}

/// What the scatter of the readings at the ends of the steady part leaves open depends on how far apart they are, not on when
/// the fire was lit.
#[test]
fn the_ends_of_the_steady_part_are_as_sure_whenever_it_began() {
    let at_the_ends = |rest: f64| {
        let readings = burn_after(rest, |i| if i % 2 == 0 { 0.1 } else { -0.1 });
        let result = reduced(&Settings::default(), &row(TrialKind::Burn), &readings);
        let steady = &result.get(Quantity::SteadyHeatInput).expect("a steady part").traced;
        let part = steady.parts.iter().find(|(source, _)| source.ends_with("tank at the ends of the steady part"));
        part.unwrap_or_else(|| panic!("{:?}", steady.parts)).1
    };
    let (early, late) = (at_the_ends(3600.0), at_the_ends(14_400.0));
    assert!((early / late - 1.0).abs() < 0.3, "{early} W, {late} W");
}

/// By hand: 3 kg at 20 % (wet) hold 3 (19.0 x 0.8 - 0.2 x 2.443) = 44.13 MJ net (latent heat at 25 degC from ISO 18125:2017), of which
/// 0.5 kg taken back are a sixth. On the gross basis wood of 6 % hydrogen has 8.94 x 0.06 x 2.443 = 1.31 MJ/kg more when dry.
#[test]
fn the_four_efficiencies_of_one_burn() {
    let row = RegisterRow { leftover_fuel: Some(0.5), ..row(TrialKind::Burn) };
    let result = reduced(&Settings::default(), &row, &burn());
    let value =
        |q: Quantity| result.get(q).unwrap_or_else(|| panic!("{}: {:?}", q.name(), result.missing)).estimate.value;
    let uncredited = value(Quantity::HeatDelivered) / 44.13;
    let gross = 44.13 / (3.0 * 0.8 * (19.0 + 1.31));
    for (quantity, expected, allowed) in [
        (Quantity::ThermalEfficiencyUncredited, uncredited, 1e-3),
        (Quantity::ThermalEfficiency, 1.2 * uncredited, 1e-3),
        (Quantity::ThermalEfficiencyGrossUncredited, gross * uncredited, 5e-3),
        (Quantity::ThermalEfficiencyGross, 1.2 * gross * uncredited, 5e-3),
    ] {
        assert!((value(quantity) / expected - 1.0).abs() < allowed, "{}: {}", quantity.name(), value(quantity));
    }
    let per_heat = 2.5 / (value(Quantity::HeatDelivered) / 3.6);
    assert!((value(Quantity::FuelPerHeat) / per_heat - 1.0).abs() < 1e-9);
    assert!((value(Quantity::BurnRate) / (2.5 / 6.0) - 1.0).abs() < 1e-9, "{}", value(Quantity::BurnRate));
}

/// 200 kg of bare water that a fire of 6,000 W warms for two hours take 43 MJ, 78 % of 3.74 kg of wood. Where 757 kg stand in the register
/// (US gallons under a header of litres) it is 297 %, and that slip is named. Where the vessel holds nearly all of the heat no slip in
/// the water explains a tenth of the wood.
#[test]
fn a_slip_in_the_water_counts_by_its_share_of_the_heat() {
    let slips = |vessel: f64, water_kg: f64, fuel_kg: f64| {
        let readings = log(121, 60.0, |t| 15.0 + 6000.0 * t / (vessel + 200.0 * 4182.0));
        let mut apparatus = apparatus();
        let block = apparatus.vessels.get_mut("block").expect("the vessel");
        (block.heat_capacity, block.loss_coefficient) = (Some(exact(vessel)), Some(exact(0.0)));
        let settings = Settings::default();
        let losses = pool_losses(&[], &apparatus, &settings);
        let row = RegisterRow { water: Water::Mass(water_kg), fuel_mass: Some(fuel_kg), ..row(TrialKind::Burn) };
        let result = Reducer::new(&settings, &apparatus, &losses).reduce(&row, &readings, Vec::new());
        let named = |f: &Finding| match &f.fact {
            Fact::Trial(TrialFact::HeatAboveSupply { slips, .. } | TrialFact::Implausible { slips, .. }) => {
                Some(slips.iter().filter(|s| s.column == "water").map(|s| s.factor).collect::<Vec<f64>>())
            }
            _ => None,
        };
        result.findings.iter().find_map(named)
    };
    assert_eq!(slips(0.0, 200.0, 3.74), None);
    let bare = slips(0.0, 757.082, 3.74).expect("a finding");
    assert!(bare.iter().any(|factor| (factor * 3.785_411_784 - 1.0).abs() < 1e-9), "{bare:?}");
    assert_eq!(slips(3.0e6, 0.757, 0.374).expect("a finding"), [0.0; 0]);
}
