//! Same inputs, same bytes out, whatever surrounds the run.

use super::{calefact, command, table};
use calefact_tests::{TinyDataset, Workspace, root};
use rand::SeedableRng as _;
use rand::seq::SliceRandom as _;
use rand_pcg::Pcg64Mcg;
use std::collections::BTreeMap;
use std::path::Path;

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

/// The rows of a table but for their order.
fn rows(table: &[u8]) -> BTreeMap<String, usize> {
    let mut rows = BTreeMap::new();
    for line in String::from_utf8_lossy(table).lines() {
        *rows.entry(line.to_owned()).or_insert(0) += 1;
    }
    rows
}

/// Values and ends of intervals, by what stands in the columns of names.
fn numbers(path: &Path, names: &[&str]) -> BTreeMap<Vec<String>, [f64; 3]> {
    let row = |row: BTreeMap<String, String>| {
        let number = |column: &str| row[column].parse().unwrap_or(f64::NAN);
        (names.iter().map(|name| row[*name].clone()).collect(), ["value", "lower", "upper"].map(number))
    };
    table(path).into_iter().map(row).collect()
}

/// Levels stand in the order in which the register first names them, so that tables of levels are compared by what they say.
#[test]
fn the_order_of_the_register_does_not_change_the_results() {
    let w = Workspace::new();
    copy_demo(&w, "a", true);
    copy_demo(&w, "b", true);
    let register = w.join("b/datasets/hill-nursery/trials.csv");
    let text = std::fs::read_to_string(&register).expect("a register");
    let mut lines: Vec<&str> = text.lines().collect();
    lines[1..].shuffle(&mut Pcg64Mcg::seed_from_u64(5));
    std::fs::write(register, lines.join("\n") + "\n").expect("a register");
    for folder in ["a", "b"] {
        let outcome = calefact(&w.join(folder), &["run", "pipelines/hill-nursery.toml", "--out", "out"]);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    }
    let (first, second) = (w.files("a/out/tables"), w.files("b/out/tables"));
    for name in ["estimates.csv", "trials.csv", "balance.csv", "missing.csv"] {
        assert!(rows(&first[name]) == rows(&second[name]), "{name}");
    }
    let of_levels = ["comparison", "stove", "fuel", "exchanger", "quantity"];
    for (name, names) in [("groups", &of_levels[..]), ("forecasts", &["job", "stove", "fuel", "exchanger", "quantity"])]
    {
        let [first, second] =
            ["a", "b"].map(|folder| numbers(&w.join(folder).join(format!("out/tables/{name}.csv")), names));
        assert!(first.len() > 80 && first.keys().eq(second.keys()), "{name}");
        // Draws are kept to six digits, the last of which may be rounded to either side.
        let close = |a: f64, b: f64| a.is_nan() && b.is_nan() || (a - b).abs() <= 1e-5 * a.abs();
        for (key, a) in &first {
            assert!(a.iter().zip(second[key]).all(|(a, b)| close(*a, b)), "{name} {key:?}: {a:?} {:?}", second[key]);
        }
    }
}
