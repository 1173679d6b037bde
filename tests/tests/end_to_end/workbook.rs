//! A notebook kept in one workbook, register and logs, gives the results of the same notebook in text files; and the results as a
//! workbook hold what the CSV tables hold.

use super::{Outcome, calefact, run, table};
use calefact_tests::{TinyDataset, Workspace};
use rust_xlsxwriter::{Workbook, Worksheet};
use std::path::Path;

/// Writes the cells of a CSV text into a sheet from a row on; what reads as a number is one.
fn fill(sheet: &mut Worksheet, from: u32, text: &str) {
    for (row, line) in (from..).zip(text.lines()) {
        for (column, cell) in (0..).zip(line.split(',')) {
            match cell.parse::<f64>() {
                Ok(number) => sheet.write_number(row, column, number),
                Err(_) => sheet.write_string(row, column, cell),
            }
            .expect("a cell");
        }
    }
}

/// Writes the notebook as one workbook: the register below a title, a sheet a burn.
fn write_workbook(data: &TinyDataset, w: &Workspace) {
    let mut workbook = Workbook::new();
    let register = workbook.add_worksheet().set_name("Burns").expect("a name");
    register.merge_range(0, 0, 0, 5, "Tests in the shed", &rust_xlsxwriter::Format::new()).expect("a title");
    fill(register, 2, &data.register.replace("logs/", "").replace(".csv", ""));
    for (name, text) in &data.logs {
        let name = name.trim_start_matches("logs/").trim_end_matches(".csv");
        fill(workbook.add_worksheet().set_name(name).expect("a name"), 0, text);
    }
    let apparatus = format!("{}\n[files]\nregister = \"tests.xlsx#Burns\"\n", data.apparatus);
    w.write("data/dataset.toml", apparatus);
    w.write("pipeline.toml", &data.pipeline);
    workbook.save(w.join("data/tests.xlsx")).expect("a workbook");
}

fn tables(w: &Workspace, outcome: &Outcome) -> Vec<(String, Vec<u8>)> {
    assert_eq!(outcome.code, 0, "{}{}", outcome.stdout, outcome.stderr);
    let files = w.files("out");
    files.into_iter().filter(|(name, _)| name.starts_with("tables/")).collect()
}

#[test]
fn a_notebook_in_a_workbook_gives_the_results_of_text_files() {
    let data = TinyDataset::new();
    let (text, book) = (Workspace::new(), Workspace::new());
    data.write(&text);
    write_workbook(&data, &book);
    let (of_text, of_book) = (tables(&text, &run(&text)), tables(&book, &run(&book)));
    assert!(of_text.len() > 9, "all tables");
    for ((name, text), (_, book)) in of_text.iter().zip(&of_book) {
        // A log is named by its file and by its sheet.
        let mut text = String::from_utf8_lossy(text).into_owned();
        for trial in ["b1", "b2", "r1", "r2"] {
            text = text.replace(&format!("logs/{trial}.csv"), &format!("tests.xlsx#{trial}"));
        }
        assert_eq!(text, String::from_utf8_lossy(book), "{name}");
    }
    assert!(book.join("out/report.html").is_file());
    let manifest = std::fs::read_to_string(book.join("out/manifest.json")).expect("a manifest");
    assert_eq!(manifest.matches("tests.xlsx").count(), 1, "one input: {manifest}");
}

#[test]
fn a_finding_names_sheet_and_cell() {
    let w = Workspace::new();
    write_workbook(&TinyDataset::new().with("24,26.5", "24,warm"), &w);
    let outcome = calefact(w.path(), &["check", "pipeline.toml"]);
    assert!(outcome.stderr.contains("data/tests.xlsx, b1!B4, trial b1"), "{}", outcome.stderr);
}

/// A cell of a sheet and a cell of a CSV file that say the same; spreadsheets keep 15 digits of a number.
fn agree(sheet: &str, csv: &str) -> bool {
    let both = sheet.parse::<f64>().ok().zip(csv.parse::<f64>().ok());
    both.map_or(sheet == csv, |(a, b)| (a - b).abs() <= 1e-14 * b.abs())
}

#[test]
fn results_are_a_workbook_where_it_is_asked_for() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str("\n[outputs]\nformats = [\"csv\", \"xlsx\"]\n");
    data.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let path = w.join("out/tables/results.xlsx");
    let sheets = calefact_data::sheets(&path).expect("a workbook");
    let names: Vec<&str> = sheets.iter().map(|s| s.name.as_str()).collect();
    assert!(names.starts_with(&["trials", "estimates"]) && names.ends_with(&["columns"]), "{names:?}");
    let estimates = sheets.iter().find(|s| s.name == "estimates").expect("the sheet");
    let rows = estimates.first_rows(usize::MAX);
    let csv = table(&w.join("out/tables/estimates.csv"));
    assert_eq!(rows.len(), csv.len() + 1);
    let head = &rows[0].1;
    for ((_, cells), wanted) in rows[1..].iter().zip(&csv) {
        for (name, cell) in head.iter().zip(cells) {
            assert!(agree(cell, &wanted[name]), "{name}: {cell} and {}", wanted[name]);
        }
    }
    assert_eq!(bytes_of_second_run(&w), std::fs::read(&path).expect("a workbook"), "the same bytes");
}

fn bytes_of_second_run(w: &Workspace) -> Vec<u8> {
    let outcome = calefact(w.path(), &["run", "pipeline.toml", "--out", "again"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    std::fs::read(Path::new(&w.join("again")).join("tables/results.xlsx")).expect("a workbook")
}

/// Without CSV only what no workbook takes is a CSV file.
#[test]
fn a_workbook_alone_leaves_out_the_csv_files() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str("\n[outputs]\nformats = [\"xlsx\"]\nreadings = true\n");
    data.write(&w);
    assert_eq!(run(&w).code, 0);
    let files = w.files("out");
    let tables: Vec<&str> = files.keys().map(String::as_str).filter(|f| f.starts_with("tables/")).collect();
    assert_eq!(tables, ["tables/columns.csv", "tables/readings.csv", "tables/results.xlsx"]);
}
