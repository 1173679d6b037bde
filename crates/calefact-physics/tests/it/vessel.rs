//! The vessel's closed forms against worked examples.

use calefact_physics::vessel::{Body, conductance_from_cooling, mixed_temperature, sensor_lag};

/// 200 kg of 4186 J/(kg K), 3 W/K: an example whose figures were worked from the closed forms apart from this crate.
const BODY: Body = Body { heat_capacity: 837_200.0, conductance: 3.0 };
const HOUR: f64 = 3600.0;

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "{actual} is not {expected} within {tolerance}");
}

#[test]
fn heating_example() {
    near(BODY.time_constant(), 279_066.67, 5e-3);
    near(BODY.end_temperature(6000.0, 15.0), 2015.0, 1e-9);
    for (hours, with_loss, without) in
        [(0.5, 27.858_629, 27.900_143), (1.0, 40.634_586, 40.800_287), (2.0, 65.940_607, 66.600_573)]
    {
        near(BODY.temperature_after(15.0, 6000.0, 15.0, hours * HOUR), with_loss, 5.1e-7);
        let tight = Body { conductance: 0.0, ..BODY };
        near(tight.temperature_after(15.0, 6000.0, 15.0, hours * HOUR), without, 5.1e-7);
    }
    near(BODY.temperature_after(15.0, 6000.0, 15.0, 3.0 * HOUR), 90.922_272, 5.1e-7);
    near(60.0 * BODY.rate(15.0, 6000.0, 15.0), 0.430_005, 5.1e-7);
    near(60.0 * BODY.rate(60.0, 6000.0, 15.0), 0.420_330, 5.1e-7);
}

#[test]
fn time_and_heat_to_a_target() {
    let time = BODY.time_to(15.0, 60.0, 6000.0, 15.0).unwrap();
    near(time, 6350.7165, 5.1e-5);
    near(Body { conductance: 0.0, ..BODY }.time_to(15.0, 60.0, 6000.0, 15.0).unwrap(), 6279.0, 1e-9);
    let lost = BODY.heat_lost(15.0, 6000.0, 15.0, time);
    near(lost / 1e6, 0.4303, 5.1e-5);
    // First law: what went in is stored or lost.
    near(6000.0 * time - lost, 837_200.0 * 45.0, 1e-3);
    near(837_200.0 * 45.0 / (6000.0 * time), 0.988_707, 5.1e-7);
}

#[test]
fn cooling_example() {
    for (hours, t, lost) in [
        (1.0, 59.423_222, 0.48288),
        (6.0, 56.648_345, 2.80601),
        (12.0, 53.546_325, 5.40302),
        (24.0, 48.018_204, 10.03116),
    ] {
        near(BODY.temperature_after(60.0, 0.0, 15.0, hours * HOUR), t, 5.1e-7);
        near(BODY.heat_lost(60.0, 0.0, 15.0, hours * HOUR) / 1e6, lost, 5.1e-6);
    }
    near(BODY.time_to(60.0, 37.5, 0.0, 15.0).unwrap() / HOUR, 53.7317, 5.1e-5);
    near(conductance_from_cooling(837_200.0, 60.0, 53.546_325, 15.0, 12.0 * HOUR).unwrap(), 3.0, 1e-6);
}

/// Ambient falling from 15 degC by 2 K/h for 6 h; and steps of any size give the same.
#[test]
fn ambient_ramp() {
    near(BODY.advance(60.0, 0.0, 15.0, 3.0, 6.0 * HOUR), 56.195_693, 5.1e-7);
    let stepped = (0..360).fold(60.0, |t, k| {
        let ambient = |k: i32| 15.0 - 2.0 * f64::from(k) / 60.0;
        BODY.advance(t, 0.0, ambient(k), ambient(k + 1), 60.0)
    });
    near(stepped, BODY.advance(60.0, 0.0, 15.0, 3.0, 6.0 * HOUR), 1e-9);
}

#[test]
fn a_target_out_of_reach_is_an_error() {
    let error = BODY.time_to(15.0, 90.0, 150.0, 15.0).unwrap_err();
    near(error.high, 65.0, 1e-9);
    assert!(BODY.time_to(15.0, 10.0, 6000.0, 15.0).is_err());
    assert!(BODY.time_to(15.0, 20.0, 0.0, 15.0).is_err());
    assert!(Body { conductance: 0.0, ..BODY }.time_to(15.0, 20.0, 0.0, 15.0).is_err());
    assert_eq!(BODY.time_to(15.0, 15.0, 0.0, 15.0), Ok(0.0));
    assert!(conductance_from_cooling(1.0, 15.0, 14.0, 15.0, 1.0).is_err());
}

/// OpenStax Calculus vol. 1, section 6.8: coffee 200 to 180 degF in 2 min in a 70 degF room; 175 degF at about 2.5 min
/// and 155 degF at about 5 min (2.557 and 5.087 by the formula). Any scale of temperature serves.
#[test]
fn openstax_coffee() {
    let k = conductance_from_cooling(1.0, 200.0, 180.0, 70.0, 2.0).unwrap();
    near(k, 0.083_527, 5.1e-7);
    let coffee = Body { heat_capacity: 1.0, conductance: k };
    near(coffee.time_to(200.0, 175.0, 0.0, 70.0).unwrap(), 2.557, 5.1e-4);
    near(coffee.time_to(200.0, 155.0, 0.0, 70.0).unwrap(), 5.087, 5.1e-4);
}

/// OpenStax College Physics, examples 14.1 and 14.3: the pan's heat capacity counts.
#[test]
fn openstax_pan() {
    let (water, pan) = (0.250 * 4186.0, 0.500 * 900.0);
    let body = Body { heat_capacity: water + pan, conductance: 0.0 };
    near(body.time_to(20.0, 80.0, 1000.0, 20.0).unwrap(), 89.8, 0.05);
    near(mixed_temperature((water, 20.0), (pan, 150.0)), 59.1, 0.05);
}

/// 0.5 K/min seen by a 30 s sensor is 0.25 K low.
#[test]
fn slow_sensor() {
    near(sensor_lag(0.5 / 60.0, 30.0), 0.25, 1e-12);
}
