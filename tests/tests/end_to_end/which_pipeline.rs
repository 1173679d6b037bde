//! Which pipeline a command means: a named file, the only one of a folder, or the usual comparisons of a dataset.

use super::{Outcome, calefact};
use calefact_tests::{TinyDataset, Workspace};

fn run(w: &Workspace, args: &[&str]) -> Outcome {
    calefact(w.path(), &[&["run"], args].concat())
}

#[test]
fn the_only_pipeline_of_a_folder_needs_no_name() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = run(&w, &[]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(outcome.stderr.starts_with("pipeline: pipeline.toml\n"), "{}", outcome.stderr);
    assert!(w.join("reports/four-burns/report.html").exists());
    w.write("other.toml", "name = \"other\"\ndatasets = [\"data\"]\n");
    let outcome = run(&w, &[]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.contains("2 pipeline files: other.toml, pipeline.toml"), "{}", outcome.stderr);
}

/// The folder, its description and the folder from within are one dataset, and give the same results.
#[test]
fn a_dataset_runs_without_a_pipeline_file() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = run(&w, &["data"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("data/dataset.toml: no pipeline file, so the usual comparisons are made"));
    assert!(outcome.stderr.contains("stove: thermal efficiency Rocket stove "), "{}", outcome.stderr);
    let first = w.files("reports/data");
    assert!(String::from_utf8_lossy(&first["report.html"]).contains("Four burns"), "the title of the dataset");
    assert_eq!(run(&w, &["data/dataset.toml"]).code, 0);
    assert_eq!(w.files("reports/data"), first);
    assert_eq!(calefact(&w.join("data"), &["run", "--out", "../inside"]).code, 0);
    assert_eq!(w.files("inside"), first);
    let checked = calefact(w.path(), &["check", "data"]);
    assert_eq!(checked.code, 0, "{}", checked.stderr);
    for command in ["plan", "book"] {
        let outcome = calefact(w.path(), &[command, "data"]);
        assert_eq!(outcome.code, 0, "{command}: {}", outcome.stderr);
        assert!(w.join(&format!("reports/data-{command}")).is_dir(), "{command}");
    }
}

#[test]
fn raw_tables_lead_to_the_command_that_makes_a_dataset_of_them() {
    let w = Workspace::new();
    w.write("raw logs/b1.csv", "elapsed [min],tank [degC]\n0,10\n");
    for (typed, hint) in [
        ("raw logs", "calefact new \"raw logs\" --from \"raw logs\""),
        ("raw logs/b1.csv", "calefact new \"raw logs/b1\" --from \"raw logs/b1.csv\""),
        (".", "calefact new . --from ."),
    ] {
        let outcome = run(&w, &[typed]);
        assert_eq!(outcome.code, 2, "{typed}");
        assert!(outcome.stderr.contains(hint), "{typed}: {}", outcome.stderr);
    }
    let empty = Workspace::new();
    assert!(run(&empty, &[]).stderr.contains("calefact new mine"));
}

#[test]
fn two_pipelines_of_one_name_do_not_share_a_folder() {
    let w = Workspace::new();
    let pipeline = TinyDataset::new();
    pipeline.write(&w);
    w.write("a.toml", &pipeline.pipeline);
    assert_eq!(run(&w, &["a.toml"]).code, 0);
    let first = w.files("reports/four-burns");
    let outcome = run(&w, &["pipeline.toml"]);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("`reports/four-burns` holds the results of `a.toml`"), "{}", outcome.stderr);
    assert_eq!(w.files("reports/four-burns"), first);
    assert_eq!(run(&w, &["pipeline.toml", "--out", "reports/four-burns"]).code, 0, "a folder that is named is meant");
    assert_eq!(run(&w, &["pipeline.toml", "--units", "us"]).code, 0, "its own results are replaced");
}

/// A pipeline that is written later takes the place of the usual comparisons, and not the other way round.
#[test]
fn a_pipeline_file_goes_before_the_usual_comparisons() {
    let w = Workspace::new();
    let mut tiny = TinyDataset::new();
    tiny.pipeline = tiny.pipeline.replace("four-burns", "data");
    tiny.write(&w);
    assert_eq!(run(&w, &["data"]).code, 0);
    assert_eq!(run(&w, &["pipeline.toml"]).code, 0);
    assert_eq!(run(&w, &["data"]).code, 2);
}
