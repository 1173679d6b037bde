//! Registers, good and bad; problems by their rendered text.

mod amounts;

use super::{Register, read};
use crate::dataset_file;
use crate::{Finding, MoistureBasis, TrialKind, Water};

const DATASET: &str = r#"
title = "Bench"
[stoves.box]
name = "Box"
[stoves.rocket]
name = "Rocket"
[fuels.spruce]
name = "Spruce"
[vessels.barrel]
name = "Barrel"
"#;

fn read_with(toml: &str, text: &str) -> (Option<Register>, Vec<Finding>) {
    let (file, findings) = dataset_file::read_text("dataset.toml".as_ref(), &format!("{DATASET}{toml}"));
    assert_eq!(findings, []);
    let file = file.expect("a dataset file");
    read("trials.csv".as_ref(), text.as_bytes(), &file.register_style, &file.apparatus)
}

/// Number of rows kept, and the findings as text.
fn rendered(text: &str) -> String {
    let (register, findings) = read_with("", text);
    let kept = register.map_or_else(|| "no register".into(), |r| format!("{} kept", r.rows.len()));
    findings.iter().fold(kept, |all, f| format!("{all}\n{f}"))
}

/// The register with one burn whose further cells are given.
fn one(header: &str, cells: &str) -> String {
    rendered(&format!("trial,kind,log,vessel,water [L]{header}\nb1,burn,logs/b1.csv,barrel,160{cells}\n"))
}

#[test]
fn a_full_row_in_trade_units() {
    let text = "trial,kind,date,log,stove,fuel,vessel,water [gal_us],fuel_mass [lb],fuel_moisture [%],moisture_basis,\
        ambient [degF],heater_power [kW],damper\n\
        b1,burn,2026-03-28,logs/b1.csv,box,spruce,barrel,28,9.25,20,wet,50,,half\n\
        s1,standing loss,,logs/s1.csv,,,barrel,160 L,,,,,,\n";
    let (register, findings) = read_with("", text);
    assert_eq!(findings, []);
    let rows = register.expect("a register").rows;
    let (b, s) = (&rows[0], &rows[1]);
    assert_eq!((b.kind, s.kind), (TrialKind::Burn, TrialKind::StandingLoss));
    // NIST SP 811, appendix B: 1 gal (US) = 3.785 412 L, 1 lb = 0.453 592 37 kg.
    let Water::Volume(volume) = b.water else { panic!("a volume") };
    assert!((volume - 28.0 * 3.785_412e-3).abs() < 1e-7);
    assert!(b.fuel_mass.is_some_and(|m| (m - 9.25 * 0.453_592_37).abs() < 1e-12));
    assert!(b.ambient.is_some_and(|t| (t - 10.0).abs() < 1e-9));
    assert_eq!((b.fuel_moisture, b.moisture_basis), (Some(0.2), Some(MoistureBasis::Wet)));
    assert_eq!((b.level("damper"), s.level("damper"), b.level("stove")), (Some("half"), None, Some("box")));
    assert_eq!((b.line, s.line), (2, 3));
    assert!(matches!(s.water, Water::Volume(v) if (v - 0.16).abs() < 1e-12));
}

#[test]
fn semicolons_decimal_commas_and_foreign_headers() {
    let toml = "[register.columns]\ntrial = \"Versuch\"\nkind = \"Art\"\nwater = \"Wasser [kg]\"\nfuel_mass = \"Holz (kg)\"\n\
        log = \"Datei\"\nvessel = \"Fass\"\n";
    let text = "Versuch;Art;Datei;Fass;Wasser;Holz\nb1;burn;b1.csv;barrel;159,5;4,2\n";
    let (register, findings) = read_with(toml, text);
    assert_eq!(findings, []);
    let rows = register.expect("a register").rows;
    assert_eq!((rows[0].water, rows[0].fuel_mass), (Water::Mass(159.5), Some(4.2)));
}

#[test]
fn fuel_with_a_unit_is_its_mass() {
    let (register, findings) =
        read_with("", "trial,kind,log,vessel,water [L],fuel [lb]\nb1,burn,a.csv,barrel,160,10\n");
    assert_eq!(findings, []);
    let row = &register.expect("a register").rows[0];
    assert!(row.fuel.is_none() && row.fuel_mass.is_some_and(|m| (m - 4.535_923_7).abs() < 1e-12));
}

#[test]
fn a_column_whose_unit_is_wrong_spoils_only_rows_that_use_it() {
    let text =
        "trial,kind,log,vessel,water [L],fuel_mass [L]\nb1,burn,a.csv,barrel,160,10\nb2,burn,b.csv,barrel,160,\n";
    insta::assert_snapshot!(rendered(text), @r"
    1 kept
    error wrong-kind-of-unit: trials.csv line 1 column 6
      column `fuel_mass`: `L` is a unit of another kind (a volume), but a mass is wanted here
      done: its values are not used
    error unit-unreadable: trials.csv line 2 column 6, trial b1
      the unit of `fuel_mass` could not be read
      done: trial left out
      hint: correct the header
    ");
}

#[test]
fn doubled_column() {
    insta::assert_snapshot!(one(",water [kg]", ",160"), @r"
    1 kept
    error duplicate-column: trials.csv line 1 column 6
      a second column for `water`
      done: the first one is read
    ");
}

#[test]
fn missing_column() {
    insta::assert_snapshot!(rendered("trial,kind,logs,vessel\nb1,burn,b1.csv,barrel\n"), @r"
    no register
    warning unknown-column: trials.csv line 1 column 3
      the column `logs` is none the register knows
      done: kept as a further column
      hint: did you mean `log`?
    error missing-column: trials.csv line 1
      the register lacks the column `log`
      done: no trial read
      hint: is it `logs`?
    error missing-column: trials.csv line 1
      the register lacks the column `water`
      done: no trial read
      hint: columns found: trial, kind, logs, vessel
    ");
    insta::assert_snapshot!(rendered(""), @r"
    no register
    error register-empty: trials.csv
      the register holds no row
    ");
}

#[test]
fn header_alone() {
    insta::assert_snapshot!(rendered("trial,kind,log,vessel,water [L]\n\n"), @r"
    0 kept
    warning register-empty: trials.csv line 1
      the register holds no trial
      hint: write a row for each trial below the header
    ");
}

#[test]
fn near_miss_of_a_column_is_warned_about() {
    insta::assert_snapshot!(one(",fuel_mas,damper", ",3,half"), @r"
    1 kept
    warning unknown-column: trials.csv line 1 column 6
      the column `fuel_mas` is none the register knows
      done: kept as a further column
      hint: did you mean `fuel_mass`?
    ");
}

#[test]
fn unknown_kind_and_ids() {
    let text = "trial,kind,log,stove,fuel,vessel,water [L]\n\
        b1,burns,a.csv,box,spruce,barrel,160\n\
        b2,burn,a.csv,bxo,birch,barel,160\n";
    insta::assert_snapshot!(rendered(text), @r"
    0 kept
    error unknown-kind: trials.csv line 2 column 2, trial b1
      unknown kind of trial `burns`
      done: trial left out
      hint: did you mean `burn`?
    error unknown-id: trials.csv line 3 column 4, trial b2
      dataset.toml defines no stove `bxo`
      done: trial left out
      hint: did you mean `box`?
    error unknown-id: trials.csv line 3 column 5, trial b2
      dataset.toml defines no fuel `birch`
      done: trial left out
      hint: add [fuels.birch] to dataset.toml
    error unknown-id: trials.csv line 3 column 6, trial b2
      dataset.toml defines no vessel `barel`
      done: trial left out
      hint: did you mean `barrel`?
    ");
}

#[test]
fn duplicate_trial() {
    let text = "trial,kind,log,vessel,water [L]\nb1,burn,a.csv,barrel,160\nb1,burn,b.csv,barrel,160\n";
    insta::assert_snapshot!(rendered(text), @r"
    1 kept
    error duplicate-trial: trials.csv line 3 column 1, trial b1
      trial `b1` stands already on line 2
      done: trial left out
      hint: give each trial its own id
    ");
}

#[test]
fn cells_that_are_no_numbers() {
    insta::assert_snapshot!(one(",fuel_mass", ",three"), @r"
    0 kept
    error not-a-number: trials.csv line 2 column 6, trial b1
      `fuel_mass` is no number: `three`
      done: trial left out
      hint: correct the cell or leave it blank
    ");
    insta::assert_snapshot!(one(",fuel_mass", ",3 L"), @r"
    0 kept
    error wrong-kind-of-unit: trials.csv line 2 column 6, trial b1
      `fuel_mass`: `L` is a unit of another kind (a volume), but a mass is wanted here
      done: trial left out
    ");
    insta::assert_snapshot!(one(",fuel_mass", ",3 xyz"), @r"
    0 kept
    error unknown-unit: trials.csv line 2 column 6, trial b1
      `fuel_mass`: unknown unit `xyz` for a mass
      done: trial left out
      hint: units of a mass are `kg`, `g`, `mg`, `t`, `lb`, `oz`, `stone`, `short_ton`
    ");
    insta::assert_snapshot!(one(",fuel_mass [kgx]", ",3"), @r"
    0 kept
    error unknown-unit: trials.csv line 1 column 6
      column `fuel_mass`: unknown unit `kgx` for a mass
      done: its values are not used
      hint: did you mean `kg`?
    error unit-unreadable: trials.csv line 2 column 6, trial b1
      the unit of `fuel_mass` could not be read
      done: trial left out
      hint: correct the header
    ");
    insta::assert_snapshot!(one(",fuel_mass", ",-3"), @r"
    0 kept
    error negative: trials.csv line 2 column 6, trial b1
      `fuel_mass` is negative: -3
      done: trial left out
      hint: correct the sign
    ");
    insta::assert_snapshot!(rendered("trial,kind,log,vessel,water [L]\n,burn,a.csv,barrel,\n"), @r"
    0 kept
    error blank-cell: trials.csv line 2 column 1
      `trial` is blank
      done: trial left out
      hint: fill the cell
    error blank-cell: trials.csv line 2 column 5
      `water` is blank
      done: trial left out
      hint: fill the cell
    ");
}

#[test]
fn a_row_longer_than_its_header() {
    insta::assert_snapshot!(one(",kindling_mass [kg],leftover_fuel [kg],ambient [degC]", ",0,3,0,9"), @r"
    0 kept
    error too-many-cells: trials.csv line 2 column 9, trial b1
      the row has 9 cells, the header 8
      done: trial left out
      hint: a decimal comma? write a point, or delimit the file by semicolons; put a text with commas in quotes
    ");
    // Nothing stands in the cells beyond: a spreadsheet ends its rows so.
    assert_eq!(one(",fuel_mass [kg]", ",3,,,"), "1 kept");
    assert_eq!(one(",fuel_mass [kg],,", ",3,,"), "1 kept");
    insta::assert_snapshot!(one(",fuel_mass [kg],,", ",5,6"), @r"
    0 kept
    error too-many-cells: trials.csv line 2 column 7, trial b1
      the row has 7 cells, the header 6
      done: trial left out
      hint: a decimal comma? write a point, or delimit the file by semicolons; put a text with commas in quotes
    ");
}

#[test]
fn a_quote_that_is_not_closed() {
    let head = "trial,kind,log,vessel,water [L],note,damper\n";
    let open =
        format!("{head}b1,burn,\"b1.csv,barrel,160,,\nb2,burn,b2.csv,barrel,160,,\nb3,burn,\"b3.csv\",barrel,160,,\n");
    insta::assert_snapshot!(rendered(&open), @r"
    0 kept
    error quote-open: trials.csv line 2 column 3, trial b1
      File(QuoteOpen { never_closed: false })
    ");
    let open = format!("{head}b1,burn,b1.csv,barrel,160,\"lit\nlate\",\"half\nb2,burn,b2.csv,barrel,160,,\n");
    insta::assert_snapshot!(rendered(&open), @r"
    0 kept
    error quote-open: trials.csv line 3 column 7, trial b1
      File(QuoteOpen { never_closed: true })
    ");
    let open = format!("{head}b0,burn,b0.csv,barrel,160,,\n\"b1,burn,b1.csv,barrel,160,,\n");
    insta::assert_snapshot!(rendered(&open), @r"
    1 kept
    error quote-open: trials.csv line 3 column 1
      File(QuoteOpen { never_closed: false })
    ");
    // Words may go over several lines.
    let closed =
        format!("{head}b1,burn,b1.csv,barrel,160,\"lit\nlate\",half\nb2,burn,b2.csv,barrel,160,,\"half\nshut\"\n");
    assert_eq!(rendered(&closed), "2 kept");
    let spreadsheet = format!("{head}b1,burn,b1.csv,\"barrel\n\",160,,\nb2,burn,b2.csv,barrel,160,,\n");
    assert_eq!(rendered(&spreadsheet), "2 kept", "a closed cell that ends in a line break");
}

#[test]
fn moisture_without_unit_or_basis() {
    insta::assert_snapshot!(one(",fuel_moisture,moisture_basis", ",18,dry"), @r"
    0 kept
    error moisture-above-one: trials.csv line 2 column 6, trial b1
      `fuel_moisture` is a fraction where no unit is given, but is 18
      done: trial left out
      hint: write `fuel_moisture [%]` in the header
    ");
    insta::assert_snapshot!(one(",fuel_moisture [%]", ",18"), @r"
    1 kept
    warning moisture-basis-missing: trials.csv line 2 column 6, trial b1
      `fuel_moisture` is given without its basis
      done: fuel energy of this trial left empty
      hint: write `wet` (water over total mass) or `dry` (over dry mass; what pin meters show) in `moisture_basis`
    ");
    insta::assert_snapshot!(one(",fuel_moisture [%],moisture_basis", ",18,oven"), @r"
    0 kept
    error unknown-word: trials.csv line 2 column 7, trial b1
      unknown moisture basis `oven`
      done: trial left out
      hint: write `wet` or `dry`
    ");
}

#[test]
fn units_of_water() {
    let with = |unit: &str| rendered(&format!("trial,kind,log,vessel,water{unit}\nb1,burn,a.csv,barrel,42\n"));
    insta::assert_snapshot!(with(""), @r"
    0 kept
    error missing-unit: trials.csv line 2 column 5, trial b1
      `water` has no unit: 42
      done: trial left out
      hint: write `water [L]` or `water [kg]` in the header
    ");
    insta::assert_snapshot!(with(" [gal]"), @r"
    0 kept
    error ambiguous-unit: trials.csv line 1 column 5
      column `water`: `gal` is ambiguous: write gal_us (3.785 L) or gal_imp (4.546 L)
      done: its values are not used
    error unit-unreadable: trials.csv line 2 column 5, trial b1
      the unit of `water` could not be read
      done: trial left out
      hint: correct the header
    ");
    insta::assert_snapshot!(with(" [kW]"), @r"
    0 kept
    error wrong-kind-of-unit: trials.csv line 1 column 5
      column `water`: `kW` is a unit of another kind (a power), but a volume is wanted here
      done: its values are not used
    error unit-unreadable: trials.csv line 2 column 5, trial b1
      the unit of `water` could not be read
      done: trial left out
      hint: correct the header
    ");
}
