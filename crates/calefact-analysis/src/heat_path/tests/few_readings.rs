//! The exchanger from few readings.

use super::*;

/// Three readings of an outlet 15.7 K above a tank that warms by 22 K: the warming is no scatter of the rise.
#[test]
fn the_warming_of_the_tank_is_no_scatter_of_the_rise() {
    let mut readings = log(6200.0, 30.0, &[(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0)]);
    let tank = readings.channels[&Channel::Tank].clone();
    let outlet: Vec<f64> =
        tank.iter().enumerate().map(|(i, t)| if (1..4).contains(&i) { t + 15.7 } else { f64::NAN }).collect();
    readings.channels.insert(Channel::CoilOut, outlet);
    let result = reduced(&readings, Arrangement::Counter);
    let flow = &result.get(Quantity::CoilFlow).expect("a flow").estimate;
    assert!((flow.value - 6200.0 / (15.7 * 4181.0)).abs() < 0.001, "{}", flow.value);
    // The inlet taken as the tank, 1.25 K, and the scatter of three readings, half of it assumed: 10 % / sqrt 2 / sqrt 3.
    let relative = libm::hypot(1.25 / 15.7, 0.1 / 6.0_f64.sqrt());
    assert!((flow.std_uncertainty / flow.value / relative - 1.0).abs() < 0.05, "{}", flow.std_uncertainty / flow.value);
}

/// One reading of the outlet and two of the gas, none at the same time, give what several give, less surely.
#[test]
fn single_readings_give_the_exchanger_with_an_assumed_scatter() {
    let all = [
        (Channel::FlueBefore, celsius(1160.0)),
        (Channel::FlueAfter, celsius(315.0)),
        (Channel::CoilOut, celsius(118.0)),
    ];
    let mut several = log(5600.0, celsius(76.0), &all);
    let outlet = several.channels[&Channel::Tank].iter().map(|tank| tank + celsius(118.0) - celsius(76.0)).collect();
    several.channels.insert(Channel::CoilOut, outlet);
    let mut single = several.clone();
    for (channel, row) in [(Channel::FlueBefore, 1), (Channel::FlueAfter, 3), (Channel::CoilOut, 2)] {
        let cells = single.channels.get_mut(&channel).expect("logged");
        (0..5).filter(|i| *i != row).for_each(|i| cells[i] = f64::NAN);
    }
    let (several, single) = (reduced(&several, Arrangement::Counter), reduced(&single, Arrangement::Counter));
    for quantity in [Quantity::ExchangerEffectiveness, Quantity::CoilFlow, Quantity::ExchangerConductance] {
        let [many, one] = [&several, &single].map(|r| &r.get(quantity).expect("given").estimate);
        let name = quantity.name();
        assert!((one.value / many.value - 1.0).abs() < 1e-6, "{name}: {} for {}", one.value, many.value);
        assert!(one.std_uncertainty > 1.3 * many.std_uncertainty, "{name}: {one:?}");
        assert!(one.std_uncertainty < 0.3 * one.value, "{name}: {one:?}");
        assert!(notes(&single, quantity).contains(&Note::ScatterAssumed), "{name}");
    }
}

/// Light-up and burn-down in the first and the last stretch of five rows: the steady part is what lies between.
#[test]
fn few_readings_leave_out_their_first_and_last_stretch() {
    let mut readings = log(5000.0, 40.0, &[(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0)]);
    let per_row = 5000.0 * 600.0 / (160.0 * 4182.0);
    let tank = [0.0, 0.4, 1.4, 2.4, 2.7].map(|rows| 30.0 + rows * per_row);
    readings.channels.insert(Channel::Tank, tank.to_vec());
    for channel in [Channel::FlueBefore, Channel::FlueAfter] {
        let cells = readings.channels.get_mut(&channel).expect("logged");
        (cells[0], cells[4]) = (40.0, 45.0);
    }
    let result = reduced(&readings, Arrangement::Counter);
    assert!((value(&result, Quantity::CoilPower) / 5000.0 - 1.0).abs() < 0.002);
    let inlet = tank[2];
    let effectiveness = value(&result, Quantity::ExchangerEffectiveness);
    assert!((effectiveness - 250.0 / (500.0 - inlet)).abs() < 1e-6, "{effectiveness}");
}

/// Rises of 0.4, 1.0, 0.8 and 0.3 rows' worth of 5,000 W: the inner part has a flow of 0.9; the steady fire may have had the 1.0 of the
/// steepest stretch, or 3 % less than 0.9. The middle of the two is taken.
#[test]
fn what_few_readings_leave_open_moves_the_flow_to_its_middle() {
    let mut readings = log(5000.0, 40.0, &[(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0)]);
    let per_row = 5000.0 * 600.0 / (160.0 * 4182.0);
    let tank = [0.0, 0.4, 1.4, 2.2, 2.5].map(|rows| 30.0 + rows * per_row);
    readings.channels.insert(Channel::Tank, tank.to_vec());
    let expected = 5000.0 * (0.9 + f64::midpoint(0.1, -0.03 * 0.9));
    let power = value(&reduced(&readings, Arrangement::Counter), Quantity::CoilPower);
    assert!((power / expected - 1.0).abs() < 0.002, "{power} for {expected}");
}

/// An inlet 2 K below the tank, read with it: its mean is that of the tank less 2 K.
#[test]
fn an_inlet_that_follows_the_tank_lies_beside_it() {
    let mut readings = log(5000.0, 40.0, &[(Channel::FlueBefore, 500.0), (Channel::FlueAfter, 250.0)]);
    let inlet = readings.channels[&Channel::Tank].iter().map(|t| t - 2.0).collect();
    readings.channels.insert(Channel::CoilIn, inlet);
    let effectiveness = value(&reduced(&readings, Arrangement::Counter), Quantity::ExchangerEffectiveness);
    assert!((effectiveness - 250.0 / (500.0 - 38.0)).abs() < 1e-4, "{effectiveness}");
}
