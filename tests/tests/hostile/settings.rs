//! Settings and arguments beyond what a run can do: refused, or bounded.

use crate::case::Case;
use calefact_tests::TinyDataset;

/// Pipelines and command lines.
pub(crate) fn cases() -> Vec<Case> {
    [drawn(), counts(), names()].into_iter().flatten().collect()
}

fn with_settings(settings: &str) -> TinyDataset {
    TinyDataset::new().with("[[comparison]]", &format!("[settings]\n{settings}\n[[comparison]]"))
}

/// Monte Carlo at its worst. Time and memory are bounded by the number of draws.
fn drawn() -> Vec<Case> {
    let drawn =
        |name, more: &str| Case::new(name, with_settings(&format!("propagation = \"monte carlo\"\n{more}")), 0, "");
    vec![
        drawn("monte-carlo", ""),
        drawn("monte-carlo-six-digits", "digits = 6"),
        drawn("monte-carlo-level-0.999", "level = 0.999"),
        drawn("monte-carlo-level-0.99999", "level = 0.99999"),
        drawn("monte-carlo-level-near-1", "level = 0.9999999999999999"),
    ]
}

fn counts() -> Vec<Case> {
    let run = |jobs| ["run", "pipeline.toml", "--out", "out", "--jobs", jobs];
    let case = |name, code, finding| Case::new(name, TinyDataset::new(), code, finding);
    vec![
        case("jobs-256", 0, "").args(&run("256")),
        case("jobs-257", 2, "from 1 to 256").args(&run("257")),
        case("jobs-by-environment", 0, "").environment("RAYON_NUM_THREADS", "100000"),
        case("rows-1e12", 2, "from 1 to 10000000").args(&["simulate", "--out", "s", "--rows", "1000000000000"]),
        case("trials-1e12", 2, "from 1 to 1000000").args(&["simulate", "--out", "s", "--trials", "1000000000000"]),
        Case::new("level-1", with_settings("level = 1"), 2, "bad-value"),
        Case::new("level-not-a-number", with_settings("level = nan"), 2, "bad-value"),
        Case::new("level-infinite", with_settings("level = inf"), 2, "bad-value"),
        Case::new("digits-0", with_settings("digits = 0"), 2, "bad-value"),
        Case::new("seed-minus", with_settings("seed = -1"), 2, "bad-value"),
    ]
}

/// Names of a pipeline, which name a folder.
fn names() -> Vec<Case> {
    let named = |name, text: &str| Case::new(name, TinyDataset::new().with("\"four-burns\"", text), 2, "error ");
    vec![
        named("name-above", "\"..\""),
        named("name-path", "\"a/b\""),
        named("name-absolute", "\"/etc\""),
        named("name-empty", "\"\""),
        named("name-escape", "\"a\\u001b[2J\""),
        named("name-not-text", "7"),
    ]
}
