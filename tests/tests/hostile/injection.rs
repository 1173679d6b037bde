//! Names that a terminal, a page, a picture or a spreadsheet must not obey.

use crate::case::Case;
use calefact_tests::TinyDataset;

/// Names with power.
pub(crate) fn cases() -> Vec<Case> {
    [terminal(), markup(), formulas()].into_iter().flatten().collect()
}

/// A stove named so that a terminal would obey.
fn stove(name: &str) -> TinyDataset {
    TinyDataset::new().with("name = \"Box stove\"", &format!("name = \"{name}\""))
}

/// A level of a further column of the register.
fn level(level: &str) -> TinyDataset {
    further_column("damper", level)
}

fn further_column(column: &str, level: &str) -> TinyDataset {
    let mut data = TinyDataset::new().with("factor = \"stove\"", &format!("factor = '{column}'"));
    let levels = [column, level, level, "shut", "shut"];
    let rows: Vec<String> = data.register.lines().zip(levels).map(|(row, level)| format!("{row},{level}")).collect();
    data.register = rows.join("\n") + "\n";
    data
}

/// Trial `b2` by another id.
fn trial(id: &str) -> TinyDataset {
    TinyDataset::new().with("\nb2,burn", &format!("\n{id},burn"))
}

fn terminal() -> Vec<Case> {
    let sound = |name, data| Case::new(name, data, 0, "");
    vec![
        sound("escape-in-a-name", stove("\\u001b[31mBox\\u001b[0m")),
        sound("bell-in-a-name", stove("Box\\u0007")),
        sound("title-of-the-terminal-in-a-name", stove("\\u001b]0;owned\\u0007Box")),
        sound("c1-in-a-name", stove("\\u009b31mBox")),
        sound("delete-in-a-name", stove("Box\\u007f\\u007f\\u007f")),
        sound("override-in-a-name", stove("\\u202exob\\u2066")),
        sound("line-end-in-a-name", stove("Box\\nerror fake-code: trial b1")),
        sound("no-character-in-a-name", stove("Box\\uffff")),
        sound("escape-in-a-title", TinyDataset::new().with("\"Four burns\"", "\"\\u001b[2JFour\"")),
        sound("escape-in-a-level", level("\u{1b}[2Jopen")),
        sound("c1-in-a-level", level("\u{9b}2Jopen")),
        sound("override-in-a-level", level("\u{202e}nepo")),
        sound("level-not-a-number", level("NaN")),
        sound("level-infinite", level("inf")),
        sound("escape-in-a-trial", trial("b\u{1b}[2J2")),
        sound("override-in-a-trial", trial("b\u{202e}2")),
        Case::new(
            "escape-in-a-log",
            TinyDataset::new().with("logs/b2.csv,box", "logs/\u{1b}[2J.csv,box"),
            1,
            "log-unreadable",
        ),
        Case::new("escape-in-a-header", TinyDataset::new().with("ambient [degC]", "ambi\u{1b}[2Jent [degC]"), 0, ""),
        sound("escape-in-the-output", TinyDataset::new()).args(&[
            "run",
            "pipeline.toml",
            "--out",
            "o\u{1b}[2J\u{202e}",
        ]),
        sound("check-says-it-on-standard-output", level("\u{1b}[2Jopen")).args(&["check", "pipeline.toml", "--csv"]),
    ]
}

fn markup() -> Vec<Case> {
    let sound = |name, data| Case::new(name, data, 0, "");
    vec![
        sound("markup-in-a-name", stove("<script>alert(1)</script>")),
        sound("end-of-a-picture-in-a-name", stove("</text></svg><script>alert(1)</script>")),
        sound("markup-in-a-level", level("<script>alert(1)</script>")),
        sound("entity-in-a-level", level("&lt;&#x1b;]]>")),
        sound("attribute-in-a-trial", trial("\"b2\"\" onload=\"\"alert(1)\"")),
        sound(
            "trials-alike-but-for-a-sign",
            trial("r 1").with("\nr1,burn", "\nr/1,burn").with("\nr2,burn", "\nr-1,burn"),
        ),
    ]
}

fn formulas() -> Vec<Case> {
    let sound = |name, data| Case::new(name, data, 0, "");
    vec![
        sound("formula-in-a-level", level("=cmd|' /C calc'!A0")),
        sound("sum-in-a-level", level("@SUM(1+1)*cmd|' /C calc'!A0")),
        sound("plus-in-a-level", level("+1+1")),
        sound("minus-in-a-level", level("-2+3+cmd|' /C calc'!A0")),
        sound("formula-in-a-trial", trial("=1+1")),
        sound("formula-in-a-name", stove("=1+1")),
        sound("formula-in-a-column", further_column("=1+1", "open")),
        sound("formula-in-a-unit", TinyDataset::new().with("tank [degC]\n0,10", "tank [degC]\n0,=1+1")),
        sound("check-gives-no-formula", trial("=1+1")).args(&["check", "pipeline.toml", "--csv"]),
    ]
}
