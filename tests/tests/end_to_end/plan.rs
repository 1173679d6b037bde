//! `plan` and `sheet`: from a small notebook, from guesses before the first burn, and from requests that cannot be met.

use super::{Outcome, calefact, table};
use calefact_tests::{TinyDataset, Workspace};

fn plan(w: &Workspace, options: &[&str]) -> Outcome {
    calefact(w.path(), &[&["plan", "pipeline.toml", "--out", "plan"], options].concat())
}

/// Four burns in which the fuel goes with the stove.
fn confounded() -> TinyDataset {
    let fuel = "[fuels.beech]\nname = \"Beech\"\nclass = \"broadleaf\"\n\n[fuels.spruce]";
    let tiny = TinyDataset::new().with("[fuels.spruce]", fuel);
    tiny.with("r1.csv,rocket,spruce", "r1.csv,rocket,beech").with("r2.csv,rocket,spruce", "r2.csv,rocket,beech")
}

/// Two stoves described, and no burn yet.
fn nothing_burnt() -> Workspace {
    let w = Workspace::new();
    let mut tiny = TinyDataset::new();
    tiny.register.truncate(tiny.register.find('\n').expect("a header") + 1);
    tiny.logs.clear();
    tiny.write(&w);
    w
}

#[test]
fn a_plan_has_a_sheet_for_each_burn_and_comes_out_the_same_again() {
    let w = nothing_burnt();
    let options = ["--difference", "10 %", "--scatter", "5 %", "--first-day", "2031-04-01"];
    let outcome = plan(&w, &options);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let (first, rows) = (w.files("plan"), table(&w.join("plan/plan.csv")));
    assert!(rows.len() > 2 && rows[0]["date"] == "2031-04-01", "{rows:?}");
    let page = std::fs::read_to_string(w.join("plan/plan.html")).expect("the page");
    assert_eq!(page.matches("class=\"sheet\"").count(), rows.len(), "one sheet a burn");
    for part in ["fuel_", "leftover_", "flue_", "a steam bomb", "Scale and bucket", rows[0]["trial"].as_str()] {
        assert!(page.contains(part), "{part}");
    }
    assert!(!page.contains("<script") && !page.contains("http"), "self-contained");
    assert_eq!(plan(&w, &options).code, 0);
    assert_eq!(w.files("plan"), first, "the same inputs give the same bytes");
}

/// Box has been burnt with spruce alone and rocket with beech alone: the order makes the two other combinations.
#[test]
fn what_changes_together_is_crossed() {
    let w = Workspace::new();
    confounded().write(&w);
    let outcome = plan(&w, &[]);
    assert!(outcome.stderr.contains("stove and fuel change together"), "{}", outcome.stderr);
    let rows = table(&w.join("plan/plan.csv"));
    let count = |stove: &str, fuel: &str| rows.iter().filter(|r| r["stove"] == stove && r["fuel"] == fuel).count();
    assert_eq!([count("box", "beech"), count("rocket", "spruce")], [2, 2], "{rows:?}");
}

#[test]
fn guesses_are_enough_before_the_first_burn() {
    let w = nothing_burnt();
    let outcome = plan(&w, &[]);
    assert!(
        outcome.stderr.contains("cannot be told yet") && outcome.stderr.contains("difference = \"10 %\""),
        "{}",
        outcome.stderr
    );
    let outcome = plan(&w, &["--difference", "10 %", "--scatter", "5 %"]);
    assert!(outcome.stderr.contains("Stove: make "), "{}", outcome.stderr);
    let rows = table(&w.join("plan/plan.csv"));
    let of = |stove: &str| rows.iter().filter(|r| r["stove"] == stove).count();
    assert!(of("box") > 2 && of("box") == of("rocket"), "{rows:?}");
}

#[test]
fn each_wrong_request_gets_a_line() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    for (options, line) in [
        (["--difference", "0 %"], "must be above zero"),
        (["--difference", "-4 points"], "must be above zero"),
        (["--difference", "4"], "write a number with its unit"),
        (["--width", "3 furlongs"], "in a unit that no planned quantity has"),
        (["--power", "0 %"], "above 0 % and below 100 %"),
        (["--power", "1"], "above 0 % and below 100 %"),
        (["--power", "100 %"], "above 0 % and below 100 %"),
        (["--factor", "stoves"], "did you mean `stove`?"),
        (["--burns-per-day", "0"], "1..=24"),
        (["--every", "0 min"], "a time from 1 s to 24 h is wanted"),
    ] {
        let outcome = plan(&w, &options);
        assert_eq!(outcome.code, 2, "{options:?}: {}", outcome.stderr);
        assert!(outcome.stderr.contains(line), "{options:?}: {}", outcome.stderr);
        assert!(!w.join("plan").exists());
    }
}

#[test]
fn what_no_number_of_burns_can_do_is_said_and_what_would() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = plan(&w, &["--width", "0.01 points"]);
    assert!(outcome.stderr.contains("no number of burns will do"), "{}", outcome.stderr);
    assert!(outcome.stderr.contains("the errors they share hide differences below"), "{}", outcome.stderr);
    assert!(!w.join("plan/plan.csv").exists(), "no order without burns");
    let one = TinyDataset::new().with("[stoves.rocket]\nname = \"Rocket stove\"\n", "");
    let w = Workspace::new();
    let mut one = one;
    one.register = one.register.replace(",rocket,", ",box,");
    one.write(&w);
    let outcome = plan(&w, &[]);
    assert!(outcome.stderr.contains("Box stove is the only level known"), "{}", outcome.stderr);
    let excluded = TinyDataset::new();
    let w = Workspace::new();
    let mut excluded = excluded;
    excluded.register = excluded.register.replacen("ambient [degC]\n", "ambient [degC],exclude\n", 1);
    let rows = excluded.register.lines().skip(1).map(|row| [row, ",rained in\n"].concat());
    excluded.register =
        [excluded.register.lines().next().unwrap_or_default().to_owned() + "\n"].into_iter().chain(rows).collect();
    excluded.write(&w);
    let outcome = plan(&w, &["--difference", "10 %", "--scatter", "5 %"]);
    assert!(outcome.stderr.contains("Stove: make "), "{}", outcome.stderr);
}

#[test]
fn blank_sheets_come_from_a_pipeline_or_a_dataset() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    for from in ["pipeline.toml", "data", "data/dataset.toml"] {
        let outcome = calefact(
            w.path(),
            &["sheet", from, "--burns", "3", "--every", "10 min", "--paper", "letter", "--units", "us"],
        );
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        let page = std::fs::read_to_string(w.join("burn-sheets.html")).expect("the page");
        assert_eq!(page.matches("class=\"sheet\"").count(), 3, "{from}");
        assert!(page.contains("size: letter") && page.contains("[degF]") && page.contains(">20</th>"), "{from}");
    }
    w.write("notes.html", "my own");
    assert_eq!(calefact(w.path(), &["sheet", "data", "--out", "notes.html"]).code, 3, "a file of the reader's stays");
}
