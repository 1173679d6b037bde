//! Faults of a logger cost the readings, not the burn.

use super::{run, table};
use calefact_tests::{TinyDataset, Workspace};
use std::fmt::Write as _;

/// The burn `b2` by a logger, a row a minute; `change` is what goes wrong with the tank of a row.
fn logged(change: impl Fn(u32, f64) -> f64) -> String {
    let row = |i: u32| (i, change(i, 10.0 + 0.6 * f64::from(i)));
    (0..=48).map(row).fold("elapsed [min],tank [degC]\n".to_owned(), |mut log, (minute, tank)| {
        let _ = writeln!(log, "{minute},{tank:.1}");
        log
    })
}

/// Whether the flags of a reading say that it was left out as a fault of the logger.
fn left_out(flags: &str) -> bool {
    flags.parse::<u32>().expect("flags") & 8 != 0
}

/// The efficiency of `b2` and its flagged readings, with a log in place of its own; no error may be found.
fn outcome(log: &str) -> (f64, Vec<String>, String) {
    let w = Workspace::new();
    TinyDataset::new()
        .with("[[comparison]]", "[outputs]\nreadings = true\n\n[[comparison]]")
        .with_log("logs/b2.csv", log)
        .write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let is_efficiency = |row: &std::collections::BTreeMap<String, String>| {
        row["trial"] == "b2" && row["quantity"] == "thermal_efficiency"
    };
    let estimates = table(&w.join("out/tables/estimates.csv"));
    let efficiency = estimates.iter().find(|row| is_efficiency(row)).expect("an efficiency");
    let readings = table(&w.join("out/tables/readings.csv"));
    let flagged =
        readings.iter().filter(|row| row["trial"] == "b2" && left_out(&row["flag"])).map(|row| row["tank"].clone());
    (efficiency["value"].parse().expect("a number"), flagged.collect(), outcome.stderr)
}

#[test]
fn a_spike_is_left_out_with_a_warning_and_stays_in_the_table_of_readings() {
    let (sound, none, stderr) = outcome(&logged(|_, v| v));
    assert!(none.is_empty() && !stderr.contains("reading-spike"), "{stderr}");
    let (efficiency, flagged, stderr) = outcome(&logged(|i, v| if [20, 48].contains(&i) { 85.0 } else { v }));
    assert_eq!(flagged, ["85", "85"]);
    assert!(stderr.contains("warning reading-spike: data/logs/b2.csv, trial b2"), "{stderr}");
    assert!(stderr.contains("`tank` reads 85.0 degC at 20 min and 85.0 degC at 48 min"), "{stderr}");
    // The last of 48 minutes is lost with its heat.
    assert!((efficiency / sound - 47.0 / 48.0).abs() < 0.005, "{efficiency} instead of {sound}");
}

#[test]
fn rows_that_a_logger_wrote_twice_are_left_out() {
    let log = logged(|_, v| v);
    let (sound, ..) = outcome(&log);
    let mut lines: Vec<&str> = log.lines().collect();
    let copies = lines[26..31].to_vec();
    lines.splice(31..31, copies);
    let (efficiency, _, stderr) = outcome(&lines.join("\n"));
    assert!((efficiency / sound - 1.0).abs() < 1e-12, "{efficiency} instead of {sound}");
    assert!(stderr.contains("warning rows-overlap: data/logs/b2.csv line 32 column 1, trial b2"), "{stderr}");
}
