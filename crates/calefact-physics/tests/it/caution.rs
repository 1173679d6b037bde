//! Figures of the cautions as their sources print them.

use crate::assert_near;
use calefact_physics::caution::{
    CREOSOTE_FLUE_GAS, SCALD_FAST, SCALD_SLOW, SOLDERED_JOINT_SERVICE, TUB_LIMIT, TUB_THERMOSTAT_ERROR,
};
use calefact_units::{Kind, parse_quantity};

/// The sources print degF. A reading of just the limit has reached it, so that the two are equal in every digit.
#[test]
fn limits_equal_a_reading_of_the_printed_figure() {
    for (text, limit) in [
        ("250 degF", CREOSOTE_FLUE_GAS),
        ("250 degF", SOLDERED_JOINT_SERVICE),
        ("104 degF", TUB_LIMIT),
        ("120 degF", SCALD_SLOW),
        ("140 degF", SCALD_FAST),
    ] {
        assert_eq!(parse_quantity(text, Kind::Temperature), Ok(limit), "{text}");
    }
    assert_near(TUB_THERMOSTAT_ERROR, parse_quantity("4 degF", Kind::TemperatureDifference).unwrap(), 1e-12);
}
