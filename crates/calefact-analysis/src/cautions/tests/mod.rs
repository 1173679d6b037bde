//! Each caution on a log made to call for it, and not on one that does not.

use super::{Scene, findings, general};
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
    let scene = Scene { row: &row, readings, series: &series, altitude, steady: Some((0.0, 1e9)) };
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
