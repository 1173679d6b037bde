//! The next build: exact where nothing changes, by hand where one burn stands alone, and a clear refusal of what the data do not
//! hold.

use crate::compare::support::{burn, close, gathered, set};
use calefact_analysis::build::{BuildRequest, Size, answer};
use calefact_analysis::result::{
    AreaExponent, BuildCaution, BuildForecast, BuildRefusal, BurnScatter, OperatingPart, OperatingValue, Reach,
    TrialResult,
};
use calefact_analysis::{Analysis, AnalysisHeader, Quantity, Settings, compare};
use calefact_data::Apparatus;
use calefact_data::apparatus::{Arrangement, Exchanger, Site};
use calefact_stats::{Estimate, UncertainValue};
use std::collections::BTreeMap;

/// An exchanger of 22 mm tube.
fn exchanger(length: Option<f64>) -> Exchanger {
    let sizes = [("tube_outside", Some(0.022)), ("tube_inside", Some(0.02)), ("length", length), ("passes", Some(1.0))];
    let build: BTreeMap<String, f64> = sizes.into_iter().filter_map(|(k, v)| Some((k.to_owned(), v?))).collect();
    Exchanger { name: "Coil".into(), arrangement: Some(Arrangement::Counter), build, insulation: None }
}

fn apparatus(exchangers: &[(&str, Option<f64>)]) -> Apparatus {
    let exchangers = exchangers.iter().map(|(id, length)| ((*id).to_owned(), exchanger(*length))).collect();
    Apparatus { exchangers, site: Site { name: "Yard".into(), altitude_m: Some(0.0) }, ..Apparatus::default() }
}

/// Gas of 13 W/K and 400 degC on water of 20 degC and `water` W/K (none: not known), over a conductance.
fn trial(id: &str, exchanger: &str, conductance: f64, water: Option<f64>) -> TrialResult {
    let mut trial = burn(id, 0.4, &[("stove", "box")]);
    trial.row.exchanger = Some(exchanger.into());
    let rate = water.unwrap_or(f64::INFINITY);
    let c = 13.0 / rate;
    let e = libm::exp(-conductance / 13.0 * (1.0 - c));
    let power = (1.0 - e) / (1.0 - c * e) * 13.0 * 380.0;
    let values = [
        (OperatingPart::Power, Some(power)),
        (OperatingPart::GasIn, Some(400.0)),
        (OperatingPart::GasOut, Some(400.0 - power / 13.0)),
        (OperatingPart::WaterIn, Some(20.0)),
        (OperatingPart::WaterRise, water.map(|rate| power / rate)),
    ];
    let operating = |(part, value): (OperatingPart, Option<f64>)| {
        let value = value?;
        let u = 0.01 * value;
        let traced = UncertainValue::new(value, format!("own:{id}:{part:?}"), u);
        Some(OperatingValue { part, estimate: Estimate::student(value, "1", u, f64::INFINITY, 0.95), traced })
    };
    trial.operating = values.into_iter().filter_map(operating).collect();
    set(&mut trial, Quantity::ExchangerConductance, UncertainValue::new(conductance, format!("ua:{id}"), 0.01));
    set(&mut trial, Quantity::GasFlow, UncertainValue::new(0.012, format!("gas:{id}"), 0.0001));
    trial
}

fn analysis(exchangers: &[(&str, Option<f64>)], trials: Vec<TrialResult>) -> Analysis {
    let settings = Settings::default();
    let gathered = gathered(&settings, trials);
    compare(AnalysisHeader::default(), &settings, &apparatus(exchangers), gathered, Vec::new(), Vec::new())
}

fn request(exchanger: &str, length: Size) -> BuildRequest {
    BuildRequest { exchanger: exchanger.into(), length: Some(length), ..BuildRequest::default() }
}

fn longer(analysis: &Analysis, length: Size) -> BuildForecast {
    answer(analysis, &request("coil", length)).expect("a forecast").remove(0)
}

/// Two burns of a coil of 6 m.
fn two_burns() -> Analysis {
    analysis(&[("coil", Some(6.0))], vec![trial("a", "coil", 15.0, Some(200.0)), trial("b", "coil", 17.0, Some(200.0))])
}

#[test]
fn the_exchanger_as_it_is_gives_what_it_gave() {
    let analysis = two_burns();
    let now = longer(&analysis, Size::Absolute(6.0));
    let measured: f64 =
        analysis.builds.forecasts.iter().find(|f| f.reach == Reach::Unchanged).expect("there").power.mean.value;
    close(now.power.mean.value, measured, 1e-9 * measured);
    assert_eq!((now.reach, now.gain.as_ref(), now.burns), (Reach::Unchanged, None, 2));
    assert_eq!(now.scatter, BurnScatter::Own);
}

/// By hand for one burn of UA 15: twice the tube by the power of 0.85 and a twentieth of water-side resistance gives
/// 15/(0.95/2^0.85 + 0.05/2) = 27.17 W/K; NTU 2.090, C_r 0.065: effectiveness 0.866.
#[test]
fn twice_the_tube_by_hand() {
    let alone = analysis(&[("coil", Some(6.0))], vec![trial("a", "coil", 15.0, Some(200.0))]);
    let twice = longer(&alone, Size::Times(2.0));
    close(twice.effectiveness.mean.value, 0.866, 5e-4);
    close(twice.power.mean.value, twice.effectiveness.mean.value * 13.0 * 380.0, 1e-6);
    close(13.0 * (400.0 - twice.gas_out.mean.value), twice.power.mean.value, 1e-6);
    assert_eq!((twice.reach, twice.length_m), (Reach::Untested, Some(12.0)));
    assert_eq!((twice.scatter, twice.power.next), (BurnScatter::Unknown, None));
    assert!(matches!(alone.builds.model.expect("one").area, AreaExponent::Assumed { .. }));
}

#[test]
fn one_burn_borrows_the_scatter_of_the_others() {
    let mut trials = vec![trial("a", "coil", 15.0, Some(200.0))];
    trials.extend([trial("b", "long", 24.0, Some(200.0)), trial("c", "long", 28.0, Some(200.0))]);
    let analysis = analysis(&[("coil", Some(6.0)), ("long", Some(12.0))], trials);
    let found = longer(&analysis, Size::Times(1.5));
    assert_eq!((found.scatter, found.reach), (BurnScatter::Borrowed, Reach::Between));
    assert!(found.power.next.expect("borrowed").half_width() > found.power.mean.interval.half_width());
}

/// UA 15 at 6 m and 27 at 12 m: the exponent is ln(27/15)/ln 2 = 0.848; beyond 12 m intervals are wider than the exponent
/// alone makes them.
#[test]
fn builds_of_two_lengths_show_the_exponent_and_beyond_them_intervals_widen() {
    let trials = (0..4).map(|i| if i < 2 { ("coil", 15.0) } else { ("long", 27.0) });
    let trials = trials.enumerate().map(|(i, (id, ua))| trial(&format!("t{i}"), id, ua, Some(200.0))).collect();
    let analysis = analysis(&[("coil", Some(6.0)), ("long", Some(12.0))], trials);
    let AreaExponent::Inferred { value, std_uncertainty, builds, weight } = analysis.builds.model.expect("one").area
    else {
        panic!("two lengths");
    };
    close(value, 0.848, 0.003);
    assert!(builds == 2 && std_uncertainty < 0.3 / 12.0_f64.sqrt() && (0.1..0.9).contains(&weight));
    let share = |length: f64| {
        let found = answer(&analysis, &request("long", Size::Absolute(length))).expect("a forecast").remove(0);
        let gain = found.gain.expect("a change").mean;
        (found.reach, gain.std_uncertainty)
    };
    let (between, beyond) = (share(9.0), share(18.0));
    assert_eq!(between.0, Reach::Between);
    assert!(matches!(beyond.0, Reach::Beyond { times } if (times - 1.5).abs() < 1e-9));
    assert!(beyond.1 > 0.0);
}

#[test]
fn cold_gas_hot_water_and_slow_flow_are_cautioned() {
    let thin =
        analysis(&[("coil", Some(6.0))], (0..2).map(|i| trial(&format!("{i}"), "coil", 25.0, Some(60.0))).collect());
    let twice = longer(&thin, Size::Times(2.0));
    let has = |kind: fn(&BuildCaution) -> bool| twice.cautions.iter().any(kind);
    assert!(has(|c| matches!(c, BuildCaution::Creosote { gas_degc, .. } if *gas_degc < 121.0)), "{:?}", twice.cautions);
    assert!(
        has(|c| matches!(c, BuildCaution::NearBoiling { water_degc, .. } if *water_degc > 95.0)),
        "{:?}",
        twice.cautions
    );
    assert!(
        has(|c| matches!(c, BuildCaution::SlowFlow { flow_kg_s, .. } if *flow_kg_s < 0.02)),
        "{:?}",
        twice.cautions
    );
    let alike = (0..5).map(|i| trial(&format!("{i}"), "coil", 15.0 + 0.1 * f64::from(i), Some(200.0))).collect();
    let half = longer(&analysis(&[("coil", Some(6.0))], alike), Size::Times(0.5));
    assert_eq!(half.cautions, [], "gas of {} degC", half.gas_out.mean.value);
}

/// The flow at which a caution says the water stays clear of boiling does that.
#[test]
fn the_least_flow_is_enough() {
    let thin =
        analysis(&[("coil", Some(6.0))], (0..2).map(|i| trial(&format!("{i}"), "coil", 25.0, Some(60.0))).collect());
    let asked = |flow: Option<f64>| {
        let flow = flow.map(Size::Absolute);
        let request = BuildRequest { flow, ..request("coil", Size::Times(2.0)) };
        answer(&thin, &request).expect("a forecast").remove(0)
    };
    let boiling = |f: &BuildForecast| {
        f.cautions.iter().find_map(|c| match c {
            BuildCaution::NearBoiling { least_flow_kg_s, .. } => *least_flow_kg_s,
            _ => None,
        })
    };
    let least = boiling(&asked(None)).expect("near boiling");
    assert_eq!(boiling(&asked(Some(1.01 * least))), None);
    assert!(boiling(&asked(Some(0.99 * least))).is_some());
}

#[test]
fn what_the_data_do_not_hold_is_refused_with_its_reason() {
    let refused = |analysis: &Analysis, request: BuildRequest| answer(analysis, &request).expect_err("refused");
    let twice = Size::Times(2.0);
    let two = two_burns();
    assert_eq!(refused(&analysis(&[], vec![]), request("coil", twice)), BuildRefusal::NoExchangers);
    let unknown = BuildRefusal::UnknownExchanger { id: "cool".into(), known: vec!["coil".into()] };
    assert_eq!(refused(&two, request("cool", twice)), unknown);
    let bare = analysis(&[("coil", Some(6.0))], vec![burn("a", 0.4, &[("stove", "box")])]);
    assert_eq!(refused(&bare, request("coil", twice)), BuildRefusal::NotMeasured { exchanger: "coil".into() });
    let other = BuildRequest { stove: Some("bux".into()), ..request("coil", twice) };
    assert!(matches!(refused(&two, other), BuildRefusal::NoBurnsOnStove { known, .. } if known == ["box"]));
    for value in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(
            matches!(refused(&two, request("coil", Size::Times(value))), BuildRefusal::NotPositive { .. }),
            "{value}"
        );
    }
    for size in [Size::Times(1000.0), Size::Times(0.001), Size::Absolute(6000.0)] {
        assert!(matches!(refused(&two, request("coil", size)), BuildRefusal::TooFar { key: "length", .. }), "{size:?}");
    }
    let plain = analysis(&[("coil", None)], vec![trial("a", "coil", 15.0, None)]);
    let stated = BuildRefusal::NotStated { exchanger: "coil".into(), key: "length" };
    assert_eq!(refused(&plain, request("coil", Size::Absolute(9.0))), stated);
    assert!(answer(&plain, &request("coil", twice)).is_ok(), "a ratio needs no length");
    let flow =
        BuildRequest { flow: Some(twice), ..BuildRequest { exchanger: "coil".into(), ..BuildRequest::default() } };
    assert_eq!(refused(&plain, flow), BuildRefusal::FlowUnknown { exchanger: "coil".into() });
}
