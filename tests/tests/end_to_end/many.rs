//! Many trials: all are in the tables and comparisons, though only some are shown one by one; and trials that share logs.

use super::{calefact, run, table};
use calefact_tests::{TinyDataset, Workspace};
use std::fs;

/// 450 simulated burns and a few other trials: more than the page lists, and more than are written at once.
#[test]
fn every_trial_is_in_the_tables_and_some_are_shown() {
    let w = Workspace::new();
    let made = calefact(w.path(), &["simulate", "--out", "s", "--trials", "450", "--rows", "12"]);
    assert_eq!(made.code, 0, "{}", made.stderr);
    let outcome = calefact(w.path(), &["run", "s/pipeline.toml", "--out", "out"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);

    let register = table(&w.join("s/trials.csv"));
    let trials = table(&w.join("out/tables/trials.csv"));
    let ids = |rows: &[std::collections::BTreeMap<String, String>]| {
        rows.iter().map(|r| r["trial"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(ids(&register), ids(&trials));

    let estimates = table(&w.join("out/tables/estimates.csv"));
    let mut of_estimates = ids(&estimates);
    of_estimates.dedup();
    assert_eq!(of_estimates, ids(&trials), "in the order of the register");
    let known = |q: &str| estimates.iter().filter(|e| e["quantity"] == q).count();
    let groups = table(&w.join("out/tables/groups.csv"));
    let by_stove = groups.iter().filter(|g| g["comparison"] == "stove" && g["quantity"] == "thermal_efficiency");
    let compared: usize = by_stove.map(|g| g["n"].parse::<usize>().expect("a count")).sum();
    assert_eq!(compared, known("thermal_efficiency"), "every burn is in its group");

    let page = fs::read_to_string(w.join("out/report.html")).expect("a page");
    let further = format!("{} further trials are in", trials.len() - 200);
    assert!(page.contains(&further), "{further}");
    assert!(page.contains("one in 8 of each set is drawn"), "curves are thinned");
}

/// Logs of several trials each, the register going to and fro between them: the tables follow the register.
#[test]
fn tables_follow_the_register_whatever_the_logs() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    let text = |data: &TinyDataset, name: &str| {
        let log = data.logs.iter().find(|(n, _)| n == &format!("logs/{name}.csv")).expect("a log");
        log.1.lines().skip(1).flat_map(|row| [name, ",", row, "\n"]).collect::<String>()
    };
    let joined =
        |names: [&str; 2]| format!("trial,elapsed [min],tank [degC]\n{}", names.map(|n| text(&data, n)).concat());
    let logs = [("logs/odd.csv", joined(["r1", "b1"])), ("logs/even.csv", joined(["b2", "r2"]))];
    data.logs = logs.map(|(name, text)| (name.to_owned(), text)).to_vec();
    data.apparatus.push_str("\n[logs]\ntrial_column = \"trial\"\n");
    for (own, shared) in [("b1", "odd"), ("b2", "even"), ("r1", "odd"), ("r2", "even")] {
        data.register = data.register.replace(&format!("logs/{own}.csv"), &format!("logs/{shared}.csv"));
    }
    data.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    for name in ["trials", "estimates", "balance"] {
        let mut ids: Vec<String> =
            table(&w.join(&format!("out/tables/{name}.csv"))).iter().map(|r| r["trial"].clone()).collect();
        ids.dedup();
        assert_eq!(ids, ["b1", "b2", "r1", "r2"], "{name}");
    }
}
