//! Several datasets in one pipeline: what belongs to one of them stays its own.

use super::bundle::{published, sealed};
use super::{calefact, table};
use calefact_tests::{TinyDataset, Workspace};
use std::collections::BTreeMap;

/// Writes the burns of a dataset into a folder, each id and log under a mark.
fn write(w: &Workspace, folder: &str, data: &TinyDataset, mark: &str) {
    let marked = ["b1", "b2", "r1", "r2"].iter().fold(data.register.clone(), |text, id| {
        text.replace(&format!("{id},burn,logs/{id}"), &format!("{mark}{id},burn,logs/{id}"))
    });
    w.write(&format!("{folder}/dataset.toml"), &data.apparatus);
    w.write(&format!("{folder}/trials.csv"), &marked);
    for (name, text) in &data.logs {
        w.write(&format!("{folder}/{name}"), text);
    }
}

/// Runs a pipeline of some datasets.
fn ran(w: &Workspace, datasets: &[&str], out: &str) -> (i32, String) {
    let text = TinyDataset::new().pipeline.replace("[\"data\"]", &format!("{datasets:?}"));
    w.write("pipeline.toml", text);
    let outcome = calefact(w.path(), &["run", "pipeline.toml", "--out", out]);
    (outcome.code, outcome.stderr)
}

/// Uncertainties of the heating rate by trial.
fn uncertainties(w: &Workspace, out: &str) -> BTreeMap<String, String> {
    let rows = table(&w.join(&format!("{out}/tables/estimates.csv"))).into_iter();
    rows.filter(|row| row["quantity"] == "heating_rate")
        .map(|row| (row["trial"].clone(), row["std_uncertainty"].clone()))
        .collect()
}

/// Each line of a log a little warmer, so that no two logs are the same burn.
fn other(mut data: TinyDataset) -> TinyDataset {
    data.logs.iter_mut().for_each(|(_, text)| *text = text.replace(".5\n", ".6\n").replace(".0\n", ".1\n"));
    data
}

#[test]
fn a_column_is_read_by_the_instrument_of_its_own_dataset() {
    let w = Workspace::new();
    write(&w, "own", &TinyDataset::new(), "");
    let coarse = TinyDataset::new().with("[instruments.probe]", "[instruments.zprobe]").with("0.5 degC", "5 degC");
    write(&w, "coarse", &other(coarse), "c");
    assert_eq!(ran(&w, &["own"], "alone").0, 0);
    assert_eq!(ran(&w, &["coarse"], "theirs").0, 0);
    let apart: BTreeMap<String, String> =
        uncertainties(&w, "alone").into_iter().chain(uncertainties(&w, "theirs")).collect();
    for datasets in [["own", "coarse"], ["coarse", "own"]] {
        let (code, words) = ran(&w, &datasets, "both");
        assert_eq!(code, 0, "{words}");
        assert_eq!(uncertainties(&w, "both"), apart, "{datasets:?}");
    }
    assert_eq!(apart.len(), 6, "of two burns the tank does not reach the stated temperature");
}

#[test]
fn a_burn_of_two_datasets_is_remarked() {
    let w = Workspace::new();
    write(&w, "own", &TinyDataset::new(), "");
    write(&w, "copy", &TinyDataset::new(), "c");
    let (_, words) = ran(&w, &["own", "copy"], "out");
    assert_eq!(words.matches("warning log-repeated").count(), 4, "{words}");
    assert!(words.contains("the log is a copy of `own/logs/b1.csv`"), "{words}");
}

#[test]
fn costs_in_two_currencies_are_not_compared() {
    let w = Workspace::new();
    let priced = |currency: &str| {
        let fuel = format!("class = \"coniferous\"\nprice = 0.4\ncurrency = \"{currency}\"");
        TinyDataset::new().with("class = \"coniferous\"", &fuel)
    };
    write(&w, "own", &priced("EUR"), "");
    let abroad = priced("NOK").with("[fuels.spruce]", "[fuels.pine]");
    let abroad = TinyDataset { register: abroad.register.replace(",spruce,", ",pine,"), ..abroad };
    write(&w, "abroad", &other(abroad), "n");
    let costs = |out: &str| {
        let rows = table(&w.join(&format!("{out}/tables/estimates.csv"))).into_iter();
        rows.filter(|row| row["quantity"] == "cost_per_heat").count()
    };
    assert_eq!(ran(&w, &["own"], "alone").0, 0);
    assert_eq!(costs("alone"), 4);
    let (_, words) = ran(&w, &["own", "abroad"], "both");
    assert!(words.contains("several-currencies") && words.contains("priced in EUR and NOK"), "{words}");
    assert_eq!(costs("both"), 0);
}

/// The words of findings name other files too; no folder that the bundle was made in may stand in them.
#[test]
fn a_bundle_with_repeated_and_missing_logs_is_verified() {
    let w = Workspace::new();
    let mut data = published(TinyDataset::new());
    data.logs[1].1 = data.logs[0].1.clone();
    data.logs.pop();
    data.write(&w);
    assert_eq!(sealed(&w, "far/away/bundle", &[]).code, 1, "a log is missing");
    let outcome = calefact(w.path(), &["verify", "far/away/bundle"]);
    assert_eq!(outcome.code, 0, "{}{}", outcome.stdout, outcome.stderr);
}
