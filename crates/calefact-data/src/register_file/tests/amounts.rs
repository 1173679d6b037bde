//! Values of a register that cannot be.

use super::{burn, codes, read_with, register};
use crate::Severity;
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
    assert_eq!(water("20 m3"), (1, vec![]));
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
    assert_eq!(burn(",altitude [m],ambient [degF]", ",-430,110"), (1, vec![]));
}

#[test]
fn amounts_are_not_negative() {
    let (kept, facts) = burn(",kindling_mass,leftover_char,heater_power [kW]", ",-1,-2,-3");
    let negative =
        |column: &str, cell: &str| RegisterFact::Negative { column: column.into(), cell: cell.into() }.into();
    let want = vec![negative("kindling_mass", "-1"), negative("leftover_char", "-2"), negative("heater_power", "-3")];
    assert_eq!((kept, facts), (0, want));
}

/// Code and severity of the findings of a burn with further cells, and whether it is kept.
fn limits(header: &str, cells: &str) -> (usize, Vec<(&'static str, Severity)>) {
    let text = format!("trial,kind,log,vessel,water [L]{header}\nb1,burn,a.csv,barrel,160{cells}\n");
    let (register, findings) = read_with("", &text);
    (register.map_or(0, |r| r.rows.len()), findings.iter().map(|f| (f.code(), f.severity)).collect())
}

#[test]
fn numbers_beyond_their_limits_are_refused_or_get_a_warning() {
    let (refused, warned) = (("out-of-range", Severity::Error), ("implausible", Severity::Warning));
    let cases = [
        (",fuel_mass [t]", ",5.6", refused),
        (",fuel_mass", ",1e308", refused),
        (",fuel_mass", ",350", warned),
        (",fuel_mass [g]", ",5.6", warned),
        (",kindling_mass", ",40", warned),
        (",leftover_char", ",80", warned),
        (",heater_power", ",1e300", refused),
        (",heater_power [kW]", ",2000", refused),
        (",heater_power [mW]", ",2000", warned),
        (",ambient", ",1400", refused),
        (",ambient", ",55", warned),
        (",altitude", ",6000", warned),
        (",fuel_moisture [%],moisture_basis", ",0.18,wet", warned),
        (",fuel_moisture [%],moisture_basis", ",1.2,dry", warned),
        (",fuel_moisture [%],moisture_basis", ",350,dry", warned),
    ];
    for (header, cells, finding) in cases {
        let kept = usize::from(finding == warned);
        assert_eq!(limits(header, cells), (kept, vec![finding]), "{header} {cells}");
    }
    for (header, cells) in
        [(",fuel_mass", ",0"), (",heater_power", ",0"), (",fuel_moisture,moisture_basis", ",0.18,wet")]
    {
        assert_eq!(limits(header, cells), (1, vec![]), "{header} {cells}");
    }
}

#[test]
fn a_heater_without_power_heats_nothing() {
    let (column, range) = ("heater_power".into(), Range::Positive);
    let fact = RegisterFact::OutOfRange { column, value: 0.0, kind: Kind::Power, range };
    let text = "trial,kind,log,vessel,water [L],heater_power\nh1,reference-heater,a.csv,barrel,160,0\n";
    assert_eq!(register(text), (0, vec![fact.into()]));
}

#[test]
fn water_and_its_vessel() {
    let water = |cell: &str| {
        let toml = "volume = \"200 L\"\n[vessels.pot]\nname = \"Pot\"\n";
        let (register, findings) =
            read_with(toml, &format!("trial,kind,log,vessel,water\nb1,burn,a.csv,barrel,{cell}\n"));
        (register.map_or(0, |r| r.rows.len()), findings.iter().map(|f| f.severity).collect::<Vec<_>>())
    };
    for fits in ["160 L", "215 L", "210 kg", "10 L"] {
        assert_eq!(water(fits), (1, vec![]), "{fits}");
    }
    assert_eq!(water("230 L"), (1, vec![Severity::Warning]));
    assert_eq!(water("0.5 L"), (1, vec![Severity::Warning]));
    assert_eq!(water("260 kg"), (0, vec![Severity::Error]));
}

/// A litre may be written as 1,000 cm3 or 1.000 L; the other reading of a mark shows in the size of the number.
#[test]
fn the_other_reading_of_a_mark_is_seen_where_only_it_is_plausible() {
    let row = |cells: &str| {
        read_with("", &format!("trial;kind;log;vessel;water [cm3];fuel_mass\nb1;burn;a.csv;barrel;{cells}\n"))
    };
    let (read, findings) = row("120,000;5,5");
    assert_eq!(
        (read.map(|r| r.rows.len()), findings[0].code(), findings[0].severity),
        (Some(0), "implausible", Severity::Error)
    );
    // No stove burns 5600 kg: the comma is the decimal sign.
    let (read, findings) = row("160000;5,600");
    assert_eq!(findings, []);
    assert_eq!(read.expect("a register").rows[0].fuel_mass, Some(5.6));
}
