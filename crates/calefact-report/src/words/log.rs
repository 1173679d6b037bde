//! Words for facts about logs, except their times.

use super::text::list;
use super::{Message, Wording, ambiguous, file, log_time, unit_error};
use calefact_data::Channel;
use calefact_data::fact::{AssumedUnit, Ids, Log, ReadFailure};
use calefact_data::finding::Severity;
use calefact_units::{Kind, UnitError};
use std::ops::RangeInclusive;
use std::path::Path;

/// The message on a fact. Errors stop the trial.
pub(super) fn message(w: &Wording<'_>, fact: &Log) -> Message {
    let message = match fact {
        Log::Unreadable { log, failure } => unreadable(w, log, failure),
        Log::Unregistered { .. } => unregistered(),
        Log::SheetsUnregistered(sheets) => unregistered_sheets(w, sheets),
        Log::SameBytes { first } => {
            Message::new(format!("the log is a copy of {}", w.quoted(&first.display().to_string())))
                .action("both read")
                .hint("if both are one burn, leave one of its trials out; if not, name the log of each in the register")
        }
        Log::HourSkipped { from_s, to_s } => log_time::hour_skipped(*from_s, *to_s),
        Log::TimeMixed { cell, form, above } => log_time::mixed(w, cell, *form, *above),
        Log::OtherUnit { unit, other, start, other_start, air } => {
            other_unit(w, [unit, other], [*start, *other_start, *air])
        }
        Log::Empty => Message::new("the log has no rows"),
        Log::HeaderMissing(headers) => no_column(w, "no row of the log names a time column and `tank`", headers),
        Log::TimeMissing(headers) => no_column(w, "the log has no time column, neither `elapsed` nor `clock`", headers),
        Log::TankMissing(headers) => no_column(w, "the log has no column `tank`", headers),
        Log::ColumnIgnored { header, nearest } => unknown_column(w, header, *nearest),
        Log::DuplicateColumn { headers, column, is_mapped } => {
            let line = if *column == "trial" {
                "`trial_column` under [logs]".to_owned()
            } else {
                format!("{} under [columns]", w.column(column))
            };
            file::two_columns(w, headers, column, is_mapped.then_some(line.as_str()))
        }
        Log::UnitUnreadable { header, error } => unit_unreadable(w, header, error),
        Log::UnitMissing { header, channel } => Message::new(format!("column {} has no unit", w.quoted(header)))
            .hint(unit_hint(w, header, channel.usual_unit())),
        Log::UnitAssumed(columns) => unit_assumed(w, columns),
        Log::TrialColumnMissing(trials) => no_trial_column(w, trials),
        Log::TrialUnregistered(trials) => unregistered_trials(w, trials),
        Log::TrialNotInLog(found) => {
            Message::new(format!("the log has no row of this trial; it holds {}", quoted_ids(w, found)))
        }
        Log::DateMissing(written) => log_time::date_missing(w, written.as_deref()),
        Log::TooFewReadings { readings, rows, needed } => too_few(*readings, *rows, *needed),
        Log::TooManyCells { cells, header } => too_many_cells(*cells, *header),
        Log::CellBesideTable => file::beside_table(),
        Log::SplitNumber { channel, written } => ambiguous::split(w, channel.name(), written),
        Log::TwoReadings { column, cell, readings } => ambiguous::number(w, column, cell, readings, "logs"),
        Log::TimesDisagree { elapsed_s, clock_s } => log_time::disagree(w, *elapsed_s, *clock_s),
        Log::TimeBackwards { cell, by_s, previous_line } => log_time::backwards(w, cell, *by_s, *previous_line),
        Log::RowsOverlap { rows, by_s } => log_time::overlap(w, *rows, *by_s),
        Log::TimeRepeated { cell, previous_line } => log_time::repeated(w, cell, *previous_line),
        Log::TimeSkipped(cell) => log_time::skipped(w, cell),
        Log::TimePastTwelve { cell, of_day_s } => log_time::past_twelve(w, cell, *of_day_s),
        Log::TimeTwoDates { cell, dates } => log_time::two_dates(w, cell, dates),
        Log::TimeWithoutUnit { header, cell } => log_time::without_unit(w, header, cell),
        Log::TimeBlank => Message::new("the row has no time").action("row left out"),
        Log::TimeAmbiguous(cell) => log_time::ambiguous(w, cell),
        Log::TimeUnreadable(cell) => log_time::unreadable(w, cell),
        Log::NotANumber { channel, cell } => not_a_number(w, *channel, cell),
        Log::BlankCell(channel) => {
            Message::new(format!("{} has no reading", w.column(channel.name()))).action("reading flagged")
        }
        Log::Impossible { channel, value } => {
            beyond(w, *channel, *value, &channel.limit().possible).action("value left out")
        }
        Log::Implausible { channel, value } => {
            beyond(w, *channel, *value, &channel.limit().plausible).action("value kept")
        }
    };
    let stops = fact.severity() == Severity::Error && message.action.is_none();
    if stops { message.action("trial left out") } else { message }
}

fn unreadable(w: &Wording<'_>, log: &Path, failure: &ReadFailure) -> Message {
    let hint = match failure {
        ReadFailure::NotFound => Some("the register's `log` is relative to the folder of the register".into()),
        ReadFailure::Folder | ReadFailure::NotAFile => Some("name a file under `log` in the register".into()),
        _ => file::hint(failure),
    };
    let log = w.quoted(&log.display().to_string());
    Message { hint, ..Message::new(format!("cannot read the log {log}: {}", file::reason(failure))) }
}

fn unregistered() -> Message {
    Message::new("no row of the register names this file")
        .action("file not read")
        .hint("add a row for it to the register, or move it elsewhere")
}

fn unregistered_sheets(w: &Wording<'_>, sheets: &[String]) -> Message {
    let word = if sheets.len() == 1 { "the sheet" } else { "the sheets" };
    Message::new(format!("no row of the register names {word} {}", quoted_list(w, sheets))).action("not read")
}

fn no_column(w: &Wording<'_>, text: &str, headers: &[String]) -> Message {
    if headers.is_empty() {
        return Message::new(text)
            .hint("write a row of headers, such as `elapsed [min],tank [degC]`, above the readings");
    }
    let found = quoted_list(w, headers);
    Message::new(text).hint(format!("headers found: {found}; map them under [columns] in dataset.toml"))
}

fn unknown_column(w: &Wording<'_>, header: &str, nearest: Option<&str>) -> Message {
    let message = Message::new(format!("unknown log column {}", w.quoted(header))).action("column left out");
    match nearest {
        Some(near) => message.hint(format!("if it is {}, map it under [columns] in dataset.toml", w.column(near))),
        None => message,
    }
}

fn unit_unreadable(w: &Wording<'_>, header: &str, error: &UnitError) -> Message {
    let message = Message::new(format!("column {}: {}", w.quoted(header), unit_error::text(w, error)));
    Message { hint: unit_error::hint(w, error), ..message }
}

fn unit_assumed(w: &Wording<'_>, columns: &[AssumedUnit]) -> Message {
    let headers: Vec<String> = columns.iter().map(|c| w.quoted(&c.header)).collect();
    let read = columns.iter().zip(&headers).map(|(c, header)| format!("{header} in {}", c.kind.si_symbol()));
    let message = Message::new(format!("no unit is stated for {}", list(&headers)));
    let message = message.action(format!("read {}", list(&read.collect::<Vec<_>>())));
    let hint = columns.first().map(|first| {
        // Seconds are read, but minutes are what a forgotten unit mostly is.
        let unit = if first.kind == Kind::Time { "min" } else { first.kind.si_symbol() };
        unit_hint(w, &first.header, unit)
    });
    Message { hint, ..message }
}

/// The unit of the tank and the other one; its start in each, and the air, degC.
fn other_unit(w: &Wording<'_>, [unit, other]: [&str; 2], temperatures: [f64; 3]) -> Message {
    let [start, other_start, air] = temperatures.map(|t| w.temperature(t, 0));
    let text =
        format!("`tank` starts at {start} in air of {air}; if its numbers are in {other}, it starts at {other_start}");
    let hint =
        format!("if they are, write `tank [{other}]` in the header, or the unit under [columns] in dataset.toml");
    Message::new(text).action(format!("read in {unit}")).hint(hint)
}

fn unit_hint(w: &Wording<'_>, header: &str, unit: &str) -> String {
    let example = w.quoted(&format!("{header} [{unit}]"));
    format!("write the unit in the header, as in {example}, or under [columns] in dataset.toml")
}

fn no_trial_column(w: &Wording<'_>, trials: &Ids) -> Message {
    let trials = quoted_ids(w, trials);
    Message::new(format!("the trials {trials} share this log, but none of its columns holds the trial id"))
        .action("trials left out")
        .hint(
            "set `trial_column` under [logs] in dataset.toml to the header of the column that holds the trial id, \
             or give each trial its own log",
        )
}

fn unregistered_trials(w: &Wording<'_>, trials: &Ids) -> Message {
    Message::new(format!("the log holds trials that are not in the register: {}", quoted_ids(w, trials)))
        .action("their rows left out")
        .hint("add a row for each to the register")
}

fn too_few(readings: usize, rows: usize, needed: usize) -> Message {
    let count = if readings == 1 { "1 reading".into() } else { format!("{readings} readings") };
    let rows = if readings == rows { String::new() } else { format!(" with a number for `tank` in {rows} rows") };
    Message::new(format!("the log has {count}{rows}; a trial needs at least {needed}"))
}

fn too_many_cells(cells: usize, header: usize) -> Message {
    Message::new(format!("the row has {cells} cells, but the header has {header}")).hint(
        "if the numbers have decimal commas, write semicolons between the cells, or decimal points in the numbers",
    )
}

fn not_a_number(w: &Wording<'_>, channel: Channel, cell: &str) -> Message {
    Message::new(format!("{} is not a number for {}", w.quoted(cell), w.column(channel.name())))
        .action("cell taken as blank, reading flagged")
}

fn beyond(w: &Wording<'_>, channel: Channel, value: f64, range: &RangeInclusive<f64>) -> Message {
    let [value, low, high] = [value, *range.start(), *range.end()].map(|v| measure(w, channel.kind(), v));
    Message::new(format!("{} reads {value}, outside {low} to {high}", w.column(channel.name())))
        .hint("check the unit of the column, the decimal sign and the probe")
}

/// A value in the reader's units.
fn measure(w: &Wording<'_>, kind: Kind, value: f64) -> String {
    match kind {
        Kind::Temperature => w.temperature(value, 0),
        Kind::MassFlow => w.flow(value),
        Kind::Power => w.power(value),
        Kind::Mass => w.mass(value),
        _ => w.share(value),
    }
}

/// The first ids, and the number of the others: "`b1`, `b2` and 7 more".
fn quoted_ids(w: &Wording<'_>, ids: &Ids) -> String {
    let mut parts: Vec<String> = ids.first.iter().map(|id| w.quoted(id)).collect();
    let least = if ids.is_least { "at least " } else { "" };
    parts.extend((ids.more() > 0).then(|| format!("{least}{} more", ids.more())));
    list(&parts)
}

fn quoted_list(w: &Wording<'_>, texts: &[String]) -> String {
    list(&texts.iter().map(|text| w.quoted(text)).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests;
