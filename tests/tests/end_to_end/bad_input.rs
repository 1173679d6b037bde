//! Each kind of bad input: one clear finding, the rest of the batch done, exit code 1.

use super::{run, table};
use calefact_tests::{TinyDataset, Workspace};

/// Runs a dataset with one fault; gives the findings of the standard error output, after checking that the run completed with code 1
/// and that every other trial has results.
fn findings(data: &TinyDataset, spoilt: &[&str]) -> String {
    let w = Workspace::new();
    data.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    let estimates = table(&w.join("out/tables/estimates.csv"));
    for trial in ["b1", "b2", "r1", "r2"].iter().filter(|t| !spoilt.contains(t)) {
        let done = estimates.iter().any(|row| row["trial"] == *trial && row["quantity"] == "thermal_efficiency");
        assert!(done, "{trial} has no efficiency: {}", outcome.stderr);
    }
    let listed = table(&w.join("out/tables/findings.csv"));
    assert!(listed.iter().any(|row| row["severity"] == "error"), "the report lacks the finding");
    errors_of(&outcome.stderr)
}

/// The errors among the findings, each up to its blank line.
fn errors_of(stderr: &str) -> String {
    stderr.split("\n\n").filter(|part| part.trim_start().starts_with("error ")).collect::<Vec<_>>().join("\n\n")
}

#[test]
fn missing_log() {
    let data = TinyDataset::new().with("logs/b2.csv,box", "logs/b9.csv,box");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn missing_register() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    std::fs::remove_file(w.join("data/trials.csv")).expect("a file to remove");
    let outcome = run(&w);
    assert_eq!(outcome.code, 1);
    insta::assert_snapshot!(errors_of(&outcome.stderr));
}

#[test]
fn missing_dataset() {
    let w = Workspace::new();
    TinyDataset::new().with("[\"data\"]", "[\"dta\"]").write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 1);
    insta::assert_snapshot!(errors_of(&outcome.stderr));
}

#[test]
fn unreadable_log() {
    let data = TinyDataset::new().with_log("logs/b2.csv", "\u{0}\u{1}\u{2}\u{3}\u{0}PNG\u{0}");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn log_without_a_tank_column() {
    let data = TinyDataset::new().with_log("logs/b2.csv", "elapsed [min],flue_before [degC]\n0,20\n10,300\n20,320\n");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn unknown_unit() {
    let data = TinyDataset::new().with_log("logs/b2.csv", "elapsed [min],tank [degX]\n0,10\n12,17\n24,25\n36,32\n");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn bare_gallon() {
    let w = Workspace::new();
    TinyDataset::new().with("water [L]", "water [gal]").write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 1);
    insta::assert_snapshot!(errors_of(&outcome.stderr));
}

#[test]
fn unknown_key() {
    let data = TinyDataset::new().with("altitude =", "altitud =");
    insta::assert_snapshot!(findings(&data, &[]));
}

#[test]
fn duplicate_trial() {
    let data = TinyDataset::new().with("\nb2,burn", "\nb1,burn");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn time_running_backwards() {
    let data =
        TinyDataset::new().with_log("logs/b2.csv", "elapsed [min],tank [degC]\n0,10\n24,25\n12,17\n36,32\n48,40\n");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn fewer_than_two_readings() {
    let data = TinyDataset::new().with_log("logs/b2.csv", "elapsed [min],tank [degC]\n0,10\n");
    insta::assert_snapshot!(findings(&data, &["b2"]));
}

#[test]
fn cell_that_is_no_number() {
    let w = Workspace::new();
    TinyDataset::new().with("12,21", "12,warm").write(&w);
    let outcome = run(&w);
    // The cell is taken as blank and the reading flagged: the trial still has four.
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let found = outcome.stderr.split("\n\n").find(|part| part.contains("warm")).expect("a finding on the cell");
    insta::assert_snapshot!(found.to_string());
}

#[test]
fn tank_above_boiling() {
    let data = TinyDataset::new().with("48,50.5", "48,104");
    insta::assert_snapshot!(findings(&data, &["r2"]));
}

#[test]
fn more_heat_than_fuel_energy() {
    let data = TinyDataset::new().with("drum,120,4.3", "drum,120,0.73");
    insta::assert_snapshot!(findings(&data, &["r2"]));
}

/// A log that no row names is a warning: nothing was lost, but something may have been forgotten.
#[test]
fn log_without_a_row() {
    let w = Workspace::new();
    TinyDataset::new().with_log("logs/b3.csv", "elapsed [min],tank [degC]\n0,10\n12,17\n24,25\n").write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let found = outcome.stderr.split("\n\n").find(|part| part.contains("b3.csv")).expect("a finding on the log");
    insta::assert_snapshot!(found.to_string());
}
