//! Quantities and units as people write them.

use super::findings::assert_readable;
use super::input::choice;
use calefact_report::words::{bounded, printable, quantity_error};
use calefact_units::{Kind, Unit, parse_quantity};

const KINDS: [Kind; 8] = [
    Kind::Temperature,
    Kind::TemperatureDifference,
    Kind::Mass,
    Kind::Volume,
    Kind::Time,
    Kind::VolumeFlow,
    Kind::Fraction,
    Kind::SpecificEnergy,
];

pub(super) fn check(bytes: &[u8]) {
    let (kind, bytes) = choice(bytes, KINDS.len());
    let (kind, text) = (KINDS[kind], String::from_utf8_lossy(bytes));
    match parse_quantity(&text, kind) {
        Ok(value) => {
            assert!(!value.is_nan(), "{text:?}");
            assert_eq!(parse_quantity(&format!(" {text} "), kind), Ok(value), "spaces around {text:?}");
        }
        Err(error) => assert_readable(&bounded(printable(quantity_error(&error, &text)))),
    }
    if let Ok(unit) = Unit::parse(&text, kind) {
        assert_eq!((unit.kind, Unit::parse(unit.symbol, kind)), (kind, Ok(unit)), "{text:?}");
        assert!((unit.from_si(unit.to_si(1.5)) - 1.5).abs() < 1e-9, "{text:?}");
        assert_readable(unit.symbol);
    }
}
