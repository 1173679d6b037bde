//! Measured runs of an electric pot against a table worked independently from the same readings.
//!
//! Source of the readings: public repository EngOtiato/temperature-control, commit 25f0353c (Apache-2.0). Source of the figures below: the
//! reference notes kept beside the readings (physics, section 5.4 (a)): 1.000 L = 0.99705 kg at 25 degC, IAPWS-IF97 enthalpy, first
//! crossings of 30 and 90 degC by linear interpolation. Tolerance: 0.5 % of each figure.

use super::{calefact, table};
use calefact_tests::{Workspace, reference, root};
use std::collections::BTreeMap;

/// Heat gained over electric input, %, by run.
const RUNS: [(&str, f64); 15] = [
    ("p050a", 48.228),
    ("p050b", 50.107),
    ("p050c", 50.672),
    ("p100a", 60.028),
    ("p100b", 60.451),
    ("p100c", 60.278),
    ("p150a", 61.846),
    ("p150b", 62.314),
    ("p150c", 63.405),
    ("p200a", 63.763),
    ("p200b", 64.506),
    ("p200c", 63.769),
    ("p250a", 64.468),
    ("p250b", 64.359),
    ("p250c", 66.077),
];

/// Mean and half-width of its 95 % interval from the scatter of three runs, %, by set power in W.
const GROUPS: [(&str, f64, f64); 5] = [
    ("50", 49.669, 3.179),
    ("100", 60.252, 0.527),
    ("150", 62.522, 1.988),
    ("200", 64.012, 1.061),
    ("250", 64.968, 2.390),
];

#[test]
fn figures_of_every_run_and_group() {
    let Some(w) = run_pot() else { return };
    let of_run: BTreeMap<String, f64> = table(&w.join("out/tables/estimates.csv"))
        .into_iter()
        .filter(|row| row["quantity"] == "stored_fraction")
        .map(|row| (row["trial"].clone(), number(&row["value"])))
        .collect();
    for (run, percent) in RUNS {
        near(run, 100.0 * of_run[run], percent);
    }
}

#[test]
fn means_and_half_widths_of_every_group() {
    let Some(w) = run_pot() else { return };
    let groups = table(&w.join("out/tables/groups.csv"));
    for (power, mean, half_width) in GROUPS {
        let of_power = |row: &&BTreeMap<String, String>| {
            row["quantity"] == "stored_fraction" && row.values().any(|v| *v == format!("{power} W"))
        };
        let row = groups.iter().find(of_power).unwrap_or_else(|| panic!("no group of {power} W"));
        near(power, 100.0 * number(&row["value"]), mean);
        // The scatter's own half-width; the interval of the table is wider, since one thermometer read all runs.
        let scatter = number(&row["between_sd"]) / 3.0_f64.sqrt() * 4.302_652_73;
        near(power, 100.0 * scatter, half_width);
        let shown = 50.0 * (number(&row["upper"]) - number(&row["lower"]));
        assert!(shown > 0.995 * half_width, "{power} W: the interval {shown} is tighter than its scatter {half_width}");
    }
}

/// Loss from an open pot is not linear (evaporation), so one constant loss coefficient does not fit (same source).
#[test]
fn the_misfit_of_one_constant_loss_is_told() {
    let Some(w) = run_pot() else { return };
    let findings = table(&w.join("out/tables/findings.csv"));
    let misfit = findings.iter().find(|row| row["code"] == "constant-loss-misfit").expect("the misfit is told");
    // The reference's own fit: C 6009 J/K, UA 0.648 W/K, Ta 40.2 degC, residual sd 5.5 W.
    for figure in ["6009 J/K", "0.648 W/K", "40.2 degC", "5.5 W"] {
        assert!(misfit["message"].contains(figure), "{figure} is not in {}", misfit["message"]);
    }
}

/// Runs the committed pipeline, its register pointed at the reference data.
fn run_pot() -> Option<Workspace> {
    let register = reference("datasets/electric-pot/trials.csv")?;
    let w = Workspace::new();
    let committed = |rel: &str| std::fs::read_to_string(root().join(rel)).expect("a committed file");
    let apparatus = committed("datasets/electric-pot/dataset.toml");
    let pointed =
        apparatus.replace("../../../shared/datasets/electric-pot/trials.csv", register.to_str().expect("UTF-8"));
    assert_ne!(apparatus, pointed, "the register's path stands in the file");
    w.write("datasets/electric-pot/dataset.toml", pointed);
    w.write("pipelines/electric-pot.toml", committed("pipelines/electric-pot.toml"));
    let outcome = calefact(w.path(), &["run", "pipelines/electric-pot.toml", "--out", "out"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    Some(w)
}

fn near(what: &str, got: f64, want: f64) {
    assert!((got / want - 1.0).abs() < 0.005, "{what}: {got} % against {want} %");
}

fn number(text: &str) -> f64 {
    text.parse().unwrap_or_else(|_| panic!("`{text}` is no number"))
}
