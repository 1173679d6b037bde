//! Every sentence about a log, from its fact.

use super::message;
use crate::words::Wording;
use calefact_data::Channel;
use calefact_data::fact::{AssumedUnit, Log, ReadFailure};
use calefact_units::{Kind, Unit};

/// The messages on some facts, as the terminal shows them.
fn messages(facts: &[Log]) -> String {
    let line = |fact: &Log| {
        let message = message(&Wording::plain(), fact);
        let more = [("done", message.action), ("hint", message.hint)];
        let more = more.into_iter().filter_map(|(word, text)| text.map(|t| format!("\n  {word}: {t}")));
        format!("{}: {}{}\n", fact.code(), message.text, more.collect::<String>())
    };
    facts.iter().map(line).collect()
}

fn texts(texts: &[&str]) -> Vec<String> {
    texts.iter().map(|&t| t.to_owned()).collect()
}

#[test]
fn files() {
    let unreadable = |failure| Log::Unreadable { log: "logs/b9.csv".into(), failure };
    insta::assert_snapshot!(messages(&[
        unreadable(ReadFailure::NotFound),
        unreadable(ReadFailure::Folder),
        unreadable(ReadFailure::PermissionDenied),
        Log::Unregistered { beside_register: true },
        Log::Empty,
    ]), @"");
}

#[test]
fn headers() {
    let headers = || texts(&["t", "Barrel"]);
    insta::assert_snapshot!(messages(&[
        Log::HeaderMissing(headers()),
        Log::TimeMissing(headers()),
        Log::TankMissing(headers()),
        Log::ColumnIgnored { header: "ambeint".into(), nearest: Some("ambient") },
        Log::ColumnIgnored { header: "battery".into(), nearest: None },
        Log::DuplicateColumn { header: "tank 2".into(), channel: Channel::Tank },
    ]), @"");
}

#[test]
fn units() {
    let error = Unit::parse("degX", Kind::Temperature).expect_err("no unit");
    let assumed = |header: &str, kind| AssumedUnit { header: header.into(), kind };
    insta::assert_snapshot!(messages(&[
        Log::UnitUnreadable { header: "tank [degX]".into(), error },
        Log::UnitMissing { header: "flow".into(), channel: Channel::Flow },
        Log::UnitMissing { header: "O2".into(), channel: Channel::FlueO2 },
        Log::UnitAssumed(vec![assumed("elapsed", Kind::Time), assumed("Barrel", Kind::Temperature)]),
        Log::UnitAssumed(vec![assumed("Barrel", Kind::Temperature)]),
    ]), @"");
}

#[test]
fn trials_and_rows() {
    insta::assert_snapshot!(messages(&[
        Log::TrialColumnMissing(texts(&["b1", "b2"])),
        Log::TrialUnregistered(texts(&["b8", "b9"])),
        Log::TrialNotInLog(texts(&["b8"])),
        Log::TooFewReadings { readings: 1, rows: 1, needed: 3 },
        Log::TooFewReadings { readings: 2, rows: 5, needed: 3 },
        Log::TooManyCells { cells: 3, header: 2 },
        Log::NotANumber { channel: Channel::CoilIn, cell: "2o".into() },
        Log::BlankCell(Channel::Tank),
    ]), @"");
}

#[test]
fn implausible_values() {
    let reads = |channel, value| Log::Implausible { channel, value };
    insta::assert_snapshot!(messages(&[
        reads(Channel::Tank, 2000.0),
        reads(Channel::Flow, -3.0),
        reads(Channel::FuelAdded, -0.5),
        reads(Channel::Power, 2.5e6),
        reads(Channel::FlueO2, 20.9),
    ]), @"");
}

#[test]
fn times() {
    let cell = || "0:20".to_owned();
    insta::assert_snapshot!(messages(&[
        Log::TimeBackwards { cell: cell(), by_s: 300.0, previous_line: 3 },
        Log::TimeRepeated { cell: cell(), previous_line: 3 },
        Log::TimeSkipped("02:10".into()),
        Log::TimeBlank,
        Log::TimeAmbiguous(cell()),
        Log::TimeUnreadable("ten past".into()),
        Log::DateMissing(None),
        Log::DateMissing(Some("28.3.2026".into())),
    ]), @"");
}
