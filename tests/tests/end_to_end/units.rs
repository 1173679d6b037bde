//! The units and the digits that a reader sees.

use super::demo::DEMO;
use super::{Outcome, calefact};
use calefact_tests::{TinyDataset, Workspace, root};
use std::path::Path;

/// Metric units, which no reader of United States units should meet.
const METRIC: [&str; 13] = ["°C", "degC", "kg", "kJ", "MJ", " kW ", "W/K", "W/(", "K/min", "g/s", " L ", "mm", " K of"];

/// The text of a page that is read: no style, no tag, no link target, nothing quoted from a file.
fn words_of(page: &str) -> String {
    let body = page.split_once("</style>").expect("a style").1;
    let body =
        body.split("<script").map(|p| p.split_once("</script>").map_or(p, |(_, after)| after)).collect::<String>();
    // Text to type stands as code, in the units of the file.
    let body: String = body.split("<code>").map(|p| p.split_once("</code>").map_or(p, |(_, after)| after)).collect();
    let text: Vec<&str> = body.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| text).collect();
    unquoted(&text.join(" ").replace('\u{a0}', " "), '“', '”')
}

/// A text without the parts that quote a file.
fn unquoted(text: &str, open: char, close: char) -> String {
    let mut kept = String::new();
    let mut rest = text;
    while let Some((before, quoted)) = rest.split_once(open) {
        kept.push_str(before);
        rest = quoted.split_once(close).map_or("", |(_, after)| after);
    }
    kept + rest
}

fn in_united_states_units(folder: &Path, pipeline: &str, out: &Path) -> Outcome {
    calefact(folder, &["run", pipeline, "--units", "us", "--out", out.to_str().expect("UTF-8")])
}

fn assert_no_metric_unit(what: &str, text: &str) {
    for unit in METRIC {
        let at = text.find(unit);
        let near =
            |at: usize| text[..at].chars().rev().take(80).collect::<Vec<_>>().into_iter().rev().collect::<String>();
        assert!(at.is_none(), "`{unit}` in {what}, after: {}", near(at.unwrap_or_default()));
    }
}

fn assert_united_states_units(outcome: &Outcome, out: &Path) {
    let page = std::fs::read_to_string(out.join("report.html")).expect("a report");
    let words = words_of(&page);
    assert!(["°F", "Btu", "lb"].iter().all(|unit| words.contains(unit)), "{words}");
    assert_no_metric_unit("the page", &words);
    assert_no_metric_unit("standard error", &unquoted(&outcome.stderr, '`', '`'));
    assert_no_metric_unit("standard output", &unquoted(&outcome.stdout, '`', '`'));
}

#[test]
fn the_demo_in_united_states_units() {
    let w = Workspace::new();
    let out = w.join("out");
    let outcome = in_united_states_units(&root(), "pipelines/hill-nursery.toml", &out);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert_united_states_units(&outcome, &out);
}

/// Errors of the data, a window, a target and numeric columns as factors.
#[test]
fn a_small_dataset_with_errors_in_united_states_units() {
    let w = Workspace::new();
    let further = "[[comparison]]\nfactor = \"ambient\"\n[[comparison]]\nfactor = \"water\"\n";
    let settings = "[settings]\nwindow = { from = \"20 degC\", to = \"45 degC\" }\nend = { target = \"45 degC\" }\n";
    let data = TinyDataset::new()
        .with("[[comparison]]", &format!("{settings}\n{further}[[comparison]]"))
        .with(
            "b2,burn,logs/b2.csv,box,spruce,drum,120,5.4,17,wet,0.3,0,",
            "b2,burn,logs/b2.csv,box,spruce,drum,120,5.4,17,wet,0.3,7,",
        )
        .with("36,41.5\n48,50.5", "36,101.5\n48,104.5");
    data.write(&w);
    let outcome = in_united_states_units(w.path(), "pipeline.toml", &w.join("out"));
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert_united_states_units(&outcome, &w.join("out"));
}

/// Six places are more than any instrument here deserves; a number with seven has been forgotten by the rounding.
#[test]
fn no_number_on_the_page_has_seven_places() {
    let page = std::fs::read_to_string(DEMO.folder.join("report.html")).expect("a report");
    let words = words_of(&page);
    for (at, _) in words.match_indices('.') {
        let places = words[at + 1..].bytes().take_while(u8::is_ascii_digit).count();
        assert!(places < 7, "{}", &words[at.saturating_sub(5)..=at + places]);
    }
}
