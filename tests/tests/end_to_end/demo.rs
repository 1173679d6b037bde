//! The demo as a newcomer runs it.

use super::{calefact, table};
use calefact_tests::{Workspace, root};

#[test]
fn the_demo_gives_a_report_labelled_as_invented() {
    let w = Workspace::new();
    let pipeline = root().join("pipelines/hill-nursery.toml");
    let outcome = calefact(w.path(), &["run", pipeline.to_str().expect("UTF-8"), "--out", "out"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let page = std::fs::read_to_string(w.join("out/report.html")).expect("a report");
    assert!(page.contains("invented"), "the label is missing");
    assert!(!page.contains("src=\"http") && !page.contains("<script"), "the page stands alone");
    for name in ["estimates", "groups", "contrasts", "budget", "balance"] {
        assert!(!table(&w.join(&format!("out/tables/{name}.csv"))).is_empty(), "{name} is empty");
    }
}

/// Every estimate has its interval, and the interval holds the value.
#[test]
fn no_number_without_its_interval() {
    let w = Workspace::new();
    let pipeline = root().join("pipelines/hill-nursery.toml");
    assert_eq!(calefact(w.path(), &["run", pipeline.to_str().expect("UTF-8"), "--out", "out"]).code, 0);
    for row in table(&w.join("out/tables/estimates.csv")) {
        let number = |key: &str| row[key].parse::<f64>().unwrap_or_else(|_| panic!("{key} of {row:?}"));
        let (lower, value, upper) = (number("lower"), number("value"), number("upper"));
        assert!(lower <= value && value <= upper, "{row:?}");
        assert!(!row["method"].is_empty(), "{row:?}");
    }
}

/// The picture of the README is the one the demo makes.
#[test]
fn the_picture_in_the_readme_is_current() {
    let w = Workspace::new();
    let pipeline = root().join("pipelines/hill-nursery.toml");
    assert_eq!(calefact(w.path(), &["run", pipeline.to_str().expect("UTF-8"), "--out", "out"]).code, 0);
    let made = w.files("out/charts");
    let shown = std::fs::read(root().join("reports/hill-nursery-efficiency.svg")).expect("the picture");
    assert!(made.values().any(|bytes| *bytes == shown), "make it again: see DEVELOPERS.md");
}
