//! `check`: the same story as `run`, and nothing written.

use super::calefact;
use calefact_tests::{TinyDataset, Workspace};
use std::collections::BTreeMap;

#[test]
fn sound_data_is_counted() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = calefact(w.path(), &["check", "pipeline.toml"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let counted = outcome.stderr.lines().last().expect("a last line");
    assert!(counted.starts_with("4 trials in 4 logs checked: 0 errors, 0 warnings, "), "{}", outcome.stderr);
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

/// Rows of findings as `check` writes them; those of another code than `quantity-missing`, and the messages of these.
fn checked(w: &Workspace) -> (i32, Vec<BTreeMap<String, String>>, Vec<String>) {
    let outcome = calefact(w.path(), &["check", "pipeline.toml", "--csv", "--quiet"]);
    let mut reader = csv::Reader::from_reader(outcome.stdout.as_bytes());
    let rows: Vec<BTreeMap<String, String>> = reader.deserialize().map(|row| row.expect("a row")).collect();
    let (missing, findings) = rows.into_iter().partition(|row| row["code"] == "quantity-missing");
    let missing: Vec<BTreeMap<String, String>> = missing;
    (outcome.code, findings, missing.into_iter().map(|row| row["message"].clone()).collect())
}

/// A sound dataset, one without what an efficiency needs, and one with absurd and faulty numbers.
#[test]
fn check_finds_what_a_run_finds() {
    let sound = TinyDataset::new();
    let lacking = sound.clone().with("fuel_mass [kg]", "wood [kg]").with("loss_coefficient = \"4 W/K\"\n", "");
    let absurd =
        sound.clone().with("fuel_mass [kg]", "fuel_mass [t]").with("48,50.5", "48,104").with("12,21", "12,warm");
    for data in [sound, lacking, absurd] {
        let w = Workspace::new();
        data.write(&w);
        let (code, findings, missing) = checked(&w);
        let run = super::run(&w);
        assert_eq!((code, findings), (run.code, super::table(&w.join("out/tables/findings.csv"))), "{}", run.stderr);
        let page = std::fs::read_to_string(w.join("out/report.html")).expect("the page");
        let listed = calefact(w.path(), &["check", "pipeline.toml"]).stderr;
        for line in &missing {
            assert!(listed.contains(line) && run.stderr.contains(line), "{line} is not in {listed}");
            let quantities = line.split(':').next().expect("quantities");
            assert!(page.contains(quantities), "{quantities} is not on the page");
        }
        let lacks = super::table(&w.join("out/tables/missing.csv"));
        assert_eq!(missing.is_empty(), lacks.is_empty(), "{missing:?}");
    }
}

/// A forgotten log beside the register, whose folder has an empty name to a command that runs there.
#[test]
fn findings_do_not_depend_on_the_folder_of_the_command() {
    let w = Workspace::new();
    let data = TinyDataset::new().with_log("z.csv", "elapsed [min],tank [degC]\n0,1\n");
    let beside = data.with("logs/b1.csv", "b1.csv");
    beside.write(&w);
    std::fs::rename(w.join("data/logs/b1.csv"), w.join("data/b1.csv")).expect("the log to be moved");
    w.write("data/here.toml", beside.pipeline.replace("\"data\"", "\".\""));
    let outside = calefact(w.path(), &["check", "data/here.toml"]).stderr;
    let inside = calefact(&w.join("data"), &["check", "here.toml"]).stderr;
    assert!(outside.contains("log-unregistered: data/z.csv"), "{outside}");
    assert_eq!(outside.replace("data/", ""), inside);
}
