//! `check`: reading alone.

use super::calefact;
use calefact_tests::{TinyDataset, Workspace};

#[test]
fn sound_data_is_counted() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = calefact(w.path(), &["check", "pipeline.toml"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert_eq!(outcome.stderr, "4 trials in 4 logs read: 0 errors, 0 warnings, 0 notes\n");
    assert!(!w.join("reports").exists(), "check writes nothing");
}

#[test]
fn all_problems_are_shown_together_and_it_is_one() {
    let w = Workspace::new();
    let data = TinyDataset::new().with("altitude =", "altitud =").with("logs/b2.csv", "logs/none.csv");
    data.with("12,21", "12,warm").write(&w);
    let outcome = calefact(w.path(), &["check", "pipeline.toml"]);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    for place in ["data/dataset.toml line 5 column 1", "data/trials.csv line 3", "data/logs/r1.csv line 3 column 2"] {
        assert!(outcome.stderr.contains(place), "{place} is not in {}", outcome.stderr);
    }
}

#[test]
fn findings_as_csv_go_to_standard_output() {
    let w = Workspace::new();
    TinyDataset::new().with("12,21", "12,warm").write(&w);
    let outcome = calefact(w.path(), &["check", "pipeline.toml", "--csv", "--quiet"]);
    let mut reader = csv::Reader::from_reader(outcome.stdout.as_bytes());
    let header = reader.headers().expect("a header").iter().collect::<Vec<_>>().join(",");
    super::run(&w);
    let report = std::fs::read_to_string(w.join("out/tables/findings.csv")).expect("the report's table");
    assert_eq!(Some(header.as_str()), report.lines().next());
    let rows: Vec<csv::StringRecord> = reader.records().map(|r| r.expect("a row")).collect();
    assert!(rows.iter().any(|r| &r[3] == "data/logs/r1.csv" && &r[4] == "3"), "{}", outcome.stdout);
    assert_eq!(outcome.stderr, "");
}
