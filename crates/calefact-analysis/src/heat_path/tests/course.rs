//! The exchanger slice by slice.

use super::*;
use calefact_physics::water;

/// Water that warms by a rise growing with time: each slice has the heat flow of its own middle.
#[test]
fn each_slice_of_the_course_stands_at_its_own_time() {
    let elapsed_s: Vec<f64> = (0..61).map(|i| 60.0 * f64::from(i)).collect();
    let out = |t: f64| 30.0 + t / 3600.0;
    let column = |f: &dyn Fn(f64) -> f64| elapsed_s.iter().map(|t| f(*t)).collect::<Vec<f64>>();
    let channels = [
        (Channel::Tank, column(&|t| 15.0 + 0.005 * t)),
        (Channel::CoilIn, column(&|_| 20.0)),
        (Channel::CoilOut, column(&out)),
        (Channel::Flow, column(&|_| 0.05)),
        (Channel::FlueBefore, column(&|_| 400.0)),
        (Channel::FlueAfter, column(&|_| 200.0)),
    ];
    let readings = Readings { flags: vec![0; 61], elapsed_s, channels: channels.into(), ..Readings::default() };
    let result = reduced(&readings, Arrangement::Counter);
    let (start, end) = result.phases.steady().expect("a steady part");
    let course = &result.exchanger_course;
    assert_eq!(course.len(), 12);
    let width = (end - start) / 12.0;
    for (i, point) in course.iter().enumerate() {
        assert!((point.t - start - width * (i as f64 + 0.5)).abs() < 1e-9, "{i}: {}", point.t);
        // A slice holds whole readings, so its mean may lie half a reading from its middle.
        let power = |t: f64| 0.05 * (water::enthalpy(out(t)) - water::enthalpy(20.0));
        let slack = power(point.t + 31.0) - power(point.t);
        assert!((point.power - power(point.t)).abs() < slack, "{i}: {} for {}", point.power, power(point.t));
    }
}

/// Without flow and outlet each slice has the heat flow of the tank in it: of a tank that warms ever faster it grows.
#[test]
fn each_slice_of_the_course_has_the_flow_of_its_own_tank() {
    let elapsed_s: Vec<f64> = (0..61).map(|i| 60.0 * f64::from(i)).collect();
    let tank = elapsed_s.iter().map(|t| 15.0 + 0.005 * t + 2e-7 * t * t).collect();
    let gas = |degc: f64| vec![degc; 61];
    let channels = [(Channel::Tank, tank), (Channel::FlueBefore, gas(400.0)), (Channel::FlueAfter, gas(200.0))];
    let readings = Readings { flags: vec![0; 61], elapsed_s, channels: channels.into(), ..Readings::default() };
    let course = reduced(&readings, Arrangement::Counter).exchanger_course;
    assert!(course.len() > 4, "{course:?}");
    for point in &course {
        let expected = 160.0 * 4182.0 * (0.005 + 4e-7 * point.t);
        assert!((point.power / expected - 1.0).abs() < 0.005, "{point:?} for {expected}");
    }
}
