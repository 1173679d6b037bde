//! Faults that a bench knows, and sound logs that look like them.

use super::*;
use crate::fact::SpikeReading;

/// Readings of a burn with a logger every half minute: a tank from 10 degC that warms by 0.5 K a minute, a flue that lives.
fn burn(rows: usize) -> Readings {
    let t: Vec<f64> = (0..rows).map(|i| 30.0 * i as f64).collect();
    let tank = t.iter().map(|t| tenths(10.0 + t / 120.0)).collect();
    // A triangle between -1 and 1.
    let wave = |i: usize, period: f64| 4.0 * ((i as f64 / period).fract() - 0.5).abs() - 1.0;
    let flue = (0..rows).map(|i| tenths(420.0 + 60.0 * wave(i, 57.0) + 3.0 * wave(i, 2.7))).collect();
    let channels = [(Channel::Tank, tank), (Channel::FlueBefore, flue)].into();
    Readings { flags: vec![0; rows], elapsed_s: t, channels, ..Readings::default() }
}

/// A value as a display of tenths shows it.
fn tenths(value: f64) -> f64 {
    (10.0 * value).round() / 10.0
}

fn with(mut readings: Readings, channel: Channel, change: impl Fn(usize, f64) -> f64) -> Readings {
    if let Some(values) = readings.channels.get_mut(&channel) {
        *values = values.iter().enumerate().map(|(i, v)| change(i, *v)).collect();
    }
    readings
}

/// Codes of the faults, and the rows left out.
fn faults(mut readings: Readings) -> (Vec<&'static str>, Vec<usize>) {
    let found = leave_out(&mut readings, TrialKind::Burn);
    let rows = readings.left_out.values().flatten().map(|(row, _)| *row).collect();
    (found.iter().map(LoggerFault::code).collect(), rows)
}

const NONE: (Vec<&str>, Vec<usize>) = (Vec::new(), Vec::new());

#[test]
fn a_sound_burn_has_no_fault() {
    for rows in [3, 5, 12, 40, 200] {
        assert_eq!(faults(burn(rows)), NONE, "{rows} rows");
    }
}

#[test]
fn a_spike_is_left_out_and_flagged_and_its_value_kept_aside() {
    let mut readings = with(burn(60), Channel::Tank, |i, v| if i == 20 { 85.0 } else { v });
    let readings_of = vec![SpikeReading { at_s: 600.0, value: 85.0 }];
    let spike = LoggerFault::Spike { channel: Channel::Tank, readings: readings_of };
    assert_eq!(leave_out(&mut readings, TrialKind::Burn), [spike]);
    assert!(readings.channels[&Channel::Tank][20].is_nan() && !readings.channels[&Channel::FlueBefore][20].is_nan());
    assert_eq!((readings.flags[20], readings.flags[21]), (flag::FAULT, 0));
    assert_eq!(readings.left_out[&Channel::Tank], [(20, 85.0)]);
}

#[test]
fn spikes_of_up_to_three_readings_are_found_either_way() {
    for (width, by) in [(1, 12.0), (2, -12.0), (3, 40.0)] {
        let spiked = with(burn(60), Channel::Tank, |i, v| if (30..30 + width).contains(&i) { v + by } else { v });
        assert_eq!(faults(spiked), (vec!["reading-spike"], (30..30 + width).collect()), "{width} of {by} K");
    }
    let open = with(burn(60), Channel::FlueBefore, |i, v| if [7, 9, 40].contains(&i) { 1372.0 } else { v });
    assert_eq!(faults(open), (vec!["reading-spike"], vec![7, 9, 40]));
}

#[test]
fn a_probe_out_of_the_water_at_start_or_end_is_left_out() {
    for by in [13.0, 32.0, -15.0] {
        let ends = with(burn(100), Channel::Tank, |i, v| if i == 0 || i == 99 { v + by } else { v });
        assert_eq!(faults(ends), (vec!["reading-spike"], vec![0, 99]), "{by} K");
    }
}

/// Into air of 9 degC, at once or by a probe that takes some readings, with up to half of the log to come.
#[test]
fn a_probe_lifted_out_at_the_end_is_left_out() {
    for (start, follows) in [(98, 1.0), (90, 1.0), (95, 0.4), (60, 0.8)] {
        let change = |i: usize, v: f64| {
            let left = (start..=i).fold(1.0, |left, _| left * (1.0 - follows));
            if i < start { v } else { tenths(9.0 + left * (v - 9.0)) }
        };
        let lifted = with(burn(100), Channel::Tank, change);
        assert_eq!(faults(lifted), (vec!["tank-falls-away"], (start..100).collect()), "from {start}");
    }
}

#[test]
fn what_follows_a_spike_near_the_end_is_kept() {
    let peak = |i: usize, v: f64| if (93..96).contains(&i) { 75.0 } else { v.min(30.0) };
    assert_eq!(faults(with(burn(100), Channel::Tank, peak)), (vec!["reading-spike"], vec![93, 94, 95]));
}

/// What happens to a tank: a step that stays, a stir at the end, cold water poured in, a dip at refuelling.
#[test]
fn steps_and_dips_are_no_spikes() {
    let tank = |change: &dyn Fn(usize, f64) -> f64| faults(with(burn(100), Channel::Tank, change));
    assert_eq!(tank(&|i, v| if i >= 50 { v - 15.0 } else { v }), NONE, "water poured in");
    assert_eq!(tank(&|i, v| if i == 99 { v + 8.0 } else { v }), NONE, "stirred before the last reading");
    assert_eq!(tank(&|i, v| if i >= 90 { v - 15.0 } else { v }), NONE, "water poured in on a fire that goes on");
    assert_eq!(tank(&|i, v| if (50..58).contains(&i) { v - 2.0 } else { v }), NONE, "a layer");
    let flue = |i: usize, v: f64| if (50..53).contains(&i) { v - 250.0 } else { v };
    assert_eq!(faults(with(burn(100), Channel::FlueBefore, flue)), NONE, "the door open");
}

/// Whole degrees, ten minutes apart, by hand.
#[test]
fn coarse_logs_by_hand_are_sound() {
    let by_hand = |tank: &[f64], flue: f64| {
        let elapsed_s = (0..tank.len()).map(|i| 600.0 * i as f64).collect();
        let channels = [(Channel::Tank, tank.to_vec()), (Channel::FlueBefore, vec![flue; tank.len()])].into();
        Readings { flags: vec![0; tank.len()], elapsed_s, channels, ..Readings::default() }
    };
    assert_eq!(faults(by_hand(&[11.0, 11.0, 30.0, 24.0, 41.0], 300.0)), NONE);
    assert_eq!(
        faults(by_hand(&[11., 11., 14., 19., 25., 31., 37., 43., 48., 52., 55., 57., 58., 58., 58.], 300.0)),
        NONE
    );
}

#[test]
fn a_tank_probe_that_stands_still_and_comes_free_is_left_out_meanwhile() {
    let stuck = with(burn(120), Channel::Tank, |i, v| if (40..80).contains(&i) { 20.0 } else { v });
    assert_eq!(faults(stuck), (vec!["probe-stuck"], (41..80).collect()));
}

#[test]
fn a_tank_probe_that_stands_still_to_the_end_of_a_steady_fire_is_left_out() {
    let stuck = |i: usize, v: f64| if i >= 60 { 25.0 } else { v };
    assert_eq!(faults(with(burn(120), Channel::Tank, stuck)), (vec!["probe-stuck"], (61..120).collect()));
    let out = with(burn(120), Channel::Tank, stuck);
    let out = with(out, Channel::FlueBefore, |i, v| if i >= 60 { 0.3 * v } else { v });
    assert_eq!(faults(out), NONE, "the fire went out, and the tank stands at its peak");
}

#[test]
fn a_tank_that_boils_stands_still() {
    let boils = with(burn(200), Channel::Tank, |_, v| tenths((v + 50.0).min(99.6)));
    assert_eq!(faults(boils), NONE);
}

#[test]
fn a_flue_probe_that_stands_still_while_the_tank_warms_is_left_out() {
    let stuck = with(burn(120), Channel::FlueBefore, |i, v| if (40..80).contains(&i) { 431.2 } else { v });
    assert_eq!(faults(stuck), (vec!["probe-stuck"], (41..80).collect()));
    let cold = with(burn(120), Channel::FlueBefore, |i, v| if i >= 60 { 12.0 } else { v });
    assert_eq!(faults(cold), NONE);
}

#[test]
fn a_flue_probe_at_the_end_of_its_range_is_left_out_there() {
    let cut = with(burn(200), Channel::FlueBefore, |_, v| v.min(430.0));
    let top: Vec<usize> =
        cut.channels[&Channel::FlueBefore].iter().enumerate().filter(|(_, v)| **v >= 430.0).map(|(i, _)| i).collect();
    assert_eq!(faults(cut), (vec!["probe-saturated"], top));
}

/// A slow rise to a peak in whole degrees, and back: many equal readings at the top, and many just below.
#[test]
fn a_round_peak_is_not_cut_off() {
    for bend in [0.02, 0.002, 0.0005] {
        let round = |i: usize, _: f64| (500.0 - bend * (i as f64 - 100.0).powi(2)).round();
        assert_eq!(faults(with(burn(200), Channel::FlueBefore, round)), NONE, "{bend}");
    }
}

#[test]
fn a_dead_column_is_left_out() {
    let dead = |value: f64, rows: usize| faults(with(burn(rows), Channel::FlueBefore, |_, _| value));
    assert_eq!(dead(0.0, 40), (vec!["channel-dead"], (0..40).collect()));
    assert_eq!(dead(25.0, 40), (vec!["channel-dead"], (0..40).collect()));
    assert_eq!(dead(300.0, 15), NONE, "a figure noted once for all rows");
    let cold = with(burn(40), Channel::FlueBefore, |_, _| 12.0);
    let cold = with(cold, Channel::Tank, |_, _| 12.0);
    assert_eq!(faults(cold), NONE, "no fire");
}

#[test]
fn values_outside_the_range_of_a_column_are_left_out() {
    let open = with(burn(5), Channel::Tank, |i, v| if i == 2 { 3276.7 } else { v });
    assert_eq!(faults(open), (Vec::new(), vec![2]));
}
