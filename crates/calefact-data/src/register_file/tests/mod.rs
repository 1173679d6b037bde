//! Registers, good and bad; problems by their facts.

mod amounts;
mod defaults;
mod doubtful;
mod written;

use super::{Register, read};
use crate::dataset_file;
use crate::fact::{Fact, RegisterFact};
use crate::{ApparatusKind, Finding, MoistureBasis, TrialKind, Water};

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

/// Number of rows kept, and the facts found.
fn register(text: &str) -> (usize, Vec<Fact>) {
    let (register, findings) = read_with("", text);
    (register.map_or(0, |r| r.rows.len()), findings.into_iter().map(|f| f.fact).collect())
}

/// The same of a register with one burn whose further cells are given.
fn burn(header: &str, cells: &str) -> (usize, Vec<Fact>) {
    register(&format!("trial,kind,log,vessel,water [L]{header}\nb1,burn,logs/b1.csv,barrel,160{cells}\n"))
}

/// Code, line and column of each finding.
fn codes(text: &str) -> Vec<(&'static str, Option<u64>, Option<u64>)> {
    read_with("", text).1.iter().map(|f| (f.code(), f.line, f.column)).collect()
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
    assert_eq!(codes(text), [("wrong-kind-of-unit", Some(1), Some(6))]);
    assert_eq!(register(text).0, 1);
}

#[test]
fn columns_twice_missing_or_almost_known() {
    let headers = ["water [L]".into(), "water [kg]".into()];
    let twice = RegisterFact::DuplicateColumn { column: "water".into(), headers, is_mapped: false };
    assert_eq!(burn(",water [kg]", ",160"), (1, vec![twice.into()]));
    let near = RegisterFact::UnknownColumn { header: "fuel_mas".into(), near: "fuel_mass" };
    assert_eq!(burn(",fuel_mas,damper", ",3,half"), (1, vec![near.into()]));
    let headers = ["trial", "kind", "logs", "vessel"].map(String::from).to_vec();
    let missing = |column, near| RegisterFact::MissingColumn { column, near, headers: headers.clone() }.into();
    let logs = RegisterFact::UnknownColumn { header: "logs".into(), near: "log" };
    let want = vec![logs.into(), missing("water", None)];
    assert_eq!(register("trial,kind,logs,vessel\nb1,burn,b1.csv,barrel\n").1, want);
    let headers = ["trial", "knd", "water"].map(String::from).to_vec();
    let missing = |column, near| RegisterFact::MissingColumn { column, near, headers: headers.clone() }.into();
    let found = register("trial,knd,water\nb1,burn,9 L\n").1;
    assert_eq!(found[found.len() - 2..], [missing("kind", Some("knd".into())), missing("vessel", None)]);
}

#[test]
fn registers_without_trials() {
    assert_eq!(register("").1, [RegisterFact::NoRow.into()]);
    assert_eq!(register("trial,kind,log,vessel,water [L]\n\n").1, [RegisterFact::NoTrial.into()]);
}

#[test]
fn unknown_kinds_and_ids() {
    let text = "trial,kind,log,stove,fuel,vessel,water [L]\n\
        b1,burns,a.csv,box,spruce,barrel,160\n\
        b2,burn,a.csv,bxo,birch,barel,160\n";
    let unknown = |kind, id: &str, known: &[&str]| {
        RegisterFact::UnknownId { kind, id: id.into(), known: known.iter().map(ToString::to_string).collect() }.into()
    };
    let want = vec![
        RegisterFact::TrialKind { cell: "burns".into() }.into(),
        unknown(ApparatusKind::Stove, "bxo", &["box", "rocket"]),
        unknown(ApparatusKind::Fuel, "birch", &["spruce"]),
        unknown(ApparatusKind::Vessel, "barel", &["barrel"]),
    ];
    assert_eq!(register(text), (0, want));
}

#[test]
fn duplicate_trial() {
    let text = "trial,kind,log,vessel,water [L]\nb1,burn,a.csv,barrel,160\nb1,burn,b.csv,barrel,160\n";
    assert_eq!(register(text), (1, vec![RegisterFact::DuplicateTrial { trial: "b1".into(), line: 2 }.into()]));
}

#[test]
fn cells_that_hold_no_number() {
    let code = |header: &str, cell: &str| {
        let text = format!("trial,kind,log,vessel,water [L],{header}\nb1,burn,a.csv,barrel,160,{cell}\n");
        codes(&text).iter().map(|found| found.0).collect::<Vec<_>>()
    };
    assert_eq!(code("fuel_mass", "three"), ["not-a-number"]);
    assert_eq!(code("fuel_mass", "3 L"), ["wrong-kind-of-unit"]);
    assert_eq!(code("fuel_mass", "3 xyz"), ["unknown-unit"]);
    assert_eq!(code("fuel_mass [kgx]", "3"), ["unknown-unit"]);
    assert_eq!(code("fuel_mass", "-3"), ["negative"]);
    let blank = |column: &str| RegisterFact::Blank { column: column.into() }.into();
    let (kept, facts) = register("trial,kind,log,vessel,water [L]\n,burn,a.csv,barrel,\n");
    assert_eq!((kept, facts), (0, vec![blank("trial"), blank("water")]));
}

#[test]
fn a_row_longer_than_its_header() {
    let long = |cells, header| RegisterFact::TooManyCells { cells, header }.into();
    assert_eq!(burn(",kindling_mass [kg],leftover_fuel [kg],ambient [degC]", ",0,3,0,9"), (0, vec![long(9, 8)]));
    // Nothing stands in the cells beyond: a spreadsheet ends its rows so.
    assert_eq!(burn(",fuel_mass [kg]", ",3,,,"), (1, vec![]));
    assert_eq!(burn(",fuel_mass [kg],,", ",3,,"), (1, vec![]));
    assert_eq!(burn(",fuel_mass [kg],,", ",5,6"), (0, vec![long(7, 6)]));
    // A header that is blank above values drops them.
    let lost = RegisterFact::ColumnWithoutHeader { rows: 1 };
    assert_eq!(burn(",,note", ",5.6,lit"), (1, vec![lost.into()]));
    // One blank cell more is what the header's lost name leaves.
    assert_eq!(burn(",fuel_mass [kg]", ",3,"), (1, vec![RegisterFact::BlankBeyondHeader { header: 6 }.into()]));
}

#[test]
fn a_quote_that_is_not_closed() {
    let head = "trial,kind,log,vessel,water [L],note,damper\n";
    let open = |rows: &str| (register(&format!("{head}{rows}")).0, codes(&format!("{head}{rows}")));
    assert_eq!(
        open("b1,burn,\"b1.csv,barrel,160,,\nb2,burn,b2.csv,barrel,160,,\nb3,burn,\"b3.csv\",barrel,160,,\n"),
        (0, vec![("quote-open", Some(2), Some(3))])
    );
    assert_eq!(
        open("b1,burn,b1.csv,barrel,160,\"lit\nlate\",\"half\nb2,burn,b2.csv,barrel,160,,\n"),
        (0, vec![("quote-open", Some(3), Some(7))])
    );
    assert_eq!(
        open("b0,burn,b0.csv,barrel,160,,\n\"b1,burn,b1.csv,barrel,160,,\n"),
        (1, vec![("quote-open", Some(3), Some(1))])
    );
    // Words may go over several lines.
    assert_eq!(
        open("b1,burn,b1.csv,barrel,160,\"lit\nlate\",half\nb2,burn,b2.csv,barrel,160,,\"half\nshut\"\n"),
        (2, vec![])
    );
    let spreadsheet = "b1,burn,b1.csv,\"barrel\n\",160,,\nb2,burn,b2.csv,barrel,160,,\n";
    assert_eq!(open(spreadsheet), (2, vec![]), "a closed cell that ends in a line break");
}

#[test]
fn moisture_without_unit_or_basis() {
    let moisture = |header: &str, cells: &str| burn(&format!(",fuel_moisture{header}"), cells);
    assert_eq!(
        moisture(",moisture_basis", ",18,dry"),
        (0, vec![RegisterFact::MoistureAboveOne { value: 18.0 }.into()])
    );
    assert_eq!(moisture(" [%]", ",18"), (1, vec![RegisterFact::NoMoistureBasis.into()]));
    assert_eq!(
        moisture(" [%],moisture_basis", ",18,oven"),
        (0, vec![RegisterFact::MoistureBasis { cell: "oven".into() }.into()])
    );
}

#[test]
fn units_of_water() {
    let with = |unit: &str| codes(&format!("trial,kind,log,vessel,water{unit}\nb1,burn,a.csv,barrel,42\n"));
    assert_eq!(with(""), [("missing-unit", Some(2), Some(5))]);
    for unit in [" [gal]", " [oz]", " [ML]"] {
        assert_eq!(with(unit), [("ambiguous-unit", Some(1), Some(5))]);
    }
    let rows = "b1,burn,a.csv,barrel,42\nb2,burn,b.csv,barrel,42\nb3,burn,c.csv,barrel,42 L\nb4,burn,d.csv,barrel,42\n";
    let (kept, findings) = read_with("", &format!("trial,kind,log,vessel,water\n{rows}"));
    assert_eq!(kept.map(|r| r.rows.len()), Some(1));
    let told: Vec<_> = findings.iter().map(|f| (f.code(), f.line, f.repeats.map(|r| (r.count, r.last_line)))).collect();
    assert_eq!(told, [("missing-unit", Some(2), Some((2, 5)))], "one cause, one finding");
    let cell = |cell: &str| codes(&format!("trial,kind,log,vessel,water\nb1,burn,a.csv,barrel,{cell}\n"));
    assert_eq!(cell("4000 oz"), [("ambiguous-unit", Some(2), Some(5))]);
    assert_eq!([cell("4000 [oz_av]"), cell("4000 mL")], [[], []]);
    assert_eq!(with(" [kW]"), [("wrong-kind-of-unit", Some(1), Some(5))]);
}
