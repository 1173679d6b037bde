//! Each caution on a log made to call for it, and not on one that does not.

use super::{Scene, findings, general};
use crate::phases::SteadyPart;
use crate::series::Series;
use crate::test_support::row;
use calefact_data::{Channel, Readings, TrialKind};

fn readings(channels: &[(Channel, &[f64])]) -> Readings {
    let n = channels[0].1.len();
    Readings {
        elapsed_s: (0..n).map(|i| 600.0 * i as f64).collect(),
        channels: channels.iter().map(|(c, v)| (*c, v.to_vec())).collect(),
        flags: vec![0; n],
        ..Readings::default()
    }
}

fn codes(readings: &Readings, altitude: Option<f64>) -> Vec<&'static str> {
    let row = row(TrialKind::Burn);
    let series = Series::from_readings(readings, Some(15.0));
    let steady = Some(SteadyPart { start_s: 0.0, end_s: 1e9, certain: true });
    let scene = Scene { row: &row, readings, series: &series, altitude, steady };
    findings(&scene).iter().map(calefact_data::finding::Finding::code).collect()
}

#[test]
fn outlet_near_boiling_depends_on_altitude() {
    // Water boils at 93.3 degC at 2000 m (standard atmosphere and IAPWS).
    let log = readings(&[(Channel::Tank, &[15.0, 18.0, 20.0]), (Channel::CoilOut, &[80.0, 89.0, 85.0])]);
    assert_eq!(codes(&log, Some(2000.0)), ["caution-near-boiling"]);
    assert!(codes(&log, None).is_empty());
}

#[test]
fn flow_that_stops_over_a_hot_fire() {
    let tank = [15.0, 16.0, 17.0, 18.0];
    let flow = [0.05, 0.05, 0.0, 0.05];
    let hot = readings(&[(Channel::Tank, &tank), (Channel::Flow, &flow), (Channel::FlueBefore, &[300.0; 4])]);
    assert_eq!(codes(&hot, None), ["caution-flow-stopped", "caution-dry-coil"]);
    let cold = readings(&[(Channel::Tank, &tank), (Channel::Flow, &flow), (Channel::FlueBefore, &[60.0; 4])]);
    assert!(codes(&cold, None).is_empty());
}

/// The limits themselves, a tenth of the usual flow and 150 degC, are not beyond them.
#[test]
fn flow_and_gas_at_their_limits_are_no_stop() {
    let tank = [15.0, 16.0, 17.0, 18.0];
    for (least, gas, want) in [
        (0.049, 151.0, vec!["caution-flow-stopped"]),
        (0.05, 151.0, vec![]),
        (0.049, 150.0, vec![]),
        (0.049, 300.0, vec!["caution-flow-stopped", "caution-dry-coil"]),
        (0.05, 300.0, vec![]),
    ] {
        let flow = [0.5, 0.5, least, 0.5];
        let log = readings(&[(Channel::Tank, &tank), (Channel::Flow, &flow), (Channel::FlueBefore, &[gas; 4])]);
        assert_eq!(codes(&log, None), want, "{least} kg/s at {gas} degC");
    }
}

/// Without a flow meter hot gas and no rise over the coil show that nothing flows.
#[test]
fn a_coil_without_rise_in_hot_gas_is_dry() {
    let tank = [15.0, 16.0, 17.0, 18.0];
    for (out, want) in [(15.2, vec!["caution-dry-coil"]), (12.0, vec!["caution-dry-coil"]), (25.0, vec![])] {
        let log = readings(&[
            (Channel::Tank, &tank),
            (Channel::CoilIn, &[15.0; 4]),
            (Channel::CoilOut, &[out; 4]),
            (Channel::FlueBefore, &[300.0; 4]),
        ]);
        assert_eq!(codes(&log, None), want, "{out} degC");
    }
}

/// Readings every ten minutes: the last quarter of an hour holds two of them.
#[test]
fn a_store_that_was_hot_before_the_last_quarter_of_an_hour_is_lukewarm() {
    let mut row = row(TrialKind::Burn);
    row.extra.insert("use".into(), "store".into());
    for (tank, want) in [([45.0, 62.0, 40.0, 38.0], true), ([45.0, 40.0, 62.0, 38.0], false)] {
        let log = readings(&[(Channel::Tank, &tank)]);
        let series = Series::from_readings(&log, Some(15.0));
        let scene = Scene { row: &row, readings: &log, series: &series, altitude: None, steady: None };
        assert_eq!(findings(&scene).iter().any(|f| f.code() == "caution-lukewarm-store"), want, "{tank:?}");
    }
}

#[test]
fn cool_gas_and_monoxide() {
    let tank = [15.0, 16.0, 17.0, 18.0];
    let log = readings(&[(Channel::Tank, &tank), (Channel::FlueAfter, &[110.0, 115.0, 130.0, 140.0])]);
    assert_eq!(codes(&log, None), ["caution-creosote"]);
    let log = readings(&[(Channel::Tank, &tank), (Channel::FlueCo, &[1e-4, 2e-3, 1e-3, 1e-4])]);
    assert_eq!(codes(&log, None), ["caution-carbon-monoxide"]);
}

#[test]
fn scald_tub_and_lukewarm_store() {
    let log = readings(&[(Channel::Tank, &[15.0, 35.0, 55.0])]);
    assert_eq!(codes(&log, None), ["caution-scald"]);
    let log = readings(&[(Channel::Tank, &[15.0, 36.0, 42.0])]);
    assert!(codes(&log, None).is_empty());
    for (purpose, want) in [("hot tub", "caution-tub"), ("heat store", "caution-lukewarm-store")] {
        let mut row = row(TrialKind::Burn);
        row.extra.insert("use".into(), purpose.into());
        let series = Series::from_readings(&log, Some(15.0));
        let scene = Scene { row: &row, readings: &log, series: &series, altitude: None, steady: None };
        assert_eq!(findings(&scene).iter().map(calefact_data::finding::Finding::code).collect::<Vec<_>>(), [want]);
    }
}

#[test]
fn general_cautions_end_with_the_word_of_local_codes() {
    let codes: Vec<&str> = general().map(|f| f.code()).collect();
    assert_eq!(codes.first(), Some(&"caution-closed-coil"));
    assert_eq!(codes.last(), Some(&"caution-codes"));
}
