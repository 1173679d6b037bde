//! Defaults of `[defaults]`, and the log that is named after its trial.

use super::{DATASET, read, read_with};
use crate::dataset_file;
use crate::fact::Fact;
use crate::{Finding, MoistureBasis, RegisterRow, TrialKind, Water};

const DEFAULTS: &str = "[defaults]\nkind = \"burn\"\nvessel = \"barrel\"\nwater = \"28 gal_us\"\nstove = \"box\"\nfuel = \"spruce\"\n\
    fuel_moisture = \"18 %\"\nmoisture_basis = \"dry\"\nkindling_mass = \"12 [oz_av]\"\nheater_power = \"2 kW\"\nambient = \"50 degF\"\n";

fn rows(toml: &str, text: &str) -> Vec<RegisterRow> {
    let (register, findings) = read_with(toml, text);
    assert_eq!(findings, []);
    register.expect("a register").rows
}

#[test]
fn a_register_of_two_columns() {
    let row = rows(DEFAULTS, "trial,fuel_mass\nb1,5\n").remove(0);
    assert_eq!((row.kind, row.vessel.as_str(), row.log.to_str()), (TrialKind::Burn, "barrel", Some("b1.csv")));
    assert_eq!((row.stove.as_deref(), row.fuel.as_deref(), row.heater_power), (Some("box"), Some("spruce"), None));
    assert_eq!((row.fuel_moisture, row.moisture_basis), (Some(0.18), Some(MoistureBasis::Dry)));
    // NIST SP 811, appendix B: 1 oz (avoirdupois) = 28.349 52 g, 1 gal (US) = 3.785 412 L.
    assert!(row.kindling_mass.is_some_and(|kg| (kg - 12.0 * 0.028_349_52).abs() < 1e-7));
    assert!(matches!(row.water, Water::Volume(m3) if (m3 - 28.0 * 3.785_412e-3).abs() < 1e-8));
    assert!(row.ambient.is_some_and(|t| (t - 10.0).abs() < 1e-9));
}

#[test]
fn cells_go_before_defaults_and_a_dash_is_none() {
    let text = "trial,kind,log,stove,kindling_mass,ambient,water\nb1,,x/1.csv,rocket,0,-,30 kg\nb2,,,-,--,,\n";
    let rows = rows(DEFAULTS, text);
    assert_eq!((rows[0].log.to_str(), rows[0].stove.as_deref()), (Some("x/1.csv"), Some("rocket")));
    assert_eq!((rows[0].kindling_mass, rows[0].ambient, rows[0].water), (Some(0.0), None, Water::Mass(30.0)));
    assert_eq!((rows[1].stove.as_deref(), rows[1].kindling_mass), (None, None));
    assert!(rows[1].ambient.is_some());
}

#[test]
fn defaults_of_the_fire_do_not_hold_for_a_vessel_that_cools() {
    let rows = rows(DEFAULTS, "trial,kind\ns1,standing-loss\nh1,reference-heater\n");
    let (cooling, heated) = (&rows[0], &rows[1]);
    assert_eq!((cooling.fuel.as_deref(), cooling.fuel_moisture, cooling.kindling_mass), (None, None, None));
    assert_eq!((cooling.moisture_basis, cooling.heater_power, heated.heater_power), (None, None, Some(2000.0)));
    assert_eq!(cooling.stove.as_deref(), Some("box"));
}

/// Numbers of defaults have a decimal point, whatever sign the register has.
#[test]
fn decimal_commas_of_the_register_are_not_those_of_defaults() {
    let toml = DEFAULTS.replace("28 gal_us", "120.500 L");
    let row = rows(&toml, "trial;fuel_mass\nb1;5,25\n").remove(0);
    assert_eq!((row.water, row.fuel_mass), (Water::Volume(0.1205), Some(5.25)));
}

#[test]
fn a_required_column_without_default_is_missing() {
    let (register, findings) = read_with("[defaults]\nkind = \"burn\"\n", "trial,fuel_mass\nb1,5\n");
    let codes: Vec<&str> = findings.iter().map(Finding::code).collect();
    assert_eq!((register.is_none(), codes), (true, vec!["missing-column", "missing-column"]), "vessel and water");
}

/// The finding stands in `dataset.toml`; rows that fill the cell are read.
#[test]
fn rows_that_stand_on_a_default_that_cannot_be_used_are_left_out() {
    let cases = [
        ("vessel = \"barel\"", "unknown-id", 12),
        ("kind = \"brun\"\nvessel = \"barrel\"", "unknown-word", 12),
        ("water = \"120\"\nvessel = \"barrel\"", "bad-value", 12),
        ("water = \"0 L\"\nvessel = \"barrel\"", "bad-value", 12),
        ("kindling_mass = \"-1 kg\"\nvessel = \"barrel\"", "bad-value", 12),
        ("trial = \"b\"", "unknown-key", 12),
    ];
    for (lines, code, line) in cases {
        let text = format!("{DATASET}[defaults]\n{lines}\n");
        let (file, findings) = dataset_file::read_text("dataset.toml".as_ref(), &text);
        let found: Vec<_> = findings.iter().map(|f| (f.code(), f.line)).collect();
        assert_eq!(found, [(code, Some(line))], "{lines}");
        if code == "unknown-key" {
            continue;
        }
        let column = lines.split(' ').next().expect("a column");
        let style = file.expect("a file").register_style;
        let known = dataset_file::read_text("dataset.toml".as_ref(), DATASET).0.expect("a file").apparatus;
        let register = "trial,kind,vessel,water,kindling_mass\nb1,burn,barrel,100 L,1\n";
        let blank = |column: &str| {
            let cell = match column {
                "vessel" => "burn,,100 L,1",
                "kind" => ",barrel,100 L,1",
                "water" => "burn,barrel,,1",
                _ => "burn,barrel,100 L,",
            };
            format!("{register}b2,{cell}\n")
        };
        let (register, findings) = read("trials.csv".as_ref(), blank(column).as_bytes(), &style, &known);
        let kept: Vec<String> = register.expect("a register").rows.into_iter().map(|r| r.trial).collect();
        let facts: Vec<Fact> = findings.into_iter().map(|f| f.fact).collect();
        assert_eq!(kept, ["b1"], "{lines}");
        assert_eq!(facts, [], "told at dataset.toml: {lines}");
    }
}
