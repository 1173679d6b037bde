//! A dataset kept in a workbook: register and logs are sheets, and findings name their cells.

use super::{DATASET, folder, rendered};
use crate::{Channel, Dataset, Finding, place_name};
use rust_xlsxwriter::{Format, Workbook};
use std::path::Path;

/// Writes a workbook whose sheets hold rows of text; what reads as a number is one.
fn write(path: &Path, sheets: &[(&str, &str)]) {
    let mut workbook = Workbook::new();
    for (name, rows) in sheets {
        let sheet = workbook.add_worksheet().set_name(*name).expect("a name");
        for (row, cells) in (0..).zip(rows.lines()) {
            for (column, cell) in (0..).zip(cells.split('|')) {
                match cell.parse::<f64>() {
                    Ok(number) => sheet.write_number(row, column, number),
                    Err(_) => sheet.write_string(row, column, cell),
                }
                .expect("a cell");
            }
        }
    }
    workbook.save(path).expect("a workbook");
}

fn dataset(register: &str) -> String {
    format!("{DATASET}\n[files]\nregister = \"{register}\"\n")
}

const REGISTER: &str = "Tests in spring\n\ntrial|kind|log|vessel|water [L]\na|burn|#Burn 1|pot|1\nb|burn|tests.xlsx|pot|0.9\nc|burn||pot|1\nd|burn|Burn 4|pot|1\n";
const LOG: &str = "elapsed [min]|tank [degF]\n0|50\n1|68\n2|86\n";

#[test]
fn register_and_logs_are_sheets() {
    let dir = folder(&[("dataset.toml", &dataset("tests.xlsx#burns"))]);
    write(
        &dir.path().join("tests.xlsx"),
        &[("Burns", REGISTER), ("Burn 1", LOG), ("B", LOG), ("C", LOG), ("Burn 4", LOG), ("Notes", "dry days")],
    );
    let (set, findings) = Dataset::open(dir.path());
    assert_eq!(rendered(dir.path(), &findings), "");
    let set = set.expect("a dataset");
    for batch in set.batches() {
        let read = set.read(&batch).remove(0);
        assert_eq!(rendered(dir.path(), &read.findings), "");
        let tank = read.readings.expect("readings").channel(Channel::Tank).expect("tank").to_vec();
        assert!(tank.iter().zip([10.0, 20.0, 30.0]).all(|(t, want)| (t - want).abs() < 1e-9), "{tank:?}");
    }
    let copied = Dataset::equal_logs(std::slice::from_ref(&set));
    assert_eq!(copied.iter().map(Finding::code).collect::<Vec<_>>(), ["log-repeated"; 3], "sheets that are alike");
    let stray = set.unregistered_logs(&set.named_logs());
    insta::assert_snapshot!(rendered(dir.path(), &stray), @r#"
    note sheets-unregistered: d/tests.xlsx
      Log(SheetsUnregistered(["Notes"]))
    "#);
    let files: Vec<_> = set.input_files().iter().map(|f| f.path.file_name().expect("a name").to_owned()).collect();
    assert_eq!(files, ["dataset.toml", "tests.xlsx"], "the workbook is hashed once");
}

#[test]
fn findings_name_the_cell() {
    let dir = folder(&[("dataset.toml", &dataset("tests.xlsx"))]);
    let register = "trial|kind|log|vessel|water [L]\na|burn|#Burn 1|pot|much\nb|burn|#Burn 1|pot|1|side note\nc|burn|#Burn 2|pot|1\n";
    let log = "elapsed [min]|tank [degC]\n0|10\n1|warm\n2|20|dry\n";
    write(&dir.path().join("tests.xlsx"), &[("Trials", register), ("Burn 1", log)]);
    let (set, mut findings) = Dataset::open(dir.path());
    let set = set.expect("a dataset");
    findings.extend(set.batches().iter().flat_map(|batch| set.read(batch)).flat_map(|read| read.findings));
    insta::assert_snapshot!(rendered(dir.path(), &findings), @r#"
    error not-a-number: d/tests.xlsx#Trials line 2 column 5, trial a
      Register(NotANumber { column: "water", cell: "much" })
    note cell-beside-table: d/tests.xlsx#Trials line 3 column 6, trial b
      Register(CellBesideTable)
    warning not-a-number: d/tests.xlsx#Burn 1 line 3 column 2, trial b
      Log(NotANumber { channel: Tank, cell: "warm" })
    note cell-beside-table: d/tests.xlsx#Burn 1 line 4 column 3, trial b
      Log(CellBesideTable)
    error log-unreadable: d/tests.xlsx#Trials line 4, trial c
      Log(Unreadable { log: "d/tests.xlsx#Burn 2", failure: Workbook(SheetMissing { sheet: "Burn 2", nearest: Some("Burn 1"), sheets: ["Trials", "Burn 1"] }) })
    "#);
    let file = findings[0].file.as_ref().expect("a file").file_name().expect("a name").to_string_lossy();
    assert_eq!(place_name(&file, findings[0].line, findings[0].column), "tests.xlsx, Trials!E2");
}

#[test]
fn numbers_typed_as_german_text_beside_true_numbers() {
    let dir = folder(&[("dataset.toml", &dataset("t.xlsx#Trials"))]);
    let register = "trial|kind|log|vessel|water [L]\na|burn|#a|pot|0,95\n";
    let log = "elapsed [min]|tank [degC]\n0|10.125\n1|20,5\n2|30.5\n";
    write(&dir.path().join("t.xlsx"), &[("Trials", register), ("a", log)]);
    let (set, findings) = Dataset::open(dir.path());
    assert_eq!(rendered(dir.path(), &findings), "");
    let set = set.expect("a dataset");
    let read = set.read(&set.batches()[0]).remove(0);
    assert_eq!(rendered(dir.path(), &read.findings), "");
    assert_eq!(read.readings.expect("readings").channel(Channel::Tank), Some(&[10.125, 20.5, 30.5][..]));
}

/// Pattern and times of both kinds: typed as text in the stated form, and as times of the sheet.
#[test]
fn times_of_a_sheet_need_no_pattern() {
    let dir = folder(&[
        ("dataset.toml", &format!("{}[logs]\nclock_format = \"%H.%M\"\n", dataset("t.xlsx#Trials"))),
        ("x", ""),
    ]);
    let path = dir.path().join("t.xlsx");
    let mut workbook = Workbook::new();
    let trials = workbook.add_worksheet().set_name("Trials").expect("a name");
    for (column, (head, cell)) in
        (0..).zip([("trial", "a"), ("kind", "burn"), ("log", "#a"), ("vessel", "pot"), ("water [L]", "1")])
    {
        trials.write_string(0, column, head).expect("a cell");
        trials.write_string(1, column, cell).expect("a cell");
    }
    let log = workbook.add_worksheet().set_name("a").expect("a name");
    let time = Format::new().set_num_format("hh:mm");
    log.write_string(0, 0, "clock").and_then(|l| l.write_string(0, 1, "tank [degC]")).expect("a header");
    log.write_string(1, 0, "23.50").and_then(|l| l.write_number(1, 1, 10)).expect("a row");
    log.write_number_with_format(2, 0, 0.0, &time).and_then(|l| l.write_number(2, 1, 11)).expect("a row");
    log.write_number_with_format(3, 0, 10.0 / 1440.0, &time).and_then(|l| l.write_number(3, 1, 12)).expect("a row");
    workbook.save(&path).expect("a workbook");
    let (set, _) = Dataset::open(dir.path());
    let set = set.expect("a dataset");
    let read = set.read(&set.batches()[0]).remove(0);
    assert_eq!(read.readings.expect("readings").elapsed_s, [0.0, 600.0, 1200.0]);
}

#[test]
fn a_workbook_outside_the_folder_is_not_read() {
    let dir = folder(&[("set/dataset.toml", &dataset("../tests.xlsx#Burns"))]);
    write(&dir.path().join("tests.xlsx"), &[("Burns", REGISTER)]);
    let (set, findings) = Dataset::open(&dir.path().join("set"));
    assert!(set.is_none());
    insta::assert_snapshot!(rendered(dir.path(), &findings), @r"
    error file-unreadable: d/set/../tests.xlsx#Burns
      File(Unreadable(Outside))
    ");
}
