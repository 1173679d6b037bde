//! Readable but absurd numbers: results that can hardly be right are named with their likely cause and its place, and no
//! number on page, terminal or tables is longer than a float.

use super::{Outcome, run};
use calefact_tests::{TinyDataset, Workspace};

/// Runs a dataset; gives its findings of a code.
fn findings(data: &TinyDataset, code: &str) -> (Outcome, String) {
    let w = Workspace::new();
    data.write(&w);
    let outcome = run(&w);
    let found: Vec<&str> = outcome.stderr.split("\n\n").filter(|part| part.contains(code)).collect();
    let found = found.join("\n\n");
    (outcome, found)
}

#[test]
fn kilograms_under_a_header_of_tonnes() {
    let data =
        TinyDataset::new().with("fuel_mass [kg]", "fuel_mass [t]").with("kindling_mass [kg]", "kindling_mass [t]");
    let (outcome, found) = findings(&data, "out-of-range");
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert!(found.contains("`fuel_mass` is 5600 kg; it must be from 0 to 2000 kg"), "{found}");
}

/// Somebody may burn 154 kg of wood, but not to warm 120 L of water.
#[test]
fn a_slip_in_the_weight_of_the_wood() {
    let (outcome, found) = findings(&TinyDataset::new().with("drum,120,5.4", "drum,120,154"), "implausible-result");
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    insta::assert_snapshot!(found);
}

#[test]
fn minutes_under_a_header_of_seconds() {
    let log = "elapsed [s],tank [degC]\n0,10\n12,17\n24,24.5\n36,32.5\n48,39.5\n";
    let (outcome, found) = findings(&TinyDataset::new().with_log("logs/b2.csv", log), "implausible-result");
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    insta::assert_snapshot!(found);
}

#[test]
fn char_worth_nearly_all_of_the_wood() {
    let (outcome, found) = findings(&TinyDataset::new().with("0.3,0,0.12", "0.3,0,2.9"), "char-energy");
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    insta::assert_snapshot!(found);
}

/// Numbers that a float can hold and nobody can mean, in every column that takes one.
#[test]
fn numbers_of_sixty_digits_are_shown_nowhere() {
    let changes = [
        ("drum,120,5.4", "drum,120,1e300"),
        ("drum,120,4.1", "drum,1e60,4.1"),
        ("drum,120,5.6", "drum,120,5.6e-300"),
        ("11 kg", "1e300 kg"),
        ("4 W/K", "1e60 W/K"),
        ("300 m", "1e60 m"),
        ("1 % of reading", "1e300 % of reading"),
        ("wet,0.3,0,0.05,11", "wet,0.3,1e200,0.05,1e40"),
        ("36,39.5", "36,1e307"),
    ];
    let each = changes.iter().map(|(from, to)| TinyDataset::new().with(from, to));
    let all = changes.iter().fold(TinyDataset::new(), |data, (from, to)| data.with(from, to));
    for data in each.chain([all]) {
        let w = Workspace::new();
        data.write(&w);
        let outcome = run(&w);
        let page = String::from_utf8(w.files("out").remove("report.html").unwrap_or_default()).expect("UTF-8");
        for text in [visible(&page), visible_svg(&page), outcome.stderr] {
            assert_readable(&text);
        }
        for (name, bytes) in w.files("out/tables") {
            let text = String::from_utf8(bytes).expect("UTF-8");
            let cells = text.split([',', '\n']);
            cells.for_each(|c| assert!(!matches!(c, "NaN" | "inf" | "-inf"), "{name} has a cell {c}"));
        }
    }
}

/// The text of a page without its styles, scripts and tags.
fn visible(page: &str) -> String {
    let body = page.split_once("<body").map_or(page, |(_, body)| body);
    let pieces = body.split("<script").map(|piece| piece.split_once("</script>").map_or(piece, |(_, after)| after));
    let without_scripts: String = pieces.collect();
    without_scripts
        .split('<')
        .filter_map(|part| part.split_once('>'))
        .map(|(_, text)| text)
        .collect::<Vec<_>>()
        .join("\n")
}

/// The coordinates of the charts.
fn visible_svg(page: &str) -> String {
    let charts = page.split("<svg").skip(1).filter_map(|part| part.split_once("</svg>"));
    charts.map(|(chart, _)| chart).collect::<Vec<_>>().join("\n")
}

fn assert_readable(text: &str) {
    for word in text.split(|c: char| c.is_whitespace() && c != '\u{202f}') {
        let digits = word.split(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | '\u{202f}'));
        let longest = digits.map(|number| number.chars().filter(char::is_ascii_digit).count()).max();
        assert!(longest.unwrap_or(0) <= 20, "a number of {longest:?} digits in {word}");
        assert!(!["NaN", "inf", "-inf", "infinity"].contains(&word), "{word} in {text}");
        assert!(!word.contains("NaN"), "{word}");
    }
}
