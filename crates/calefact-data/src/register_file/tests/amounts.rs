//! Values of a register that cannot be.

use super::{burn, codes, register};
use crate::fact::{Fact, RegisterFact};
use crate::toml_source::Range;
use calefact_units::Kind;

#[test]
fn moisture_that_leaves_no_wood() {
    assert_eq!(
        burn(",fuel_moisture [%],moisture_basis", ",100,wet"),
        (0, vec![RegisterFact::NoWood { moisture: 1.0 }.into()])
    );
    let wet = burn(",fuel_moisture [%],moisture_basis", ",420,dry");
    assert!(matches!(wet.1[..], [Fact::Register(RegisterFact::TooWet { moisture })] if (moisture - 4.2).abs() < 1e-12));
    // Green wood of some kinds holds more water than dry matter; the unit may stand in the cell.
    assert_eq!(burn(",fuel_moisture [%],moisture_basis", ",120,dry"), (1, vec![]));
    assert_eq!(burn(",fuel_moisture,moisture_basis", ",120 %,dry"), (1, vec![]));
}

#[test]
fn water_beyond_any_vessel() {
    let water = |cell: &str| register(&format!("trial,kind,log,vessel,water\nb1,burn,a.csv,barrel,{cell}\n"));
    let beyond = |value, kind, most| {
        RegisterFact::OutOfRange { column: "water".into(), value, kind, range: Range::Within(0.0, most) }.into()
    };
    assert_eq!(water("160000 L"), (0, vec![beyond(160.0, Kind::Volume, 100.0)]));
    assert_eq!(water("1e9 kg"), (0, vec![beyond(1e9, Kind::Mass, 1e5)]));
    assert_eq!(water("-5 L"), (0, vec![RegisterFact::NoWater { cell: "-5 L".into() }.into()]));
    assert_eq!(water("--"), (0, vec![RegisterFact::Blank { column: "water".into() }.into()]));
    assert_eq!(water("100 m3"), (1, vec![]));
}

#[test]
fn more_wood_left_than_put_on() {
    let header = ",fuel_mass [kg],kindling_mass [kg],leftover_fuel [kg]";
    let (kept, facts) = burn(header, ",5.6,0.3,6");
    let [Fact::Register(RegisterFact::LeftoverAboveFuel { left_kg, given_kg })] = facts[..] else {
        panic!("{facts:?}")
    };
    assert!(kept == 0 && (left_kg - 6.0).abs() < 1e-12 && (given_kg - 5.9).abs() < 1e-12);
    assert_eq!(burn(header, ",5.6,0.3,5.9"), (1, vec![]));
    assert_eq!(burn(header, ",,,5.9"), (1, vec![]));
}

#[test]
fn places_and_air_where_nobody_burns_wood() {
    let found = codes("trial,kind,log,vessel,water [L],altitude [ft],ambient\nb1,burn,a.csv,barrel,160,40000,283\n");
    assert_eq!(found, [("out-of-range", Some(2), Some(7)), ("out-of-range", Some(2), Some(6))]);
    assert_eq!(burn(",altitude [m],ambient [degF]", ",-430,140"), (1, vec![]));
}

#[test]
fn amounts_are_not_negative() {
    let (kept, facts) = burn(",kindling_mass,leftover_char,heater_power [kW]", ",-1,-2,-3");
    let negative =
        |column: &str, cell: &str| RegisterFact::Negative { column: column.into(), cell: cell.into() }.into();
    let want = vec![negative("kindling_mass", "-1"), negative("leftover_char", "-2"), negative("heater_power", "-3")];
    assert_eq!((kept, facts), (0, want));
}
