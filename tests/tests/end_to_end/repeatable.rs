//! Same inputs, same bytes out, whatever surrounds the run.

use super::{calefact, command};
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

/// Threads, zone, language, the name of the folder, and the order in which the files were put on the disk.
#[test]
fn the_demo_in_three_surroundings() {
    let w = Workspace::new();
    let surroundings = [
        ("here", "1", "UTC", "C"),
        ("\u{dc}ber dort/\u{131} #2", "2", "Pacific/Kiritimati", "tr_TR.UTF-8"),
        ("Z", "8", "America/St_Johns", "de_DE.UTF-8"),
    ];
    for (folder, jobs, zone, language) in surroundings {
        copy_demo(&w, folder, folder == "here");
        let mut command = command(&w.join(folder));
        command.args(["run", "pipelines/hill-nursery.toml", "--out", "out", "--jobs", jobs]);
        let output = command.env("TZ", zone).env("LANG", language).env("LC_ALL", language).output().expect("a run");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
    for (folder, ..) in &surroundings[1..] {
        same(&w, "here/out", &format!("{folder}/out"));
    }
}

/// Writes the files of the demo into a folder, in the order of their names or the other way round.
fn copy_demo(w: &Workspace, folder: &str, in_order: bool) {
    let set = root().join("datasets/hill-nursery");
    let logs = std::fs::read_dir(set.join("logs")).expect("logs").map(|entry| entry.expect("a log").path());
    let above = ["dataset.toml", "trials.csv"].map(|name| set.join(name));
    let mut files: Vec<_> = logs.chain(above).chain([root().join("pipelines/hill-nursery.toml")]).collect();
    files.sort();
    if !in_order {
        files.reverse();
    }
    for file in files {
        let name = file.strip_prefix(root()).expect("a file of the repository").to_str().expect("UTF-8");
        w.write(&format!("{folder}/{name}"), std::fs::read(&file).expect("a file"));
    }
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
    data.pipeline.push_str("\n[outputs]\nreadings = true\n");
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
