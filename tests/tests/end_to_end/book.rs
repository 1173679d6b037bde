//! The book of fuel use from end to end: one rig, the same rig again, another rig, damaged tables, no burns.

use super::{Outcome, calefact, run, table};
use calefact_tests::{TinyDataset, Workspace};
use std::collections::BTreeMap;

type Row = BTreeMap<String, String>;

/// Runs `book` on the pipeline of a folder.
fn book(w: &Workspace, with: &[&str]) -> Outcome {
    let mut args = vec!["book", "pipeline.toml", "--out", "book"];
    if !with.is_empty() {
        args.push("--with");
        args.extend(with);
    }
    calefact(w.path(), &args)
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column}: {row:?}"))
}

fn heat<'r>(rows: &'r [Row], stove: &str, rig: &str) -> &'r Row {
    let wanted = |r: &&Row| r["stove"] == stove && r["rig"] == rig && r["job"].is_empty() && r["quantity"] == "wood";
    rows.iter().find(wanted).expect("a row")
}

/// The four burns, with dates, as another rig: more wood, other temperatures.
fn other(name: &str, wood: [&str; 4]) -> TinyDataset {
    let mut data = dated().with("name = \"four-burns\"", &format!("name = \"{name}\""));
    for (from, to) in ["120,5.6", "120,5.4", "120,4.1", "120,4.3"].iter().zip(wood) {
        data = data.with(from, &format!("120,{to}"));
    }
    data
}

fn dated() -> TinyDataset {
    let mut data = TinyDataset::new().with("trial,kind,", "trial,kind,date,");
    for (burn, date) in [("b1", "2024-06-30"), ("b2", "2024-07-01"), ("r1", "2024-10-02"), ("r2", "2025-01-09")] {
        data = data.with(&format!("{burn},burn,"), &format!("{burn},burn,{date},"));
    }
    data
}

/// The figure of a kWh is the mean over the burns, and seasons run from July to June.
#[test]
fn a_kilowatt_hour_has_the_mean_of_its_burns() {
    let w = Workspace::new();
    dated().write(&w);
    assert_eq!(run(&w).code, 0);
    let rows = table(&w.join("out/tables/book.csv"));
    let burns = table(&w.join("out/tables/estimates.csv"));
    let of = |trial: &str| {
        number(burns.iter().find(|r| r["trial"] == trial && r["quantity"] == "fuel_per_heat").expect("a row"), "value")
    };
    let row = heat(&rows, "box", "four-burns");
    let (a, b) = (of("b1"), of("b2"));
    assert!((number(row, "value") - 0.5 * (a + b)).abs() < 1e-12);
    assert_eq!((row["n"].as_str(), row["seasons"].as_str(), row["last"].as_str()), ("2", "2023 2024", "2024-07-01"));
    assert!(number(row, "lower") < a.min(b) || number(row, "upper") > a.max(b));
    assert!(number(row, "predict_upper") > number(row, "upper"));
}

#[test]
fn the_same_burns_count_once() {
    let w = Workspace::new();
    dated().write(&w);
    assert_eq!(run(&w).code, 0);
    assert_eq!(book(&w, &[]).code, 0);
    let alone = w.files("book");
    let outcome = book(&w, &["out", "book"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("2 combinations of rig `four-burns` have burns that are in the book already"));
    assert!(outcome.stderr.contains("no fuel has a price") && outcome.stderr.contains("2 combinations of 1 rig"));
    assert_eq!(w.files("book")["tables/book.csv"], alone["tables/book.csv"]);
    assert!(
        String::from_utf8_lossy(&alone["book.html"])
            .contains("2 burns, 2 seasons (2023/24 and 2024/25), last 2024-07-01")
    );
}

/// Three rigs are put together with the scatter between them; a fourth would lie where they scatter, wider than their mean.
#[test]
fn rigs_stay_apart_and_are_combined_with_their_scatter() {
    let w = Workspace::new();
    let others = [("north", ["6.9", "6.8", "5.1", "5.2"]), ("south", ["5.0", "5.1", "3.8", "3.9"])];
    for (name, wood) in others {
        other(name, wood).write(&w);
        assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", name]).code, 0);
    }
    let w2 = w;
    dated().write(&w2);
    let outcome = book(&w2, &["north", "south"]);
    assert!(outcome.stderr.contains("6 combinations of 3 rigs"), "{}", outcome.stderr);
    let rows = table(&w2.join("book/tables/book.csv"));
    let values = ["four-burns", "north", "south"].map(|rig| number(heat(&rows, "box", rig), "value"));
    let together = table(&w2.join("book/tables/book_rigs.csv"));
    let wood = together.iter().find(|r| r["stove"] == "box" && r["quantity"] == "wood").expect("a row");
    assert_eq!((wood["rigs"].as_str(), wood["n"].as_str()), ("3", "6"));
    assert!(values[2] < number(wood, "value") && number(wood, "value") < values[1]);
    assert!(number(wood, "between_rigs") > 0.0 && number(wood, "predict_upper") > number(wood, "upper"));
    let page = String::from_utf8(w2.files("book").remove("book.html").expect("a page")).expect("text");
    assert!(page.contains("rig north") && page.contains("Rigs together"));
}

#[test]
fn damaged_tables_are_named_and_the_rest_is_answered() {
    let w = Workspace::new();
    other("north", ["6.9", "6.8", "5.1", "5.2"]).write(&w);
    assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", "north"]).code, 0);
    let sound = String::from_utf8(w.files("north").remove("tables/book.csv").expect("a table")).expect("text");
    let mut lines: Vec<String> = sound.lines().map(ToOwned::to_owned).collect();
    lines[1] = lines[1].replacen("north", "=cmd()", 1);
    w.write("damaged/book.csv", lines.join("\n"));
    w.write("old/book.csv", sound.replace("\n1,", "\n7,"));
    w.write("binary/book.csv", b"\xff\xfe\x00\x01");
    w.write("other/tables/book.csv", "trial,value\nb1,3\n");
    dated().write(&w);
    let outcome = book(&w, &["damaged", "old", "binary", "other", "nowhere"]);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    for line in [
        "book-row-refused: damaged/book.csv line 2\n  the cell under `rig` begins like a formula",
        "this program cannot read a book of version `7`",
        "not a text file",
        "columns are missing: `version`",
        "no book.csv in this folder",
        "4 combinations of 2 rigs",
    ] {
        assert!(outcome.stderr.contains(line), "{line}: {}", outcome.stderr);
    }
}

#[test]
fn without_dates_or_burns_that_is_said() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = book(&w, &[]);
    assert_eq!(outcome.code, 0);
    assert!(outcome.stderr.contains("4 of 4 burns have no date"), "{}", outcome.stderr);
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.register = data.register.replace(",burn,", ",standing-loss,");
    data.write(&w);
    let outcome = book(&w, &[]);
    assert_eq!(outcome.code, 1);
    assert!(outcome.stderr.contains("no book was written") && !w.join("book").exists(), "{}", outcome.stderr);
}
