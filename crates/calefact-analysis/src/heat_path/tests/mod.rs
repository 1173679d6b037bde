//! The heat path on logs whose answer is known in closed form or published.

mod balance;
mod course;
mod few_readings;

use crate::Quantity;
use crate::fact::trial::{BurnEnd, EndPoint};
use crate::fact::{Lack, Note, TrialFact};
use crate::finding::Fact;
use crate::result::TrialResult;
use crate::settings::{End, RigCheck, Settings};
use crate::test_support::row;
use crate::{Reducer, pool_losses};
use calefact_data::apparatus::{
    Apparatus, Arrangement, Composition, Exchanger, Fuel, Instrument, Stated, Tolerance, Vessel,
};
use calefact_data::{Channel, Readings, Severity, TrialKind};
use calefact_physics::combustion::{flue_gas, stoichiometry};
use calefact_physics::flue::sensible_heat;
use std::collections::BTreeMap;

/// Wood of the worked stack loss below.
const WOOD: Composition = Composition { c: 0.5, h: 0.062, o: 0.432, n: 0.001, s: 0.0, ash: 0.005 };

fn celsius(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

fn settings() -> Settings {
    Settings { heating_rate_at: 20.0, ..Settings::default() }
}

/// Bare water, the wood of the worked stack loss below, type K probes of class 2.
fn apparatus(arrangement: Arrangement) -> Apparatus {
    let exact = |value| Some(Stated { value, std_uncertainty: None });
    let fuel = Fuel { net_calorific_value_dry: exact(19.0e6), composition: Some(WOOD), ..Fuel::default() };
    let build = [("tube_outside", 0.02), ("length", 5.0), ("casing_diameter", 0.3), ("casing_height", 1.0)];
    let coil = Exchanger {
        arrangement: Some(arrangement),
        build: build.into_iter().map(|(k, v)| (k.to_owned(), v)).collect(),
        ..Exchanger::default()
    };
    let probe = |column: &str| Instrument {
        reads: vec![column.into()],
        tolerance: vec![Tolerance::GreaterOf(2.5, 0.0075)],
        ..Instrument::default()
    };
    Apparatus {
        vessels: [(
            "tank".into(),
            Vessel { heat_capacity: exact(0.0), loss_coefficient: exact(0.0), ..Vessel::default() },
        )]
        .into(),
        fuels: [("wood".into(), fuel)].into(),
        exchangers: [("coil".into(), coil)].into(),
        instruments: BTreeMap::from([("k1".into(), probe("flue_before")), ("k2".into(), probe("flue_after"))]),
        assumes_nothing: true,
        ..Apparatus::default()
    }
}

/// Five readings ten minutes apart; the tank rises by `power` W around `middle` degC, all else stands still.
fn log(power: f64, middle: f64, still: &[(Channel, f64)]) -> Readings {
    let elapsed_s: Vec<f64> = (0..5).map(|i| 600.0 * f64::from(i)).collect();
    let tank = elapsed_s.iter().map(|t| middle + power / (160.0 * 4182.0) * (t - 1200.0)).collect();
    let mut channels: BTreeMap<Channel, Vec<f64>> = still.iter().map(|(c, v)| (*c, vec![*v; 5])).collect();
    channels.insert(Channel::Tank, tank);
    Readings { flags: vec![0; 5], elapsed_s, channels, ..Readings::default() }
}

fn reduced(readings: &Readings, arrangement: Arrangement) -> TrialResult {
    let (settings, apparatus) = (settings(), apparatus(arrangement));
    let losses = pool_losses(&[], &apparatus, &settings);
    let mut row = row(TrialKind::Burn);
    row.fuel_mass = Some(2.0);
    Reducer::new(&settings, &apparatus, &losses).reduce(&row, readings, Vec::new())
}

fn value(result: &TrialResult, quantity: Quantity) -> f64 {
    result
        .get(quantity)
        .map_or_else(|| panic!("{} missing: {:?}", quantity.name(), result.missing), |e| e.estimate.value)
}

fn lacks(result: &TrialResult, quantity: Quantity) -> &[Lack] {
    result.missing.iter().find(|m| m.quantity == quantity).map_or(&[], |m| &m.lacks)
}

fn notes(result: &TrialResult, quantity: Quantity) -> &[Note] {
    &result.get(quantity).expect("given").notes
}

/// Common practice, no source: flue gas falling from 1160 to 315 degF over a coil in 76 degF water is an effectiveness of
/// about 0.78; an outlet of 118 degF while the tank gains 5.6 kW means a flow of about 3.4 L/min.
#[test]
fn figures_of_the_trade() {
    let still = [
        (Channel::FlueBefore, celsius(1160.0)),
        (Channel::FlueAfter, celsius(315.0)),
        (Channel::CoilOut, celsius(118.0)),
    ];
    let result = reduced(&log(5600.0, celsius(76.0), &still), Arrangement::Counter);
    assert!((value(&result, Quantity::ExchangerEffectiveness) - 0.78).abs() < 0.005);
    assert!((value(&result, Quantity::CoilPower) - 5600.0).abs() < 20.0);
    let litres = 60.0 * value(&result, Quantity::CoilFlow) / 0.9965;
    assert!((litres - 3.4).abs() < 0.1, "{litres} L/min");
    let notes = notes(&result, Quantity::ExchangerEffectiveness);
    let uncertain = |n: &Note| matches!(n, Note::Steady(Some(part)) if !part.certain);
    assert!(notes.iter().any(uncertain) && notes.contains(&Note::InletFromTank), "{notes:?}");
}

#[test]
fn a_coil_power_needs_a_coil() {
    let readings = log(5000.0, 40.0, &[(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0)]);
    let of_coil = |exchanger: Option<&str>| {
        let (settings, apparatus) = (settings(), apparatus(Arrangement::Counter));
        let losses = pool_losses(&[], &apparatus, &settings);
        let mut row = row(TrialKind::Burn);
        (row.fuel_mass, row.exchanger) = (Some(2.0), exchanger.map(ToOwned::to_owned));
        let result = Reducer::new(&settings, &apparatus, &losses).reduce(&row, &readings, Vec::new());
        let given = |q: Quantity| result.get(q).is_some() || result.missing.iter().any(|m| m.quantity == q);
        (given(Quantity::CoilPower), given(Quantity::CoilFlow), given(Quantity::ExchangerEffectiveness))
    };
    assert_eq!(of_coil(None), (false, false, true));
    assert_eq!(of_coil(Some("coil")), (true, true, true));
}

/// A flue exchanger by effectiveness and transfer units (library `ht` 1.2.0): UA 15 W/K, gas 12.96 W/K from 350 degC, water
/// 209.05 W/K from 15 degC. The example takes c_p 4181 J/(kg K) where IAPWS gives 4184.7, hence 0.1 %.
#[test]
fn conductance_by_arrangement() {
    for (arrangement, effectiveness, gas_out, water_out) in [
        (Arrangement::Counter, 0.676_481, 123.3789, 29.0493),
        (Arrangement::Parallel, 0.666_163, 126.8353, 28.8350),
        (Arrangement::CrossGasMixed, 0.672_694, 124.6476, 28.9707),
        (Arrangement::CrossWaterMixed, 0.671_330, 125.1045, 28.9423),
    ] {
        let still = [
            (Channel::FlueBefore, 350.0),
            (Channel::FlueAfter, gas_out),
            (Channel::CoilIn, 15.0),
            (Channel::CoilOut, water_out),
            (Channel::Flow, 0.05),
        ];
        let result = reduced(&log(2900.0, 15.0, &still), arrangement);
        assert!((value(&result, Quantity::ExchangerEffectiveness) - effectiveness).abs() < 1e-6);
        let conductance = value(&result, Quantity::ExchangerConductance);
        assert!((conductance / 15.0 - 1.0).abs() < 1.5e-3, "{arrangement:?}: {conductance}");
        let area = std::f64::consts::PI * 0.02 * 5.0;
        assert!((value(&result, Quantity::ExchangerConductanceArea) - conductance / area).abs() < 1e-9);
    }
}

/// Worked stack loss (library cantera 3.2.0, gri30 properties): 17.7789 % (net), with 0.30 % CO 17.7838 and 1.9117 %.
#[test]
fn worked_stack_loss() {
    let gas = |o2, co: Option<f64>| {
        let mut still = vec![(Channel::FlueAfter, 250.0), (Channel::FlueO2, o2)];
        still.extend(co.map(|co| (Channel::FlueCo, co)));
        let mut readings = log(3000.0, 40.0, &still);
        readings.channels.insert(Channel::Ambient, vec![20.0; 5]);
        reduced(&readings, Arrangement::Counter)
    };
    let plain = gas(0.105_216, None);
    assert!((100.0 * value(&plain, Quantity::FlueLoss) - 17.7789).abs() < 0.05);
    assert!((value(&plain, Quantity::AirRatio) - 2.0).abs() < 0.001);
    let case_b = gas(0.106_558, Some(0.003));
    assert!((100.0 * value(&case_b, Quantity::FlueLoss) - 17.7838 - 1.9117).abs() < 0.05);
    let co = case_b.balance.iter().find(|b| b.term == "flue_co").expect("a CO term");
    assert!((100.0 * co.share.value - 1.9117).abs() < 0.02);
}

/// The two ways to the gas flow on one burn, whose coil takes just what the gas of an air ratio of 2 gives up from 500 to
/// 250 degC: by the oxygen, and by the heat of the coil. The tank's heat is good to 0.1 %, since the log rises by a
/// constant heat capacity.
#[test]
fn gas_flow_from_the_coil_agrees_with_the_analysis() {
    let still = [(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0), (Channel::FlueO2, 0.105_216)];
    let burn_rate = 2.0 / 2400.0;
    let wood = stoichiometry(&WOOD, 0.2).expect("a fuel");
    let gas = flue_gas(&wood, 2.0, 0.0).expect("a gas");
    let power = burn_rate * sensible_heat(&gas, 250.0, 500.0);
    let analysed = reduced(&log(power, 40.0, &still), Arrangement::Counter);
    let inferred = reduced(&log(power, 40.0, &still[..2]), Arrangement::Counter);
    assert!(notes(&inferred, Quantity::GasFlow).contains(&Note::NoGasAnalysis));
    for (quantity, expected) in [(Quantity::GasFlow, burn_rate * gas.mass), (Quantity::AirRatio, 2.0)] {
        let (by_gas, by_coil) = (value(&analysed, quantity), value(&inferred, quantity));
        assert!((by_coil / by_gas - 1.0).abs() < 0.002, "{}: {by_coil} by coil, {by_gas} by gas", quantity.name());
        assert!((by_gas / expected - 1.0).abs() < 0.001, "{}: {by_gas}, expected {expected}", quantity.name());
    }
    let closure = |result: &TrialResult| result.findings.iter().find(|f| f.code() == "closure-gas").map(|f| f.severity);
    assert_eq!(closure(&analysed), Some(Severity::Note));
    // Twice the heat is more than this gas has.
    assert_eq!(closure(&reduced(&log(2.0 * power, 40.0, &still), Arrangement::Counter)), Some(Severity::Warning));
}

#[test]
fn too_small_a_fall_is_refused() {
    let still = [(Channel::FlueBefore, 200.0), (Channel::FlueAfter, 195.0)];
    let result = reduced(&log(3000.0, 40.0, &still), Arrangement::Counter);
    for quantity in [Quantity::ExchangerEffectiveness, Quantity::GasFlow, Quantity::ExchangerConductance] {
        assert!(result.get(quantity).is_none());
        let lacks = lacks(&result, quantity);
        assert!(matches!(lacks[0], Lack::SmallFall { fall_k, .. } if (fall_k - 5.0).abs() < 1e-9), "{lacks:?}");
    }
}

#[test]
fn impossible_effectiveness_and_swapped_probes_are_errors() {
    let cold = [(Channel::FlueBefore, 400.0), (Channel::FlueAfter, 15.0)];
    let result = reduced(&log(3000.0, 60.0, &cold), Arrangement::Counter);
    assert!(result.get(Quantity::ExchangerEffectiveness).is_none());
    assert!(result.findings.iter().any(|f| f.code() == "effectiveness-impossible") && !result.usable());
    let swapped = [(Channel::FlueBefore, 200.0), (Channel::FlueAfter, 400.0)];
    let result = reduced(&log(3000.0, 60.0, &swapped), Arrangement::Counter);
    assert!(result.findings.iter().any(|f| f.code() == "flue-probes-swapped"));
}

#[test]
fn the_terms_add_up_to_the_fuel() {
    let still = [(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0), (Channel::Casing, 80.0)];
    let result = reduced(&log(5000.0, 40.0, &still), Arrangement::Counter);
    let sum: f64 = result.balance.iter().map(|b| b.share.value).sum();
    assert!((sum - 1.0).abs() < 1e-12, "{:?}", result.balance);
    let names: Vec<&str> = result.balance.iter().map(|b| b.term).collect();
    assert_eq!(
        names,
        ["stored", "standing_loss", "flue_sensible", "casing", "leftover_fuel", "leftover_char", "unaccounted"]
    );
    let beside: Vec<&str> = result.balance_beside.iter().map(|b| b.term).collect();
    assert_eq!(beside, ["fuel", "flue_latent"]);
}

#[test]
fn a_log_of_the_tank_alone_still_has_a_balance() {
    let result = reduced(&log(5000.0, 40.0, &[]), Arrangement::Counter);
    let left = result.balance.iter().find(|b| b.term == "unaccounted").expect("unaccounted");
    let [Note::Unaccounted { not_measured }] = &left.notes[..] else { panic!("{:?}", left.notes) };
    assert_eq!(not_measured, &["flue_sensible", "flue_co", "casing"]);
    assert!(result.get(Quantity::Unaccounted).is_none());
}

/// The same burn with the rig's ratio of 0.95: as a correction it divides the heat, as a bound it widens the interval.
#[test]
fn a_rig_that_reads_low_is_corrected_or_bounded() {
    let readings = log(5000.0, 40.0, &[]);
    let apparatus = apparatus(Arrangement::Counter);
    let with = |check: RigCheck| {
        let settings = Settings { rig_check: check, ..settings() };
        let losses = pool_losses(&[], &apparatus, &settings);
        let mut heater = row(TrialKind::ReferenceHeater);
        heater.heater_power = Some(5000.0 / 0.95);
        let reducer = Reducer::new(&settings, &apparatus, &losses);
        let measured = reducer.reduce(&heater, &readings, Vec::new());
        let rig = crate::pool_rig(&[measured], &apparatus, &settings).expect("a rig");
        assert!((rig.estimate.value - 0.95).abs() < 0.002, "{}", rig.estimate.value);
        let mut row = row(TrialKind::Burn);
        row.fuel_mass = Some(2.0);
        let burn = reducer.with_reference_heater(Some(&rig)).reduce(&row, &readings, Vec::new());
        let e = &burn.get(Quantity::HeatDelivered).expect("given").estimate;
        (e.value, e.std_uncertainty / e.value)
    };
    let (plain, none) = with(RigCheck::Report);
    let (corrected, _) = with(RigCheck::Correct);
    let (bounded, wide) = with(RigCheck::Bound);
    assert!((corrected / plain - 1.0 / 0.95).abs() < 0.003);
    assert!((bounded / plain - 1.0).abs() < 1e-9 && none < 0.01 && (wide - 0.05).abs() < 0.005, "{none} {wide}");
}

/// After-heat: a 20 L vessel read 51.9 degC when the heat stopped and 53.7 degC 252 s later (public heater logs); here
/// 160 kg, so that the choice of the end moves 160 x 1.8 x 4.18 kJ of the fuel's 29.4 MJ, 4.1 points.
#[test]
fn after_heat_is_a_note() {
    let mut readings = log(5000.0, 40.0, &[]);
    readings.channels.insert(Channel::Tank, vec![20.0, 30.0, 42.0, 51.9, 53.7]);
    readings.events.push(calefact_data::readings::Remark { row: 3, text: "fire out".into() });
    let settings = Settings { end: End::FireOut, ..settings() };
    let apparatus = apparatus(Arrangement::Counter);
    let losses = pool_losses(&[], &apparatus, &settings);
    let mut row = row(TrialKind::Burn);
    row.fuel_mass = Some(2.0);
    let result = Reducer::new(&settings, &apparatus, &losses).reduce(&row, &readings, Vec::new());
    let note = result.findings.iter().find(|f| f.code() == "end-of-trial").expect("a note");
    let Fact::Trial(TrialFact::EndOfTrial { taken, others }) = &note.fact else { panic!("{note:?}") };
    assert_eq!(*taken, EndPoint { end: BurnEnd::FireOut, tank_degc: 51.9, at_s: 1800.0 });
    let [(other, change)] = others[..] else { panic!("{others:?}") };
    assert_eq!((other.tank_degc, other.at_s), (53.7, 2400.0));
    assert!((change - 0.041).abs() < 0.0005, "{change}");
}

/// Ten probes in one heated bath differed by up to 4.3 K (ten-channel bath log): one probe is not the tank's mean.
#[test]
fn layers_in_the_tank_are_a_note() {
    let readings = log(5000.0, 40.0, &[]);
    let layered = |offset: f64| {
        let mut readings = readings.clone();
        let inlet = readings.channels[&Channel::Tank].iter().map(|t| t - offset).collect();
        readings.channels.insert(Channel::CoilIn, inlet);
        reduced(&readings, Arrangement::Counter).findings.iter().any(|f| f.code() == "tank-layered")
    };
    assert!(layered(4.3) && !layered(1.0));
}

/// What the balance leaves unaccounted, and the quantity of that name, come by two ways to one share where nothing was
/// left over; the casing is in both.
#[test]
fn the_casing_is_accounted_for() {
    let still = [(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0), (Channel::Casing, 80.0)];
    let mut readings = log(5000.0, 40.0, &still);
    readings.channels.insert(Channel::Ambient, vec![20.0; 5]);
    let result = reduced(&readings, Arrangement::Counter);
    let share = |term: &str| result.balance.iter().find(|b| b.term == term).map_or(f64::NAN, |b| b.share.value);
    assert!(share("casing") > 0.005, "{}", share("casing"));
    let unaccounted = value(&result, Quantity::Unaccounted);
    assert!((unaccounted - share("unaccounted")).abs() < 1e-9, "{unaccounted}");
    let rest = 1.0 - value(&result, Quantity::ThermalEfficiency) - value(&result, Quantity::FlueLoss) - share("casing");
    assert!((unaccounted - rest).abs() < 1e-9, "{unaccounted} for {rest}");
}
