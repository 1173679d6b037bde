//! Synthetic burns with known phases.

use super::{Fire, PhaseKind, Phases};
use crate::series::Series;
use calefact_data::readings::Remark;
use calefact_data::{Channel, Readings};

/// A made-up fire: silent to 300 s, ramp to 1200 s, steady to 6000 s, burn-down to 7200 s, over at 8400 s.
fn fire(t: f64) -> f64 {
    match t {
        t if t < 300.0 => 0.0,
        t if t < 1200.0 => (t - 300.0) / 900.0,
        t if t < 6000.0 => 1.0,
        t if t < 7200.0 => 1.0 - (t - 6000.0) / 1200.0,
        _ => 0.0,
    }
}

/// Readings every `step` s of 160 kg of water at 6 kW, with a fixed pattern of display noise of 0.1 K.
fn log(step: f64, flue: bool, fire: impl Fn(f64) -> f64) -> Readings {
    let n = (8400.0 / step) as usize + 1;
    let elapsed_s: Vec<f64> = (0..n).map(|i| step * i as f64).collect();
    let (mut tank, mut heat, mut at) = (Vec::new(), 0.0, 0.0);
    for (i, &t) in elapsed_s.iter().enumerate() {
        while at < t {
            heat += 6000.0 * fire(at + 0.5);
            at += 1.0;
        }
        tank.push(15.0 + heat / (160.0 * 4186.0) + 0.05 * f64::from((i * 7919 % 13) as u8) / 6.0 - 0.05);
    }
    let mut readings = Readings { flags: vec![0; n], elapsed_s, ..Default::default() };
    if flue {
        let before = readings.elapsed_s.iter().map(|&t| 20.0 + 480.0 * fire(t)).collect();
        let after = readings.elapsed_s.iter().map(|&t| 20.0 + 180.0 * fire(t)).collect();
        readings.channels.insert(Channel::FlueBefore, before);
        readings.channels.insert(Channel::FlueAfter, after);
    }
    readings.channels.insert(Channel::Tank, tank);
    readings
}

fn phases(readings: &Readings) -> Phases {
    with_delay(readings, 0.0)
}

fn with_delay(readings: &Readings, delay: f64) -> Phases {
    let series = Series::from_readings(readings, Some(15.0));
    Fire::find(readings, &series, 0.0).phases(readings, &series, delay)
}

/// Start of the ramp, start and end of the steady part, end of the burn-down.
fn edges(phases: &Phases) -> [f64; 4] {
    let of = |kind| phases.segments.iter().find(|p| p.kind == kind).copied().expect("phase found");
    let (start, end) = phases.steady().expect("steady part");
    [of(PhaseKind::Ramp).start, start, end, of(PhaseKind::BurnDown).end]
}

/// The ramp passes 0.8 at 1020 s, the burn-down at 6240 s; 0.1 at 390 s and 7080 s. The smoothing is 210 s wide.
fn close(found: [f64; 4], tolerance: f64) {
    for (found, want) in found.into_iter().zip([390.0, 1020.0, 6240.0, 7080.0]) {
        assert!((found - want).abs() < tolerance, "{found} for {want}");
    }
}

#[test]
fn phases_of_a_log_of_one_reading_a_second() {
    let readings = log(1.0, true, fire);
    assert_eq!(readings.len(), 8401);
    close(edges(&phases(&readings)), 150.0);
}

#[test]
fn phases_from_the_tank_alone() {
    close(edges(&phases(&log(1.0, false, fire))), 250.0);
    close(edges(&phases(&log(60.0, false, fire))), 250.0);
}

#[test]
fn thirty_readings_still_show_phases() {
    close(edges(&phases(&log(280.0, true, fire))), 450.0);
}

#[test]
fn phases_cover_the_log_without_gap() {
    let found = phases(&log(30.0, true, fire));
    assert_eq!((found.segments[0].start, found.segments[found.segments.len() - 1].end), (0.0, 8400.0));
    assert!(found.segments.windows(2).all(|w| (w[0].end - w[1].start).abs() < 1e-9));
}

#[test]
fn refuelling_lies_inside_the_steady_part() {
    let dip = |t: f64| fire(t) * if (3000.0..3900.0).contains(&t) { 0.6 } else { 1.0 };
    let mut readings = log(10.0, true, dip);
    let mut added = vec![f64::NAN; readings.len()];
    (added[0], added[300]) = (4.0, 2.0);
    readings.channels.insert(Channel::FuelAdded, added);
    readings.events.push(Remark { row: 301, text: "refuelled, 2 kg".into() });
    let found = phases(&readings);
    let refuel: Vec<_> = found.segments.iter().filter(|p| p.kind == PhaseKind::Refuel).collect();
    assert_eq!(refuel.len(), 1, "{found:?}");
    assert!((refuel[0].start - 3000.0).abs() < 1.0 && (refuel[0].end - 3900.0).abs() < 200.0, "{refuel:?}");
    close(edges(&found), 150.0);
}

#[test]
fn five_readings_tell_no_phases() {
    let readings = log(1800.0, false, fire);
    assert_eq!(readings.len(), 5);
    let found = with_delay(&readings, 700.0);
    assert!(!found.certain);
    assert_eq!(found.steady(), Some((700.0, 7200.0)));
}

#[test]
fn fire_out_event_ends_the_burn_down() {
    let mut readings = log(10.0, true, fire);
    readings.events.push(Remark { row: 690, text: "Fire out".into() });
    assert!((edges(&phases(&readings))[3] - 6900.0).abs() < 1.0);
}
