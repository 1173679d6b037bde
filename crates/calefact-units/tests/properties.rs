//! Properties of reading that hold for any text and any unit, tried at random with a fixed seed.

use calefact_units::{Kind, Unit, parse_quantity, symbols};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

const KINDS: [Kind; 6] = [Kind::Temperature, Kind::Mass, Kind::Volume, Kind::Energy, Kind::VolumeFlow, Kind::Fraction];

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, rng_seed: RngSeed::Fixed(7), ..Default::default() })]

    #[test]
    fn any_text_is_answered(text in "\\PC{0,12}") {
        for kind in KINDS {
            if let Ok(value) = parse_quantity(&text, kind) {
                prop_assert!(!value.is_nan());
            }
            let _ = Unit::parse(&text, kind);
        }
    }

    #[test]
    fn a_written_quantity_is_read_back(value in -1e6..1e6_f64, pick in 0..100_usize) {
        for kind in KINDS {
            let all: Vec<_> = symbols(kind).collect();
            let symbol = all[pick % all.len()];
            let unit = Unit::parse(symbol, kind).unwrap();
            let si = parse_quantity(&format!("{value} {symbol}"), kind).unwrap();
            prop_assert!((unit.from_si(si) - value).abs() <= 1e-12 * (value.abs() + 600.0));
        }
    }
}
