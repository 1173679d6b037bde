//! Tables that are hardly tables: encodings, separators, quotes, ragged rows, and times that cannot be.

use crate::case::Case;
use calefact_tests::{TinyDataset, Workspace};
use std::fs;

const LOG: &str = "logs/b2.csv";
const HEADER: &str = "elapsed [min],tank [degC]\n";
const ROWS: &str = "0,10\n12,17\n24,24.5\n36,32.5\n48,39.5\n";

/// Logs and registers in such a text.
pub(crate) fn cases() -> Vec<Case> {
    [encodings(), separators(), quotes(), ragged(), times()].into_iter().flatten().collect()
}

/// Log `b2` with a text.
fn log(name: &'static str, text: &str, code: i32, finding: &'static str) -> Case {
    Case::new(name, TinyDataset::new().with_log(LOG, text), code, finding)
}

/// Bytes in the place of log `b2`.
fn bytes(name: &'static str, disk: fn(&Workspace), code: i32, finding: &'static str) -> Case {
    Case::new(name, TinyDataset::new(), code, finding).on_disk(disk)
}

fn put(w: &Workspace, bytes: &[u8]) {
    fs::write(w.join("data/logs/b2.csv"), bytes).expect("a log");
}

fn utf16(text: &str, is_little: bool, has_mark: bool) -> Vec<u8> {
    let units = has_mark.then_some(0xfeff).into_iter().chain(text.encode_utf16());
    units.flat_map(|unit| if is_little { unit.to_le_bytes() } else { unit.to_be_bytes() }).collect()
}

fn encodings() -> Vec<Case> {
    vec![
        bytes("utf-16-little", |w| put(w, &utf16(&format!("{HEADER}{ROWS}"), true, true)), 0, ""),
        bytes("utf-16-big", |w| put(w, &utf16(&format!("{HEADER}{ROWS}"), false, true)), 0, ""),
        bytes("utf-16-without-mark", |w| put(w, &utf16(&format!("{HEADER}{ROWS}"), true, false)), 0, ""),
        bytes(
            "utf-16-half-a-character",
            |w| {
                let mut text = utf16(&format!("{HEADER}{ROWS}"), true, true);
                text.pop();
                put(w, &text);
            },
            0,
            "",
        ),
        bytes("windows-1252", |w| put(w, b"elapsed [min],tank [\xb0C]\n0,10\n12,17\n24,24.5\n"), 0, ""),
        bytes("utf-8-with-mark", |w| put(w, format!("\u{feff}{HEADER}{ROWS}").as_bytes()), 0, ""),
        bytes("utf-8-two-marks", |w| put(w, format!("\u{feff}\u{feff}{HEADER}{ROWS}").as_bytes()), 1, "time-missing"),
        bytes("not-utf-8", |w| put(w, b"elapsed [min],tank [degC]\n0,10\n12,\xff\xfe\xfd\n24,24.5\n36,30\n"), 0, ""),
        bytes("zero-bytes", |w| put(w, &[0; 4096]), 1, "error "),
        bytes(
            "zero-bytes-inside",
            |w| put(w, b"elapsed [min],tank [degC]\n0,10\n1\x002,17\n24,24.5\n36,30\n"),
            0,
            "time-unreadable",
        ),
        bytes("zip", |w| put(w, b"PK\x03\x04\x14\x00\x06\x00\x08\x00"), 1, "error "),
        bytes("png", |w| put(w, b"\x89PNG\r\n\x1a\n\x00\x00"), 1, "error "),
        bytes("parquet", |w| put(w, b"PAR1\x15\x04\x15\x00PAR1"), 1, "error "),
        bytes("gzip", |w| put(w, b"\x1f\x8b\x08\x00\x00\x00\x00\x00"), 1, "error "),
    ]
}

fn separators() -> Vec<Case> {
    let rows = |sep: &str, decimal: &str| format!("{HEADER}{ROWS}").replace(',', sep).replace('.', decimal);
    vec![
        log("semicolons-and-decimal-commas", &rows(";", ","), 0, ""),
        log("tabs", &rows("\t", "."), 0, ""),
        log("bars", &rows("|", "."), 0, ""),
        log("carriage-returns-alone", &format!("{HEADER}{ROWS}").replace('\n', "\r"), 0, ""),
        log("carriage-returns-and-line-feeds", &format!("{HEADER}{ROWS}").replace('\n', "\r\n"), 0, ""),
        log("mixed-line-ends", "elapsed [min],tank [degC]\r0,10\n12,17\r\n24,24.5\n", 1, "tank-missing"),
        log("no-last-line-end", &format!("{HEADER}{ROWS}48,39.5").replacen("48,39.5\n", "", 1), 0, ""),
        log("spaces-around-all", &format!("{HEADER}{ROWS}").replace(',', "  ,  "), 0, ""),
        log(
            "decimal-commas-among-commas",
            "elapsed [min],tank [degC]\n0,10,5\n12,17,5\n24,24,5\n",
            1,
            "too-many-cells",
        ),
        log("thousands", "elapsed [s];tank [degC]\n0;10\n1.000;17\n2.000;24\n3.000;30\n", 1, "ambiguous-number"),
        log("minus-of-typography", "elapsed [min],tank [degC]\n0,\u{2212}1\n12,17\n24,24.5\n", 0, ""),
        log("full-width-digits", "elapsed [min],tank [degC]\n０,１０\n１２,１７\n２４,２４\n", 1, "error "),
        log("arabic-digits", "elapsed [min],tank [degC]\n٠,١٠\n١٢,١٧\n", 1, "error "),
        log("hexadecimal", "elapsed [min],tank [degC]\n0x0,0xA\n0xC,0x11\n", 1, "error "),
        log("underscores", "elapsed [min],tank [degC]\n0,1_0\n12,1_7\n24,2_4\n", 1, "not-a-number"),
    ]
}

fn quotes() -> Vec<Case> {
    vec![
        log("quote-open-to-the-end", "elapsed [min],tank [degC]\n0,\"10\n12,17\n24,24.5\n", 1, "quote-open"),
        log(
            "quotes-around-all",
            "\"elapsed [min]\",\"tank [degC]\"\n\"0\",\"10\"\n\"12\",\"17\"\n\"24\",\"24\"\n",
            0,
            "",
        ),
        log("quotes-doubled", "elapsed [min],tank [degC],note\n0,10,\"a \"\"b\"\"\"\n12,17,\n24,24,\n", 0, ""),
        log("quote-in-a-cell", "elapsed [min],tank [degC],note\n0,10,5\" tube\n12,17,\n24,24,\n", 0, ""),
        log("single-quotes", "elapsed [min],tank [degC]\n'0','10'\n'12','17'\n'24','24'\n", 1, "error "),
        log("line-end-in-a-note", "elapsed [min],tank [degC],note\n0,10,\"a\nb\"\n12,17,\n24,24,\n", 0, ""),
    ]
}

fn ragged() -> Vec<Case> {
    vec![
        log("header-alone", HEADER, 1, "too-few-readings"),
        log("header-twice", &format!("{HEADER}{HEADER}{ROWS}"), 0, ""),
        log("only-line-ends", "\n\n\n\n", 1, "log-empty"),
        log("only-separators", ",,,\n,,,\n", 1, "error "),
        log("rows-without-tank", "elapsed [min],tank [degC]\n0\n12\n24\n", 1, "too-few-readings"),
        log("rows-too-long", "elapsed [min],tank [degC]\n0,10,1,2,3\n12,17,1,2,3\n", 1, "too-many-cells"),
        log("one-reading", "elapsed [min],tank [degC]\n0,10\n", 1, "too-few-readings"),
        log(
            "column-twice",
            "elapsed [min],tank [degC],tank [degC]\n0,10,11\n12,17,18\n24,24,25\n",
            1,
            "duplicate-column",
        ),
        log("no-time", "tank [degC]\n10\n17\n24\n", 1, "time-missing"),
        log("no-tank", "elapsed [min],air\n0,10\n12,17\n", 1, "tank-missing"),
        log("no-header", ROWS, 1, "time-missing"),
        log("preamble-of-hundred-lines", &format!("{}{HEADER}{ROWS}", "logger 7\n".repeat(100)), 1, "error "),
        log("preamble", &format!("logger 7\nserial 12;34\n\n{HEADER}{ROWS}"), 0, ""),
    ]
}

fn times() -> Vec<Case> {
    let clock = |rows: &str| format!("clock,tank [degC]\n{rows}");
    vec![
        log("clock-unreadable", &clock("noon,10\nhalf past,17\nlate,24\n"), 1, "time-unreadable"),
        log("clock-beyond-the-day", &clock("23:59,10\n24:01,17\n25:00,24\n"), 1, "error "),
        log("clock-over-midnight", &clock("23:30,10\n23:50,17\n00:10,24\n00:30,31\n"), 0, ""),
        log("clock-backwards", &clock("10:30,10\n10:20,17\n10:40,24\n"), 1, "time-backwards"),
        log("clock-of-all-forms", &clock("10:00,10\n2026-03-28T10:12,17\n10:24 am,24\n"), 1, "error "),
        log("date-thirtieth-of-february", &clock("2026-02-30 10:00,10\n2026-02-30 10:12,17\n"), 1, "error "),
        log("year-0", &clock("0000-01-01 10:00,10\n0000-01-01 10:12,17\n0000-01-01 10:24,24\n"), 0, ""),
        log("year-99999", &clock("99999-01-01 10:00,10\n99999-01-01 10:12,17\n"), 1, "error "),
        log("leap-second", &clock("2016-12-31 23:59:60,10\n2017-01-01 00:10:00,17\n2017-01-01 00:20:00,24\n"), 0, ""),
        log("elapsed-negative", "elapsed [min],tank [degC]\n-24,10\n-12,17\n0,24\n", 0, ""),
        log("elapsed-backwards", "elapsed [min],tank [degC]\n0,10\n24,17\n12,24\n", 1, "time-backwards"),
        log("elapsed-not-a-number", "elapsed [min],tank [degC]\nNaN,10\ninf,17\n-inf,24\n", 1, "error "),
    ]
}
