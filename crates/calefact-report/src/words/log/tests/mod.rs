//! Every sentence about a log, from its fact.

use super::message;
use crate::words::Wording;
use calefact_data::Channel;
use calefact_data::fact::{AssumedUnit, ClockForm, Ids, Log, ReadFailure, TwoReadings};
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
        Log::SameBytes { first: "logs/b1.csv".into() },
        Log::Empty,
    ]), @r"
    log-unreadable: cannot read the log `logs/b9.csv`: no such file
      done: trial left out
      hint: the register's `log` is relative to the folder of the register
    log-unreadable: cannot read the log `logs/b9.csv`: it is a folder, not a file
      done: trial left out
      hint: name a file under `log` in the register
    log-unreadable: cannot read the log `logs/b9.csv`: permission denied
      done: trial left out
      hint: give yourself permission to read the file
    log-unregistered: no row of the register names this file
      done: file not read
      hint: add a row for it to the register, or move it elsewhere
    log-repeated: the log is a copy of `logs/b1.csv`
      done: both read
      hint: if both are one burn, leave one of its trials out; if not, name the log of each in the register
    log-empty: the log has no rows
      done: trial left out
    ");
}

#[test]
fn headers() {
    let headers = || texts(&["t", "Barrel"]);
    let double = |first: &str, second: &str, column, is_mapped| Log::DuplicateColumn {
        headers: [first.into(), second.into()],
        column,
        is_mapped,
    };
    insta::assert_snapshot!(messages(&[
        Log::HeaderMissing(headers()),
        Log::TimeMissing(headers()),
        Log::TankMissing(headers()),
        Log::ColumnIgnored { header: "ambeint".into(), nearest: Some("ambient") },
        Log::ColumnIgnored { header: "battery".into(), nearest: None },
        double("Barrel", "Fass", "tank", true),
        double("run", "Versuch", "trial", true),
        double("tank", "Tank", "tank", false),
        double("tank", "tank", "tank", false),
        Log::HeaderMissing(Vec::new()),
    ]), @r"
    time-missing: no row of the log names a time column and `tank`
      done: trial left out
      hint: headers found: `t` and `Barrel`; map them under [columns] in dataset.toml
    time-missing: the log has no time column, neither `elapsed` nor `clock`
      done: trial left out
      hint: headers found: `t` and `Barrel`; map them under [columns] in dataset.toml
    tank-missing: the log has no column `tank`
      done: trial left out
      hint: headers found: `t` and `Barrel`; map them under [columns] in dataset.toml
    column-ignored: unknown log column `ambeint`
      done: column left out
      hint: if it is `ambient`, map it under [columns] in dataset.toml
    column-ignored: unknown log column `battery`
      done: column left out
    duplicate-column: `Barrel` and `Fass` are two columns for `tank`
      done: trial left out
      hint: take the header that is not meant out of `tank` under [columns] in dataset.toml, or rename its column
    duplicate-column: `run` and `Versuch` are two columns for `trial`
      done: trial left out
      hint: take the header that is not meant out of `trial_column` under [logs] in dataset.toml, or rename its column
    duplicate-column: `tank` and `Tank` are two columns for `tank`
      done: trial left out
      hint: rename or delete one of the two
    duplicate-column: two columns have the header `tank`
      done: trial left out
      hint: rename or delete one of the two
    time-missing: no row of the log names a time column and `tank`
      done: trial left out
      hint: write a row of headers, such as `elapsed [min],tank [degC]`, above the readings
    ");
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
        Log::OtherUnit { unit: "degC", other: "degF", start: 59.0, other_start: 15.0, air: 14.0 },
    ]), @r"
    unknown-unit: column `tank [degX]`: unknown unit `degX` for a temperature
      done: trial left out
      hint: did you mean `degC`?
    missing-unit: column `flow` has no unit
      done: trial left out
      hint: write the unit in the header, as in `flow [L/min]`, or under [columns] in dataset.toml
    missing-unit: column `O2` has no unit
      done: trial left out
      hint: write the unit in the header, as in `O2 [%]`, or under [columns] in dataset.toml
    unit-assumed: no unit is stated for `elapsed` and `Barrel`
      done: read `elapsed` in s and `Barrel` in degC
      hint: write the unit in the header, as in `elapsed [min]`, or under [columns] in dataset.toml
    unit-assumed: no unit is stated for `Barrel`
      done: read `Barrel` in degC
      hint: write the unit in the header, as in `Barrel [degC]`, or under [columns] in dataset.toml
    unit-doubtful: `tank` starts at 59 degC in air of 14 degC; if its numbers are in degF, it starts at 15 degC
      done: read in degC
      hint: if they are, write `tank [degF]` in the header, or the unit under [columns] in dataset.toml
    ");
}

#[test]
fn trials_and_rows() {
    insta::assert_snapshot!(messages(&[
        Log::TrialColumnMissing(Ids::from_iter(["b1", "b2"])),
        Log::TrialUnregistered(Ids::from_iter(["b8", "b9"])),
        Log::TrialNotInLog(Ids::from_iter(["b8"])),
        Log::TooFewReadings { readings: 1, rows: 1, needed: 3 },
        Log::TooFewReadings { readings: 2, rows: 5, needed: 3 },
        Log::TooManyCells { cells: 3, header: 2 },
        Log::NotANumber { channel: Channel::CoilIn, cell: "2o".into() },
        Log::BlankCell(Channel::Tank),
        Log::SplitNumber { channel: Channel::Tank, written: "13,5".into() },
        Log::TwoReadings {
            column: "power",
            cell: "1.234".into(),
            readings: TwoReadings { mark: '.', decimal: 1.234, grouped: 1234.0 },
        },
    ]), @r#"
    trial-column-missing: the trials `b1` and `b2` share this log, but none of its columns holds the trial id
      done: trials left out
      hint: set `trial_column` under [logs] in dataset.toml to the header of the column that holds the trial id, or give each trial its own log
    trial-unregistered: the log holds trials that are not in the register: `b8` and `b9`
      done: their rows left out
      hint: add a row for each to the register
    trial-not-in-log: the log has no row of this trial; it holds `b8`
      done: trial left out
    too-few-readings: the log has 1 reading; a trial needs at least 3
      done: trial left out
    too-few-readings: the log has 2 readings with a number for `tank` in 5 rows; a trial needs at least 3
      done: trial left out
    too-many-cells: the row has 3 cells, but the header has 2
      done: trial left out
      hint: if the numbers have decimal commas, write semicolons between the cells, or decimal points in the numbers
    not-a-number: `2o` is not a number for `coil_in`
      done: cell taken as blank, reading flagged
    blank-cell: `tank` has no reading
      done: reading flagged
    split-number: `tank` may be `13,5` in two cells
      done: read as 13, with the words `5`
      hint: if it is one number, write a point for its decimal comma, or separate the cells by semicolons
    ambiguous-number: `power` is `1.234`, which may be 1.234 or 1234
      done: trial left out
      hint: set `decimal = "point"` under [logs] in dataset.toml if it is 1.234, `decimal = "comma"` if it is 1234
    "#);
}

#[test]
fn implausible_values() {
    let reads = |channel, value| Log::Implausible { channel, value };
    insta::assert_snapshot!(messages(&[
        reads(Channel::Tank, 120.0),
        reads(Channel::Flow, 4.0),
        reads(Channel::FuelAdded, 150.0),
        reads(Channel::Power, 6e4),
        reads(Channel::FlueO2, 0.24),
        Log::Impossible { channel: Channel::Ambient, value: 1400.0 },
    ]), @r"
    implausible: `tank` reads 120 degC, outside -2 degC to 110 degC
      done: value kept
      hint: check the unit of the column, the decimal sign and the probe
    implausible: `flow` reads 240 kg/min, outside -0.6 kg/min to 180 kg/min
      done: value kept
      hint: check the unit of the column, the decimal sign and the probe
    implausible: `fuel_added` reads 150 kg, outside 0 kg to 100 kg
      done: value kept
      hint: check the unit of the column, the decimal sign and the probe
    implausible: `power` reads 60 kW, outside -0.01 kW to 50 kW
      done: value kept
      hint: check the unit of the column, the decimal sign and the probe
    implausible: `flue_o2` reads 24 %, outside -1 % to 22 %
      done: value kept
      hint: check the unit of the column, the decimal sign and the probe
    out-of-range: `ambient` reads 1400 degC, outside -60 degC to 60 degC
      done: value left out
      hint: check the unit of the column, the decimal sign and the probe
    ");
}

#[test]
fn times() {
    let cell = || "0:20".to_owned();
    insta::assert_snapshot!(messages(&[
        Log::TimeBackwards { cell: cell(), by_s: 300.0, previous_line: 3 },
        Log::RowsOverlap { rows: 6, by_s: 300.0 },
        Log::TimeRepeated { cell: cell(), previous_line: 3 },
        Log::HourSkipped { from_s: 6600.0, to_s: 10_800.0 },
        Log::TimeMixed { cell: cell(), form: ClockForm::TimeOfDay, above: ClockForm::Offset },
        Log::TimesDisagree { elapsed_s: 25.0, clock_s: 1500.0 },
        Log::TimeSkipped("02:10".into()),
        Log::TimeBlank,
        Log::TimePastTwelve { cell: "1:05".into(), of_day_s: 47_100.0 },
        Log::TimeTwoDates { cell: "3/4/2026 10:00".into(), dates: ["2026-04-03".into(), "2026-03-04".into()] },
        Log::TimeWithoutUnit { header: "Time".into(), cell: "0".into() },
        Log::TimeAmbiguous(cell()),
        Log::TimeUnreadable("ten past".into()),
        Log::DateMissing(None),
        Log::DateMissing(Some("28.3.2026".into())),
    ]), @r#"
    time-backwards: time runs backwards: `0:20` is 5 min before the reading on line 3
      done: trial left out
      hint: correct the time; if the clock was put back, set `time_zone` under [logs] in dataset.toml
    rows-overlap: time steps back by 5 min: 6 rows lie before rows that were read already
      done: rows left out, trial kept
      hint: check the memory of the logger; if the rows are no copies, correct their times
    time-repeated: the time `0:20` is the same as on line 3
      done: first reading kept, this one left out
    hour-skipped: the clock jumps from 01:50 to 03:00, as where clocks go forward, and `time_zone` is not set
      done: times taken as written
      hint: if clocks went forward, set `time_zone = "Europe/Oslo"` or your zone under [logs] in dataset.toml
    time-mixed: `0:20` is only a time of day, but the times above are date and time with UTC offset
      done: trial left out
      hint: write all times alike; or set `time_zone` under [logs] in dataset.toml and the date in the register
    times-disagree: since the first reading `elapsed` shows 25 s, but `clock` 25 min
      done: trial left out
      hint: correct the times or the unit of `elapsed`; or delete the column that is wrong
    time-skipped: `02:10` does not exist on that day: clocks went forward past it
      done: taken as if this clock had not been put forward
      hint: if this clock never changes, leave `time_zone` out of [logs] in dataset.toml
    time-blank: the row has no time
      done: row left out
    time-past-twelve: `1:05` lies hours before the last time, as on a clock of twelve hours without am and pm
      done: taken as `13:05`, and the times below to follow
      hint: write times of 24 hours, or am and pm behind them
    date-ambiguous: the date of `3/4/2026 10:00` may be 2026-04-03 or 2026-03-04
      done: trial left out
      hint: write the trial's date as `2026-03-28` in the register's `date` column; or set `clock_format = "%d/%m/%Y %H:%M"` or `clock_format = "%m/%d/%Y %H:%M"` under [logs] in dataset.toml
    missing-unit: column `Time` holds numbers such as `0`, and no unit
      done: trial left out
      hint: write `elapsed [min]`, `elapsed [s]` or `elapsed [h]` in the header
    time-ambiguous: `0:20` may be hours and minutes or minutes and seconds
      done: trial left out
      hint: write `elapsed [h:mm]` or `elapsed [m:ss]` in the header
    time-unreadable: `ten past` is not a time
      done: row left out
      hint: if the clock writes its times in another form, set `clock_format` under [logs] in dataset.toml
    date-missing: `time_zone` is set, but neither the register nor [logs] gives the date of the first reading
      done: times taken as written, without clock changes
      hint: write the date as 2026-03-28 in the register's `date` column
    date-missing: `time_zone` is set, but the date `28.3.2026` of the register cannot be read
      done: times taken as written, without clock changes
      hint: write the date as 2026-03-28 in the register's `date` column
    "#);
}
