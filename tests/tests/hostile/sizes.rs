//! Things beyond all measure: columns, names, headers, slips, trials, levels. Each is bounded, and so is what is said of it.
#![expect(
    clippy::format_collect,
    clippy::format_push_string,
    reason = "a text made once for a test may be made slowly"
)]

use crate::case::Case;
use calefact_tests::TinyDataset;

const LOG: &str = "logs/b2.csv";

/// Datasets of such a size.
pub(crate) fn cases() -> Vec<Case> {
    [logs(), registers(), descriptions(), designs()].into_iter().flatten().collect()
}

fn million(letter: &str) -> String {
    letter.repeat(1_000_000)
}

fn logs() -> Vec<Case> {
    let log = |name, text: &str, code, finding| Case::new(name, TinyDataset::new().with_log(LOG, text), code, finding);
    let columns = |cell: &str| format!(",{cell}").repeat(20_000);
    let wide = format!(
        "elapsed [min],tank [degC]{}\n0,10{}\n12,17{}\n24,24{}\n",
        columns("x"),
        columns("1"),
        columns("1"),
        columns("1")
    );
    let foreign: String = (0..200_000).map(|i| format!("z{i},0,10\n")).collect();
    let own = "b2,0,10\nb2,12,17\nb2,24,24.5\n";
    vec![
        log("log-of-20000-columns", &wide, 0, ""),
        log(
            "log-of-200000-foreign-trials",
            &format!("trial,elapsed [min],tank [degC]\n{foreign}{own}"),
            0,
            "199980 more",
        ),
        log(
            "header-of-a-million",
            &format!("elapsed [min],tank [degC],{}\n0,10,1\n12,17,1\n24,24,1\n", million("h")),
            0,
            "",
        ),
        log("unit-of-a-million", &format!("elapsed [min],tank [{}]\n0,10\n12,17\n", million("h")), 1, "unknown-unit"),
        log(
            "cell-of-a-million",
            &format!("elapsed [min],tank [degC]\n0,10\n12,{}\n24,24\n36,30\n", million("9")),
            0,
            "",
        ),
        log(
            "time-of-a-million",
            &format!("elapsed [min],tank [degC]\n0,10\n{},17\n24,24\n36,30\n", million("1")),
            0,
            "time-unreadable",
        ),
        log(
            "note-of-a-million",
            &format!("elapsed [min],tank [degC],note\n0,10,{}\n12,17,\n24,24,\n", million("n ")),
            0,
            "",
        ),
        log(
            "rows-without-number-200000",
            &format!("elapsed [min],tank [degC]\n{}", "x,y\n".repeat(200_000)),
            1,
            "error ",
        ),
        log("headers-20000", &"elapsed [min],tank [degC]\n0,10\n".repeat(20_000), 1, "error "),
    ]
}

fn registers() -> Vec<Case> {
    let changed =
        |name, from: &str, to: &str, code, finding| Case::new(name, TinyDataset::new().with(from, to), code, finding);
    let mut wide = TinyDataset::new();
    wide.register = wide.register.lines().map(|row| format!("{row}{}\n", ",x".repeat(20_000))).collect();
    let mut shared = TinyDataset::new();
    let rows: String =
        (0..3000).map(|i| format!("s{i},burn,logs/b1.csv,box,spruce,drum,120,5.6,18,wet,0.3,0,0.1,9\n")).collect();
    shared.register += &rows;
    vec![
        Case::new("register-of-20000-columns", wide, 1, "too-many-columns"),
        Case::new("one-log-for-3000-trials", shared, 1, "trial-column-missing"),
        changed("trial-of-a-million", "\nb2,burn", &format!("\n{},burn", million("b")), 0, ""),
        changed(
            "stove-of-a-million",
            "box,spruce,drum,120,5.4",
            &format!("{},spruce,drum,120,5.4", million("s")),
            1,
            "unknown-id",
        ),
        changed("water-of-a-million", "drum,120,5.4", &format!("drum,{},5.4", million("1")), 1, "not-a-quantity"),
        changed("path-of-a-million", "logs/b2.csv,box", &format!("{},box", million("p")), 1, "log-unreadable"),
        changed("header-of-a-million-in-the-register", "ambient [degC]", &million("a"), 0, ""),
        changed(
            "header-unit-of-a-million",
            "ambient [degC]",
            &format!("ambient [{}]", million("a")),
            1,
            "unknown-unit",
        ),
    ]
}

fn descriptions() -> Vec<Case> {
    let changed =
        |name, from: &str, to: &str, code, finding| Case::new(name, TinyDataset::new().with(from, to), code, finding);
    let slips = |n: usize| (0..n).map(|i| format!("k{i} = 1\n")).collect::<String>();
    let on_one_line: String = (0..20_000).map(|i| format!("k{i} = 1, ")).collect();
    let fuels: String = (0..20_000).map(|i| format!("[fuels.f{i}]\nname = \"F\"\nclas = \"x\"\n")).collect();
    vec![
        changed("slips-20000", "[site]", &format!("[site]\n{}", slips(20_000)), 1, "unknown-key"),
        changed(
            "slips-20000-on-a-line",
            "[site]",
            &format!("long = {{ {on_one_line}z = 1 }}\n[site]"),
            1,
            "unknown-key",
        ),
        changed(
            "slips-20000-in-the-pipeline",
            "[[comparison]]",
            &format!("{}[[comparison]]", slips(20_000)),
            2,
            "unknown-key",
        ),
        changed("fuels-20000", "[vessels.drum]", &format!("{fuels}[vessels.drum]"), 1, "unknown-key"),
        changed("name-of-a-million", "\"Box stove\"", &format!("\"{}\"", million("S")), 0, ""),
        changed("volume-of-a-million-digits", "\"120 L\"", &format!("\"{} L\"", million("1")), 1, "error "),
        changed("volume-unit-of-a-million", "\"120 L\"", &format!("\"120 {}\"", million("L")), 1, "unknown-unit"),
        changed("key-of-a-million", "invented = true", &format!("{} = 1", million("k")), 1, "unknown-key"),
        changed(
            "brackets-100000",
            "invented = true",
            &format!("a = {}1{}", "[".repeat(100_000), "]".repeat(100_000)),
            1,
            "error ",
        ),
        changed("factor-of-a-million", "factor = \"stove\"", &format!("factor = \"{}\"", million("f")), 2, "error "),
        changed("title-of-a-million", "\"Four burns\"", &format!("\"{}\"", million("t")), 0, ""),
    ]
}

/// A comparison of many levels, each with some trials of equal logs.
fn levels(name: &'static str, count: usize, comparison: &str, finding: &'static str) -> Case {
    let mut data = TinyDataset::new().with("factor = \"stove\"", &format!("factor = \"damper\"\n{comparison}"));
    data.register =
        data.register.lines().next().map(|header| format!("{header},damper,operator\n")).unwrap_or_default();
    let logs = std::mem::take(&mut data.logs);
    for i in 0..2 * count {
        let (level, mass) = (i / 2, 5.0 + 0.1 * ((i * 7 % 11) as f64));
        data.register += &format!(
            "t{i},burn,logs/t{i}.csv,box,spruce,drum,120,{mass:.1},18,wet,0.3,0,0.1,9,d{level},o{}\n",
            i * 3 % 4
        );
        let log = logs[i % 2].1.clone();
        data.logs.push((format!("logs/t{i}.csv"), log));
    }
    Case::new(name, data, 0, finding).args(&["check", "pipeline.toml"])
}

fn designs() -> Vec<Case> {
    vec![
        levels("levels-13", 13, "", "many-levels"),
        levels("levels-50", 50, "", "many-levels"),
        levels("levels-50-adjusted", 50, "adjust = [\"operator\"]", "many-levels"),
        levels("levels-61", 61, "", "too-many-levels"),
        levels("levels-300-adjusted", 300, "adjust = [\"operator\"]", "too-many-levels"),
    ]
}
