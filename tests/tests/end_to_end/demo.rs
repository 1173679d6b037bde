//! The demo as a newcomer runs it. It is run once, and every check that only reads its files shares them.

use super::{Outcome, calefact, table};
use calefact_tests::{Workspace, root};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The demo's report and what the command said.
pub(super) struct Demo {
    pub(super) folder: PathBuf,
    pub(super) outcome: Outcome,
}

impl Demo {
    pub(super) fn table(&self, name: &str) -> Vec<std::collections::BTreeMap<String, String>> {
        table(&self.folder.join(format!("tables/{name}.csv")))
    }
}

/// One run of the demo, from the root of the repository as the README says.
pub(super) static DEMO: LazyLock<Demo> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("demo");
    let out = folder.to_str().expect("UTF-8");
    let outcome = calefact(&root(), &["run", "pipelines/hill-nursery.toml", "--out", out]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    Demo { folder, outcome }
});

#[test]
fn the_report_carries_the_banner_of_invented_data() {
    let page = std::fs::read_to_string(DEMO.folder.join("report.html")).expect("a report");
    let banner = "<p class=\"invented\"><strong>Invented data.</strong>";
    assert_eq!(page.matches(banner).count(), 1, "the banner is missing");
}

#[test]
fn the_report_needs_nothing_else() {
    let page = std::fs::read_to_string(DEMO.folder.join("report.html")).expect("a report");
    for part in ["src=", "srcset=", "fetch(", "import(", "XMLHttpRequest", "<link", "<iframe", "@import"] {
        assert!(!page.contains(part), "`{part}` is on the page");
    }
    // Addresses in styles and charts are fragments of the page itself.
    assert_eq!(page.matches("url(").count(), page.matches("url(#").count());
    assert!(page.contains("<svg"), "no chart is on the page");
}

/// Every estimate has its interval, and the interval holds the value.
#[test]
fn no_number_without_its_interval() {
    let estimates = DEMO.table("estimates");
    assert!(estimates.len() > 900, "{} estimates", estimates.len());
    for row in estimates {
        let number = |key: &str| row[key].parse::<f64>().unwrap_or_else(|_| panic!("{key} of {row:?}"));
        let (lower, value, upper) = (number("lower"), number("value"), number("upper"));
        assert!(lower <= value && value <= upper, "{row:?}");
        assert!(lower < upper || number("std_uncertainty") == 0.0, "{row:?}");
        assert!(!row["method"].is_empty(), "{row:?}");
    }
}

/// The picture of the README is the one the demo makes.
#[test]
fn the_picture_in_the_readme_is_current() {
    let made = std::fs::read(DEMO.folder.join("charts/efficiency-stove.svg")).expect("a chart");
    let shown = std::fs::read(root().join("reports/hill-nursery-efficiency.svg")).expect("the picture");
    assert!(made == shown, "make it again: see DEVELOPERS.md");
}

/// The demo's pipeline file gives every key with its default: without its settings and outputs the numbers are the same.
#[test]
fn the_demo_pipeline_shows_the_defaults() {
    let text = std::fs::read_to_string(root().join("pipelines/hill-nursery.toml")).expect("the pipeline file");
    let (before, settings) = text.split_once("[settings]").expect("settings");
    let (_, rest) = settings.split_once("[reference_job]").expect("a reference job");
    let (comparisons, _) = rest.split_once("[outputs]").expect("outputs");
    let dataset = root().join("datasets/hill-nursery");
    let bare = format!("{before}[reference_job]{comparisons}");
    let w = Workspace::new();
    w.write("bare.toml", bare.replace("../datasets/hill-nursery", dataset.to_str().expect("UTF-8")));
    let outcome = calefact(w.path(), &["run", "bare.toml", "--out", "out"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    for name in ["estimates", "groups", "contrasts", "trends", "budget", "balance", "balance_groups"] {
        assert!(table(&w.join(&format!("out/tables/{name}.csv"))) == DEMO.table(name), "{name} differs");
    }
}
