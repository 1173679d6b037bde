//! The written tables: their columns, and their formats.

use super::demo::DEMO;
use super::{calefact, run, table};
use calefact_tests::{TinyDataset, Workspace, root};

/// The header of a table of the demo.
fn header(name: &str) -> String {
    let text = std::fs::read_to_string(DEMO.folder.join(format!("tables/{name}.csv"))).expect("a table");
    text.lines().next().unwrap_or_default().to_owned()
}

/// The first columns are part of the interface; further ones may follow.
#[test]
fn columns_are_those_the_reference_lists() {
    let text = std::fs::read_to_string(root().join("reports/README.md")).expect("the reference of tables");
    let mut checked = Vec::new();
    // The tables of a run come first; later ones list codes and the columns of studies.
    let rows = text.lines().take_while(|l| !l.starts_with("## ")).filter(|l| l.starts_with("| `"));
    for row in rows {
        let cells: Vec<&str> = row.split('|').map(str::trim).collect();
        let name = cells[1].trim_matches('`');
        let listed = cells[3].replace(" (CSV only)", "").replace(", ", ",");
        match name {
            "groups" => {
                let (listed, found) = (listed.trim_start_matches("the factor columns"), header(name));
                assert!(found.contains(listed), "{name}: {found}");
            }
            "estimates" | "contrasts" | "trends" | "balance_groups" | "missing" | "columns" => {
                let found = header(name);
                assert!(found.starts_with(&listed), "{name}: {found}");
            }
            // These rows describe their columns in words, or are codes of findings.
            _ => continue,
        }
        checked.push(name);
    }
    assert_eq!(checked, ["estimates", "groups", "contrasts", "trends", "balance_groups", "missing", "columns"]);
}

/// Every column of every table is explained.
#[test]
fn every_column_is_explained() {
    let explained = DEMO.table("columns");
    for entry in std::fs::read_dir(DEMO.folder.join("tables")).expect("the tables") {
        let name = entry.expect("an entry").path().file_stem().unwrap_or_default().to_string_lossy().into_owned();
        for column in header(&name).split(',').filter(|_| name != "columns") {
            let row = explained.iter().find(|row| row["table"] == name && row["column"] == column);
            assert!(row.is_some_and(|row| !row["meaning"].is_empty()), "{name}.{column} is not explained");
        }
    }
}

/// The tank of the first burn reads 11, 18.5, 26.5, 34 and 41 degC.
#[test]
fn readings_outside_the_window_are_flagged() {
    let w = Workspace::new();
    let window =
        "[outputs]\nreadings = true\n[settings]\nwindow = { from = \"20 degC\", to = \"35 degC\" }\n\n[[comparison]]";
    TinyDataset::new().with("[[comparison]]", window).write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let readings = table(&w.join("out/tables/readings.csv"));
    let flags: Vec<&str> = readings.iter().filter(|r| r["trial"] == "b1").map(|r| r["flag"].as_str()).collect();
    assert_eq!(flags, ["4", "4", "0", "0", "4"]);
}

#[test]
fn formats_can_be_chosen() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str("\n[outputs]\nformats = [\"csv\"]\n");
    data.write(&w);
    assert_eq!(run(&w).code, 0);
    let files = w.files("out");
    assert!(files.contains_key("tables/estimates.csv"));
    assert!(!files.keys().any(|f| f.contains("parquet") || f.contains("readings")), "{:?}", files.keys());
}

#[cfg(not(feature = "parquet"))]
#[test]
fn a_build_without_parquet_says_how_to_get_it() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str("\n[outputs]\nformats = [\"parquet\"]\n");
    data.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("--features parquet`"), "{}", outcome.stderr);
    assert!(!w.join("out").exists());
}

/// Every table as Parquet beside its CSV form. That both hold the same values is checked where they are written.
#[cfg(feature = "parquet")]
#[test]
fn parquet_files_stand_beside_the_csv_files() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str("\n[outputs]\nformats = [\"csv\", \"parquet\"]\nreadings = true\n");
    data.write(&w);
    assert_eq!(run(&w).code, 0);
    let files = w.files("out/tables");
    for name in files.keys().filter_map(|f| f.strip_suffix(".csv")).filter(|name| *name != "columns") {
        let bytes = &files[&format!("{name}.parquet")];
        // A Parquet file begins and ends with these four bytes (Apache Parquet format, "File format").
        assert!(bytes.starts_with(b"PAR1") && bytes.ends_with(b"PAR1"), "{name}");
    }
}

/// The demo's pipeline file names every key: it is read without a finding.
#[test]
fn the_demo_pipeline_has_no_unknown_key() {
    let outcome = calefact(&root(), &["check", "pipelines/hill-nursery.toml", "--csv"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(outcome.stdout.starts_with("code,severity,"), "{}", outcome.stdout);
    assert!(!outcome.stdout.contains("hill-nursery.toml"), "{}", outcome.stdout);
}
