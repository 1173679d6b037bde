//! Same inputs, same bytes out, whatever the number of threads.

use super::calefact;
use calefact_tests::{TinyDataset, Workspace, root};
use std::collections::BTreeMap;

#[test]
fn four_burns_twice() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    for out in ["first", "second"] {
        assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", out]).code, 0);
    }
    same(&w, "first", "second");
}

#[test]
fn the_demo_with_one_and_three_jobs() {
    let w = Workspace::new();
    let pipeline = root().join("pipelines/hill-nursery.toml");
    let pipeline = pipeline.to_str().expect("UTF-8");
    for (out, jobs) in [("one", "1"), ("three", "3")] {
        let outcome = calefact(w.path(), &["run", pipeline, "--out", out, "--jobs", jobs]);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    }
    same(&w, "one", "three");
}

fn same(w: &Workspace, a: &str, b: &str) {
    let (first, second) = (w.files(a), w.files(b));
    assert!(first.len() > 15, "only {} files were written", first.len());
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
    for (name, bytes) in &first {
        assert!(second[name] == *bytes, "{name} differs between {a} and {b}");
    }
}

/// The rows of a table but for their order, and for what names a line of the register.
fn rows(table: &[u8]) -> BTreeMap<String, usize> {
    let mut rows = BTreeMap::new();
    for line in String::from_utf8_lossy(table).lines() {
        *rows.entry(line.to_owned()).or_insert(0) += 1;
    }
    rows
}

#[test]
fn the_order_of_the_register_does_not_change_the_results() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.write(&w);
    assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", "first"]).code, 0);
    let mut lines: Vec<&str> = data.register.lines().collect();
    lines[1..].reverse();
    data.register = lines.join("\n") + "\n";
    data.write(&w);
    assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", "second"]).code, 0);
    let (first, second) = (w.files("first/tables"), w.files("second/tables"));
    for name in ["estimates.csv", "trials.csv", "readings.csv", "balance.csv"] {
        assert_eq!(rows(&first[name]), rows(&second[name]), "{name}");
    }
    let means = |folder: &str| -> BTreeMap<(String, String), f64> {
        let groups = super::table(&w.join(folder).join("tables/groups.csv")).into_iter();
        groups
            .map(|mut g| {
                (
                    (g["stove"].clone(), g["quantity"].clone()),
                    g.remove("upper").and_then(|u| u.parse().ok()).unwrap_or(f64::NAN),
                )
            })
            .collect()
    };
    let (first, second) = (means("first"), means("second"));
    assert!(first.len() > 3 && first.keys().eq(second.keys()), "{first:?} {second:?}");
    assert!(first.iter().all(|(key, a)| (a - second[key]).abs() <= 1e-9 * a.abs()), "{first:?} {second:?}");
}
