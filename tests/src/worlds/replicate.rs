//! One draw of a world: written, run by the command, and its tables held against the truth.

use super::design::Design;
use super::hits::{Given, Hit, Verdict, What};
use super::table::{Row, rows};
use crate::Workspace;
use calefact_simulate::worlds::WorldTruth;
use std::path::Path;

/// 1.96: the half width of a 95 % interval in standard uncertainties.
const NORMAL_95: f64 = 1.959_964;

/// Everything one draw says. None where the draw is not possible, such as one that boils the tank.
///
/// # Panics
/// If the command does not run.
pub(super) fn run(design: &Design, seed: u64) -> Option<Vec<Hit>> {
    let folder = Workspace::new();
    let (dataset, results) = (folder.join("data"), folder.join("out"));
    let truth = design.world.write(&dataset, seed).ok()?;
    let path = |p: &Path| p.to_string_lossy().into_owned();
    let pipeline = path(&dataset.join("pipeline.toml"));
    let args = ["calefact", "run", &pipeline, "--out", &path(&results), "--jobs", "1", "--quiet"];
    let exit = calefact::run(args);
    assert!(exit <= 1, "the command ends with {exit} on {} with seed {seed}", design.title());
    let mut hits = Vec::new();
    if truth.damper_slope.is_some() {
        hits.extend(trends(&truth, &results));
    } else {
        hits.extend(trials(&truth, &results));
        hits.extend(groups(&truth, &results));
        hits.extend(jobs(&truth, &results));
        hits.extend(contrasts(design, &truth, &results));
    }
    Some(hits)
}

/// A row's interval against a true value.
fn given(row: &Row, truth: f64) -> Option<Given> {
    let [value, lower, upper] = ["value", "lower", "upper"].map(|column| row.number(column));
    let (value, lower, upper) = (value?, lower?, upper?);
    let scaled = (value - truth) / row.number("std_uncertainty").filter(|u| *u > 0.0)?;
    Some(Given { held: lower <= truth && truth <= upper, scaled, width: upper - lower, verdict: None })
}

fn trials(truth: &WorldTruth, results: &Path) -> Vec<Hit> {
    let table = rows(results, "estimates");
    let mut hits = Vec::new();
    for trial in &truth.trials {
        for (&quantity, &value) in &trial.values {
            let row = table.iter().find(|r| r.has(&[("trial", &trial.trial), ("quantity", quantity)]));
            let given = row.and_then(|r| given(r, value));
            hits.push(Hit { quantity: quantity.into(), what: What::Trial, given });
        }
    }
    hits
}

fn groups(truth: &WorldTruth, results: &Path) -> Vec<Hit> {
    let table = rows(results, "groups");
    let mut hits = Vec::new();
    for row in &table {
        let (stove, quantity) = (row.text("stove"), row.text("quantity"));
        let value = |of: &std::collections::BTreeMap<String, std::collections::BTreeMap<&'static str, f64>>| {
            of.get(stove).and_then(|values| values.get(quantity)).copied()
        };
        if let Some(mean) = value(&truth.means) {
            hits.push(Hit { quantity: quantity.into(), what: What::Mean, given: given(row, mean) });
        }
        if let Some(next) = value(&truth.next) {
            hits.push(Hit { quantity: quantity.into(), what: What::NextBurn, given: prediction(row, next) });
        }
    }
    hits
}

/// Forecasts of jobs: the mean of many burns and the next burn, by stove.
fn jobs(truth: &WorldTruth, results: &Path) -> Vec<Hit> {
    let mut hits = Vec::new();
    for row in &rows(results, "forecasts") {
        let quantity = format!("{}_{}", row.text("job"), row.text("quantity"));
        let value = |of: &std::collections::BTreeMap<String, std::collections::BTreeMap<&'static str, f64>>| {
            of.get(row.text("stove")).and_then(|values| values.get(quantity.as_str())).copied()
        };
        let [value_given, lower, upper] = ["value", "lower", "upper"].map(|column| row.number(column));
        if let (Some(mean), Some(middle), Some(lower), Some(upper)) = (value(&truth.means), value_given, lower, upper) {
            let scaled = (middle - mean) / ((upper - lower) / 2.0 / NORMAL_95);
            let given = Given { held: lower <= mean && mean <= upper, scaled, width: upper - lower, verdict: None };
            hits.push(Hit { quantity: quantity.clone(), what: What::Mean, given: Some(given) });
        }
        if let Some(next) = value(&truth.next) {
            hits.push(Hit { quantity, what: What::NextBurn, given: prediction(row, next) });
        }
    }
    hits
}

/// The interval for the next burn against that burn; its half width stands for 1.96 standard uncertainties.
fn prediction(row: &Row, truth: f64) -> Option<Given> {
    let (lower, upper) = (row.number("predict_lower")?, row.number("predict_upper")?);
    let width = upper - lower;
    let scaled = (f64::midpoint(lower, upper) - truth) / (width / 2.0 / NORMAL_95);
    Some(Given { held: lower <= truth && truth <= upper, scaled, width, verdict: None })
}

fn contrasts(design: &Design, truth: &WorldTruth, results: &Path) -> Vec<Hit> {
    let mut hits = Vec::new();
    for row in rows(results, "contrasts") {
        let quantity = row.text("quantity");
        let mean = |level: &str| truth.means.get(level).and_then(|values| values.get(quantity)).copied();
        let (Some(a), Some(b)) = (mean(row.text("a")), mean(row.text("b"))) else { continue };
        let (what, true_value) =
            if row.text("kind") == "ratio" { (What::Ratio, a / b) } else { (What::Difference, a - b) };
        let verdict = verdict(row.text("verdict"), a > b, design.world.alike);
        let given = given(&row, true_value).map(|g| Given { verdict: Some(verdict), ..g });
        hits.push(Hit { quantity: quantity.into(), what, given });
    }
    hits.push(page(&hits));
    hits
}

/// All verdicts together: held where none is false or has the wrong sign.
fn page(contrasts: &[Hit]) -> Hit {
    let verdicts: Vec<Verdict> = contrasts.iter().filter_map(|h| h.given?.verdict).collect();
    let worst = [Verdict::WrongSign, Verdict::False, Verdict::Right].into_iter().find(|v| verdicts.contains(v));
    let verdict = worst.unwrap_or(Verdict::Open);
    let held = !matches!(verdict, Verdict::WrongSign | Verdict::False);
    let given = Given { held, scaled: 0.0, width: 0.0, verdict: Some(verdict) };
    Hit { quantity: "any".into(), what: What::Page, given: Some(given) }
}

/// A verdict against the truth.
fn verdict(word: &str, above: bool, alike: bool) -> Verdict {
    match word {
        "above" | "below" if alike => Verdict::False,
        "above" | "below" if (word == "above") == above => Verdict::Right,
        "above" | "below" => Verdict::WrongSign,
        _ => Verdict::Open,
    }
}

fn trends(truth: &WorldTruth, results: &Path) -> Vec<Hit> {
    let Some(slope) = truth.damper_slope else { return Vec::new() };
    let table = rows(results, "trends");
    let row = table.iter().find(|r| r.has(&[("quantity", "thermal_efficiency"), ("factor", "damper")]));
    let given = row.and_then(|r| given(r, slope));
    vec![Hit { quantity: "thermal_efficiency".into(), what: What::Trend, given }]
}
