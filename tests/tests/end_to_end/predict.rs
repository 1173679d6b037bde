//! `predict`: jobs of the pipeline and of the options, what cannot be answered, and that `run` says the same.

use super::{calefact, run, table};
use calefact_tests::{TinyDataset, Workspace};

const JOB: [&str; 8] = ["--water", "100 L", "--from", "12 degC", "--to", "30 degC", "--ambient", "10 degC"];

fn predict(w: &Workspace, options: &[&str]) -> super::Outcome {
    calefact(w.path(), &[&["predict", "pipeline.toml", "--quiet"], options].concat())
}

#[test]
fn a_job_of_the_options_is_answered_for_every_stove() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = predict(&w, &JOB);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let first = "job: 100 L from 12 degC to 30 degC, air at 10 degC";
    assert_eq!(outcome.stdout.lines().next(), Some(first), "{}", outcome.stdout);
    assert!(outcome.stdout.contains("kg of wood"), "{}", outcome.stdout);
    let us = predict(&w, &[&JOB[..], &["--units", "us"]].concat());
    assert!(us.stdout.starts_with("job: 26.4 US gal from 53.6 degF"), "{}", us.stdout);
}

/// A line each, and the other jobs answered.
#[test]
fn jobs_that_cannot_be_are_told_and_the_rest_is_answered() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let pipeline = std::fs::read_to_string(w.join("pipeline.toml")).expect("a pipeline");
    let job = |name: &str, water: &str, from: &str, to: &str| {
        format!(
            "[[job]]\nname = \"{name}\"\nwater = \"{water}\"\nfrom = \"{from}\"\nto = \"{to}\"\nambient = \"10 degC\"\n"
        )
    };
    let jobs = [
        job("boils", "100 L", "10 degC", "120 degC"),
        job("colder", "100 L", "40 degC", "30 degC"),
        job("empty", "0 L", "10 degC", "30 degC"),
        job("wash", "100 L", "12 degC", "30 degC"),
    ];
    w.write("pipeline.toml", format!("{pipeline}\n{}", jobs.concat()));
    let outcome = predict(&w, &[]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    for words in
        ["water boils at", "the target of 30 degC is not above the start of 40 degC", "there is no water to heat"]
    {
        assert!(outcome.stdout.contains(words), "{words} is not in {}", outcome.stdout);
    }
    let ran = run(&w);
    assert_eq!(ran.code, 0, "{}", ran.stderr);
    assert_eq!(ran.stderr.matches("warning job-refused").count(), 3, "{}", ran.stderr);
    let rows = table(&w.join("out/tables/forecasts.csv"));
    assert_eq!(rows.iter().filter(|r| !r["refused"].is_empty()).count(), 3);
    assert!(rows.iter().any(|r| r["job"] == "wash" && r["quantity"] == "wood" && !r["value"].is_empty()));
}

#[test]
fn what_is_lacking_is_named() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let cases: [(&[&str], &str); 4] = [
        (&[], "the pipeline names no job"),
        (&["--water", "100 L"], "a job needs --from"),
        (&["--water", "100"], "`100` has no unit"),
        (&["--water", "42 gal"], "more than one meaning"),
    ];
    for (options, words) in cases {
        let outcome = predict(&w, options);
        assert!(outcome.code == 2 && outcome.stderr.contains(words), "{words}: {}", outcome.stderr);
    }
    let unknown = predict(&w, &[&JOB[..], &["--stove", "none"]].concat());
    assert!(unknown.code == 2 && unknown.stdout.contains("no burn has the stove `none`"), "{}", unknown.stdout);
}
