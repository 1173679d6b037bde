//! A five-row log on paper, reduced from end to end in memory.

use calefact_analysis::fact::Lack;
use calefact_analysis::fact::Slot;
use calefact_analysis::settings::ReferenceJob;
use calefact_analysis::{Quantity, Reducer, Settings, pool_losses};
use calefact_data::apparatus::{Apparatus, Fuel, Instrument, Stated, Tolerance, Vessel};
use calefact_data::{Assume, Channel, MoistureBasis, Origin, Readings, RegisterRow, TrialKind, Water};
use std::collections::BTreeMap;
use std::sync::Arc;

const US_GALLON: f64 = 3.785_411_784e-3; // m3, NIST SP 811 appendix B.8
const POUND: f64 = 0.453_592_37; // kg, NIST SP 811 appendix B.8

fn celsius(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

fn settings() -> Settings {
    Settings { heating_rate_at: 20.0, ..Settings::default() }
}

/// Bare water, so that the figures of the trade, which know no vessel and no loss, can be met.
fn apparatus() -> Apparatus {
    let exact = |value| Some(Stated { value, std_uncertainty: None });
    let vessel = Vessel { heat_capacity: exact(0.0), loss_coefficient: exact(0.0), ..Vessel::default() };
    let fuel = Fuel { net_calorific_value_dry: exact(19.1e6), ..Fuel::default() };
    let probe = Instrument {
        reads: vec!["tank".into()],
        tolerance: vec![Tolerance::Absolute(0.5)],
        resolution: Some(0.1),
        ..Instrument::default()
    };
    Apparatus {
        vessels: BTreeMap::from([("barrel".into(), vessel)]),
        fuels: BTreeMap::from([("firewood".into(), fuel)]),
        instruments: BTreeMap::from([("probe".into(), probe)]),
        ..Apparatus::default()
    }
}

fn row(kind: TrialKind) -> RegisterRow {
    RegisterRow {
        stove: Some("box".into()),
        fuel: Some("firewood".into()),
        fuel_mass: Some(9.25 * POUND),
        fuel_moisture: Some(0.20),
        moisture_basis: Some(MoistureBasis::Wet),
        kindling_mass: Some(0.0),
        ambient: Some(celsius(45.0)),
        line: 2,
        ..RegisterRow::bare("t1", kind, "logs/t1.csv", "barrel", Water::Volume(28.0 * US_GALLON))
    }
}

fn readings(minutes: &[f64], tank: &[f64]) -> Readings {
    Readings {
        elapsed_s: minutes.iter().map(|m| 60.0 * m).collect(),
        channels: BTreeMap::from([(Channel::Tank, tank.to_vec())]),
        flags: vec![0; minutes.len()],
        ..Readings::default()
    }
}

/// Common practice, no source: 28 US gallons from 45 to 99.7 degF in 40 minutes is about 13.5 MJ and 5.6 kW; on 9.25 lb of
/// firewood at 20 % moisture (wet basis, 19.1 MJ/kg dry) about 22 % before any leftover is credited.
#[test]
fn a_barrel_in_forty_minutes() {
    let (settings, apparatus) = (settings(), apparatus());
    let tank: Vec<f64> = (0..5).map(|i| celsius(45.0 + 54.7 * f64::from(i) / 4.0)).collect();
    let losses = pool_losses(&[], &apparatus, &settings);
    let result = Reducer::new(&settings, &apparatus, &losses).reduce(
        &row(TrialKind::Burn),
        &readings(&[0.0, 10.0, 20.0, 30.0, 40.0], &tank),
        Vec::new(),
    );
    let value = |q| result.get(q).map(|e| e.estimate.value).expect("given");
    assert!((value(Quantity::HeatStored) - 13.5).abs() < 0.05, "{}", value(Quantity::HeatStored));
    assert!((value(Quantity::HeatInput) - 5600.0).abs() < 50.0, "{}", value(Quantity::HeatInput));
    assert!((value(Quantity::ThermalEfficiencyUncredited) - 0.22).abs() < 0.005);
    let credited = &result.get(Quantity::ThermalEfficiency).expect("leftovers blank: ranges").estimate;
    let uncredited = &result.get(Quantity::ThermalEfficiencyUncredited).expect("given").estimate;
    assert!(credited.value > uncredited.value && credited.std_uncertainty > uncredited.std_uncertainty);
    assert!(result.findings.is_empty(), "{:?}", result.findings);
}

/// A dataset that assumes nothing keeps what was not recorded empty.
#[test]
fn nothing_is_assumed_where_the_dataset_says_so() {
    let (settings, mut apparatus) = (settings(), apparatus());
    let tank: Vec<f64> = (0..5).map(|i| celsius(45.0 + 54.7 * f64::from(i) / 4.0)).collect();
    let log = readings(&[0.0, 10.0, 20.0, 30.0, 40.0], &tank);
    let assume = Assume { nothing: true, ..Assume::default() };
    let mut row = row(TrialKind::Burn);
    row.origin = Arc::new(Origin { assume, ..Origin::default() });
    let losses = pool_losses(&[], &apparatus, &settings);
    let result = Reducer::new(&settings, &apparatus, &losses).reduce(&row, &log, Vec::new());
    assert!(result.get(Quantity::ThermalEfficiency).is_none() && result.get(Quantity::HeatStored).is_some());
    assert!(result.missing.iter().any(|m| m.lacks.contains(&Lack::Input(Slot::LeftoverChar))));
    apparatus.vessels.insert("barrel".into(), Vessel::default());
    let result = Reducer::new(&settings, &apparatus, &[]).reduce(&row, &log, Vec::new());
    assert!(result.get(Quantity::HeatStored).is_none(), "the vessel is not known");
}

/// 200 kg of water cooling from 60 degC in air of 15 degC with 3 W/K reads 53.546325 degC after 12 h (closed form with
/// c = 4186 J/(kg K)); by enthalpy the capacity between those temperatures is that of the water, so UA follows it.
#[test]
fn loss_coefficient_from_a_cooling_night() {
    let (settings, mut apparatus) = (settings(), apparatus());
    if let Some(vessel) = apparatus.vessels.get_mut("barrel") {
        vessel.loss_coefficient = None;
    }
    let mut night = row(TrialKind::StandingLoss);
    night.water = Water::Mass(200.0);
    night.ambient = Some(15.0);
    let tau = 200.0 * 4186.0 / 3.0;
    let hours: Vec<f64> = (0..=12).map(f64::from).collect();
    let tank: Vec<f64> = hours.iter().map(|h| 15.0 + 45.0 * libm::exp(-h * 3600.0 / tau)).collect();
    let minutes: Vec<f64> = hours.iter().map(|h| 60.0 * h).collect();
    let result = Reducer::new(&settings, &apparatus, &[]).reduce(&night, &readings(&minutes, &tank), Vec::new());
    let loss = &result.get(Quantity::LossCoefficient).expect("given").estimate;
    let cp = 4183.0; // mean of IAPWS-95 between 50 and 60 degC is 4183.1 J/(kg K)
    assert!((loss.value - 3.0 * cp / 4186.0).abs() < 0.002, "{}", loss.value);
    assert!(loss.interval.contains(3.0));
    let pooled = pool_losses(&[result], &apparatus, &settings);
    assert_eq!(pooled[0].trials, ["t1"]);
}

/// A burn of slow light-up and burn-down in a vessel that loses heat, with some readings.
fn uneven_burn(minutes: &[f64], tank: &[f64], settings: &Settings) -> calefact_analysis::result::TrialResult {
    let mut apparatus = apparatus();
    let stated = |value| Some(Stated { value, std_uncertainty: Some(0.05 * value) });
    if let Some(vessel) = apparatus.vessels.get_mut("barrel") {
        (vessel.heat_capacity, vessel.loss_coefficient) = (stated(15e3), stated(6.0));
    }
    let losses = pool_losses(&[], &apparatus, settings);
    let mut row = row(TrialKind::Burn);
    (row.leftover_fuel, row.leftover_char) = (Some(0.3), Some(0.1));
    Reducer::new(settings, &apparatus, &losses).reduce(&row, &readings(minutes, tank), Vec::new())
}

const LATE: ([f64; 5], [f64; 5]) = ([0.0, 10.0, 20.0, 30.0, 45.0], [7.0, 9.0, 19.0, 31.0, 34.0]);

/// The job of the burn itself, with the burn's own water, temperatures and air, takes the burn's own time and wood: what the
/// light-up held back is part of it. Another job with twice the water takes about twice as long for all but light-up and
/// burn-down, which few readings do not show: 0 to 0.4 of the time.
#[test]
fn the_burns_own_job_takes_its_own_time() {
    let own = |litres_times: f64| ReferenceJob {
        water_m3: litres_times * 28.0 * US_GALLON,
        from: 7.0,
        to: 34.0,
        ambient: celsius(45.0),
        fuel_moisture: None,
    };
    let with = |job| Settings { reference_job: Some(job), ..settings() };
    for readings in [5, 2] {
        let pick = |v: [f64; 5]| if readings == 5 { v.to_vec() } else { vec![v[0], v[4]] };
        let burn = |times| uneven_burn(&pick(LATE.0), &pick(LATE.1), &with(own(times)));
        let value = |times, q| burn(times).get(q).map(|e| e.estimate.value).expect("given");
        let (time, fuel) = (value(1.0, Quantity::ReferenceTime), value(1.0, Quantity::ReferenceFuel));
        assert!((time - 2700.0).abs() < 1e-6, "{readings} readings: {time} s");
        let net = 1e-6 * calefact_physics::fuel::net_as_fired(19.1e6, 0.20);
        let energy = value(1.0, Quantity::FuelEnergy);
        assert!((fuel - energy / net).abs() < 1e-9, "{readings} readings: {fuel} kg");
        let twice = burn(2.0).get(Quantity::ReferenceTime).map(|e| e.estimate.interval).expect("given");
        let (least, most) = (twice.lower / time, twice.upper / time);
        assert!((1.35..1.6).contains(&least) && (1.97..2.3).contains(&most), "{least} to {most}");
    }
}

/// Two readings are a trial: heat, mean heat flow and efficiency. The flow of a steady part needs a log that shows one.
#[test]
fn two_readings_give_heat_flow_and_efficiency() {
    let result = uneven_burn(&[0.0, 45.0], &[7.0, 34.0], &settings());
    let estimate = |q| &result.get(q).expect("given").estimate;
    let (heat, flow) = (estimate(Quantity::HeatDelivered), estimate(Quantity::HeatInput));
    assert!((flow.value - 1e6 * heat.value / 2700.0).abs() < 1e-6, "{}", flow.value);
    let relative = |e: &calefact_stats::Estimate| e.std_uncertainty / e.value;
    assert!((relative(flow) / relative(heat) - 1.0).abs() < 1e-9, "the clock adds nothing");
    assert!(result.get(Quantity::ThermalEfficiency).is_some());
    let steady = result.missing.iter().find(|m| m.quantity == Quantity::SteadyHeatInput).expect("missing");
    assert_eq!(steady.lacks, [Lack::SteadyPart]);
}
