//! Duty of an exchanger between its streams, against the library `ht`, the first law and its limits; how conductance follows the
//! build.

use crate::assert_near;
use calefact_physics::exchanger::{
    Arrangement, BuildRatio, ConductanceLaw, Duty, Streams, conductance, duty, laminar_flow,
};
use proptest::prelude::*;

/// Computed with ht 1.2.0, see `tests/data/SOURCES.md`.
const HT: &str = include_str!("../../../../tests/data/exchanger/duties.csv");

const ALL: [(&str, Arrangement); 5] = [
    ("counter", Arrangement::Counter),
    ("parallel", Arrangement::Parallel),
    ("cross-gas-mixed", Arrangement::CrossGasMixed),
    ("cross-water-mixed", Arrangement::CrossWaterMixed),
    ("cross-unmixed", Arrangement::CrossUnmixed),
];

#[test]
fn heat_and_outlets_agree_with_the_library() {
    let rows: Vec<Vec<&str>> = HT.lines().skip(1).map(|line| line.split(',').collect()).collect();
    assert_eq!(rows.len(), 50);
    for row in rows {
        let number = |i: usize| -> f64 { row[i].parse().unwrap() };
        let arrangement = ALL.iter().find(|(name, _)| *name == row[5]).unwrap().1;
        let streams = Streams { gas_rate: number(1), water_rate: number(2), gas_in: number(3), water_in: number(4) };
        let found = duty(number(0), &streams, arrangement).unwrap();
        let expected = [number(6), number(7), number(8), number(9)];
        for (x, y) in [found.effectiveness, found.power, found.gas_out, found.water_out].into_iter().zip(expected) {
            assert_near(x / y, 1.0, 1e-7);
        }
        let changes = (streams.gas_in - found.gas_out, found.water_out - streams.water_in);
        let back = conductance(found.power, changes, streams.gas_in - streams.water_in, arrangement).unwrap();
        assert_near(back / number(0), 1.0, 1e-6);
    }
}

const STREAMS: Streams = Streams { gas_rate: 13.0, water_rate: 200.0, gas_in: 400.0, water_in: 20.0 };

#[test]
fn no_tube_gives_no_heat_and_endless_tube_cools_the_gas_to_the_water() {
    for (_, arrangement) in ALL {
        let none = duty(0.0, &STREAMS, arrangement).unwrap();
        assert_eq!(none, Duty { effectiveness: 0.0, power: 0.0, gas_out: 400.0, water_out: 20.0 });
        assert!(duty(-1.0, &STREAMS, arrangement).is_err() && duty(f64::NAN, &STREAMS, arrangement).is_err());
    }
    let endless = duty(1e12, &STREAMS, Arrangement::Counter).unwrap();
    assert_near(endless.effectiveness, 1.0, 1e-12);
    assert_near(endless.gas_out, 20.0, 1e-9);
    let still = Streams { water_rate: f64::INFINITY, ..STREAMS };
    assert_near(duty(13.0, &still, Arrangement::Parallel).unwrap().effectiveness, 1.0 - libm::exp(-1.0), 1e-12);
    assert!(duty(1.0, &Streams { gas_rate: 0.0, ..STREAMS }, Arrangement::Counter).is_err());
}

proptest! {
    /// First and second law: the gas gives what the water takes, more conductance gives more heat, and neither stream leaves
    /// beyond the other's inlet.
    #[test]
    fn heat_is_conserved_and_rises_with_conductance(
        ua in 0.01..500.0_f64, gas in 1.0..60.0_f64, water in 1.0..600.0_f64, hot in 60.0..900.0_f64, which in 0..5_usize,
    ) {
        let streams = Streams { gas_rate: gas, water_rate: water, gas_in: hot, water_in: 20.0 };
        let found = duty(ua, &streams, ALL[which].1).unwrap();
        let (given, taken) = (gas * (hot - found.gas_out), water * (found.water_out - 20.0));
        prop_assert!((given / taken - 1.0).abs() < 1e-9);
        prop_assert!(found.gas_out >= 20.0 - 1e-9 && found.water_out <= hot + 1e-9);
        // Past its best surface a mixed stream gains nothing, but loses nothing either.
        prop_assert!(duty(1.3 * ua, &streams, ALL[which].1).unwrap().power >= found.power * (1.0 - 1e-12));
    }
}

/// By hand: gas side 0.95 of the resistance, of area 2^0.8 = 1.7411 and passes 3^0.5 = 1.7321; water side 0.05, of area 2 and
/// flow 4^0.8 = 3.0314: 1/(0.95/3.01577 + 0.05/6.0629) = 3.0935.
#[test]
fn conductance_follows_the_build() {
    let law = ConductanceLaw { area: 0.8, passes: 0.5, water_share: 0.05 };
    let ratio = |area, passes, water_flow| law.ratio(&BuildRatio { area, passes, water_flow });
    assert_near(ratio(2.0, 3.0, 4.0), 3.0935, 1e-3);
    assert_near(ratio(1.0, 1.0, 1.0), 1.0, 1e-15);
    assert_near(ratio(0.0, 1.0, 1.0), 0.0, 0.0);
    assert_near(ratio(1.0, 1.0, 0.0), 0.0, 0.0);
}

/// Water at 20 degC: viscosity 1.002 mPa s (ISO/TR 3666, from memory), here within 2.5 %. In a tube of 20 mm the flow is laminar
/// below pi x 0.02 x 0.001002 x 2300/4 = 0.0362 kg/s.
#[test]
fn slow_water_is_laminar() {
    assert_near(laminar_flow(0.02, 20.0) / 0.0362, 1.0, 0.025);
}
