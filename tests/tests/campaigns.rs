//! Whole campaigns in invented worlds: a number of burns planned from guesses, so many burns made, and the verdict that is due then.
//! The difference is settled about as often as the plan promises, and stoves that are alike are seldom told apart.

use calefact_simulate::worlds::{Logs, World};
use calefact_tests::Workspace;
use std::path::Path;

/// Campaigns of each kind.
const CAMPAIGNS: u64 = 100;
/// Monte Carlo standard errors that a share may lie off.
const ERRORS: f64 = 3.0;
/// The true difference between the stoves, as the world states it, and the scatter between burns that a builder guesses: the
/// stoves' own 2.0 and 1.2 points, pooled, with a little for moisture and readings.
const DIFFERENCE: &str = "4 points";
const SCATTER: f64 = 0.0175;
const POWER: f64 = 0.8;

fn text(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

fn rows(path: &Path) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(path).expect("a table");
    reader.deserialize().map(|row| row.expect("a row")).collect()
}

/// Adds keys to the comparison at the end of a world's pipeline file.
fn with_keys(pipeline: &Path, keys: &str) {
    let comparison = std::fs::read_to_string(pipeline).expect("the pipeline file") + keys;
    std::fs::write(pipeline, comparison).expect("the pipeline file to be written");
}

const MAIN: &str = "quantities = [\"thermal_efficiency\"]\n";

/// Burns of each stove that the command plans before the first one.
fn planned() -> usize {
    let w = Workspace::new();
    World::new(Logs::FiveRows, 1).write(&w.join("data"), 1).expect("a world");
    let register = std::fs::read_to_string(w.join("data/trials.csv")).expect("the register");
    w.write("data/trials.csv", format!("{}\n", register.lines().next().expect("a header")));
    let pipeline = w.join("data/pipeline.toml");
    with_keys(&pipeline, MAIN);
    let (scatter, power) = (format!("{} points", 100.0 * SCATTER), format!("{} %", 100.0 * POWER));
    let guesses = ["--difference", DIFFERENCE, "--scatter", &scatter, "--power", &power];
    let args = ["calefact", "plan", &text(&pipeline), "--out", &text(&w.join("plan")), "--quiet"];
    assert!(calefact::run(args.iter().chain(&guesses)) <= 1, "the plan is made");
    let burns = rows(&w.join("plan/plan.csv"));
    assert!(burns.len().is_multiple_of(2), "as many of each stove");
    burns.len() / 2
}

/// Outcome of the campaigns.
struct Outcome {
    settled: f64,
    wrong_sign: usize,
    scatter: f64,
}

fn campaigns(alike: bool) -> Outcome {
    let burns = planned();
    let world = World { alike, ..World::new(Logs::FiveRows, burns) };
    let (mut settled, mut wrong_sign, mut variances) = (0, 0, Vec::new());
    for seed in 0..CAMPAIGNS {
        let w = Workspace::new();
        let truth = world.write(&w.join("data"), seed).expect("a world");
        let pipeline = w.join("data/pipeline.toml");
        with_keys(&pipeline, &format!("{MAIN}planned = {burns}\n"));
        let out = w.join("out");
        assert!(
            calefact::run(["calefact", "run", &text(&pipeline), "--out", &text(&out), "--jobs", "1", "--quiet"]) <= 1
        );
        let found = rows(&out.join("tables/contrasts.csv"));
        let row = found.iter().find(|r| r["kind"] == "difference" && r["quantity"] == "thermal_efficiency");
        let row = row.expect("the difference");
        let is_above = truth.means[&row["a"]]["thermal_efficiency"] > truth.means[&row["b"]]["thermal_efficiency"];
        match row["verdict"].as_str() {
            "above" | "below" => {
                settled += 1;
                wrong_sign += usize::from((row["verdict"] == "above") != is_above);
            }
            _ => {}
        }
        let groups = rows(&out.join("tables/groups.csv"));
        let sds =
            groups.iter().filter(|r| r["quantity"] == "thermal_efficiency").map(|r| r["between_sd"].parse::<f64>());
        variances.extend(sds.map(|sd| sd.expect("a number").powi(2)));
    }
    let scatter = (variances.iter().sum::<f64>() / variances.len() as f64).sqrt();
    Outcome { settled: f64::from(settled) / CAMPAIGNS as f64, wrong_sign, scatter }
}

fn error(share: f64) -> f64 {
    (share * (1.0 - share) / CAMPAIGNS as f64).sqrt()
}

#[test]
fn a_planned_campaign_settles_the_difference_as_often_as_it_promises() {
    let Outcome { settled, wrong_sign, scatter } = campaigns(false);
    assert!((scatter / SCATTER - 1.0).abs() < 0.15, "the guess is honest: {scatter}");
    assert!((settled - POWER).abs() < ERRORS * error(POWER), "settled in {settled} with a scatter of {scatter}");
    assert_eq!(wrong_sign, 0);
}

#[test]
fn a_planned_campaign_seldom_tells_alike_stoves_apart() {
    let Outcome { settled, .. } = campaigns(true);
    assert!(settled <= 0.05 + ERRORS * error(0.05), "{settled}");
}
