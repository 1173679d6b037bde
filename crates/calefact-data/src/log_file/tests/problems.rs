//! Logs with problems, and the facts found about them.

use super::{log, log_on, log_with, shown};
use crate::Channel;
use crate::fact::{File, Log, TableFile};
use crate::readings::flag;

#[test]
fn blank_and_unreadable_cells_are_flagged() {
    let trial = log("elapsed [s],tank [degC],ambient [degC]\n0,10,15\n600,OL,--\n1200,2o,\n1800,40,15\n2400,50,15\n");
    insta::assert_snapshot!(shown(&trial), @r"
    5 readings
    warning not-a-number: logs/b07.csv line 4 column 2, trial b07
      `2o` in `tank` is no number
      done: cell taken as blank, reading flagged
    note blank-cell: logs/b07.csv line 3 column 2, trial b07
      `tank` has no reading
      done: reading flagged
    note blank-cell: logs/b07.csv line 3 column 3, trial b07
      `ambient` has no reading (and 1 more, the last on line 4)
      done: reading flagged
    ");
    let flags = trial.readings.map(|r| r.flags);
    assert_eq!(flags, Some(vec![0, flag::BLANK, flag::BLANK | flag::UNREADABLE, 0, 0]));
}

#[test]
fn time_backwards() {
    insta::assert_snapshot!(shown(&log("elapsed [min],tank [degC]\n0,10\n25,20\n20,30\n30,40\n")), @r"
    left out
    error time-backwards: logs/b07.csv line 4 column 1, trial b07
      time runs backwards: `20` is 300 s before the reading on line 3
      done: trial left out
      hint: correct the time; if the clock was put back, state `time_zone` under [logs] in dataset.toml
    ");
}

#[test]
fn time_repeated() {
    let trial = log("elapsed [s],tank [degC]\n0,10\n600,20\n600,25\n1200,30\n");
    insta::assert_snapshot!(shown(&trial), @r"
    3 readings
    warning time-repeated: logs/b07.csv line 4 column 1, trial b07
      the time `600` is that of line 3 again
      done: first reading kept, this one left out
    ");
    assert!(trial.readings.is_some_and(|r| r.channel(Channel::Tank) == Some(&[10.0, 20.0, 30.0])));
}

#[test]
fn too_few_readings() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n0,10\n600,20\n")), @r"
    left out
    error too-few-readings: logs/b07.csv, trial b07
      the log has 2 readings; a trial needs at least 3
      done: trial left out
    ");
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n")), @r"
    left out
    error too-few-readings: logs/b07.csv, trial b07
      the log has 0 readings; a trial needs at least 3
      done: trial left out
    ");
    let blank = log("elapsed [s],tank [degC]\n0,10\n600,OL\n1200,20\n1800,2o\n2400,\n");
    insta::assert_snapshot!(shown(&blank), @r"
    left out
    error too-few-readings: logs/b07.csv, trial b07
      the log has 2 readings with a number in `tank` (5 rows); a trial needs at least 3
      done: trial left out
    warning not-a-number: logs/b07.csv line 5 column 2, trial b07
      `2o` in `tank` is no number
      done: cell taken as blank, reading flagged
    note blank-cell: logs/b07.csv line 3 column 2, trial b07
      `tank` has no reading (and 1 more, the last on line 6)
      done: reading flagged
    ");
    insta::assert_snapshot!(shown(&log("")), @r"
    left out
    error log-empty: logs/b07.csv, trial b07
      the log holds no row
      done: trial left out
    ");
}

#[test]
fn columns_missing() {
    insta::assert_snapshot!(shown(&log("elapsed,Barrel,room\n0,1,2\n1,2,3\n2,3,4\n")), @r"
    left out
    error tank-missing: logs/b07.csv line 1, trial b07
      the log has no column `tank`
      done: trial left out
      hint: headers found: `elapsed`, `Barrel`, `room`; map them under [columns] in dataset.toml
    ");
    insta::assert_snapshot!(shown(&log("t,tank\n0,1\n1,2\n2,3\n")), @r"
    left out
    error time-missing: logs/b07.csv line 1, trial b07
      the log has no time column: neither `elapsed` nor `clock`
      done: trial left out
      hint: headers found: `t`, `tank`; map them under [columns] in dataset.toml
    ");
    insta::assert_snapshot!(shown(&log("a,b\n0,1\n1,2\n2,3\n")), @r"
    left out
    error time-missing: logs/b07.csv line 1, trial b07
      no row of the log names a time column and `tank`
      done: trial left out
      hint: headers found: `a`, `b`; map them under [columns] in dataset.toml
    ");
}

#[test]
fn units_of_columns() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [kg]\n0,1\n1,2\n2,3\n")), @r"
    left out
    error wrong-kind-of-unit: logs/b07.csv line 1 column 2, trial b07
      column `tank [kg]`: `kg` is a unit of another kind (a mass), but a temperature is wanted here
      done: trial left out
    ");
    insta::assert_snapshot!(shown(&log("elapsed [mim],tank [degX],flow [xyz]\n0,1,1\n1,2,1\n2,3,1\n")), @r"
    left out
    error unknown-unit: logs/b07.csv line 1 column 1, trial b07
      column `elapsed [mim]`: unknown unit `mim` for a time
      done: trial left out
      hint: did you mean `min`?
    ");
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degX]\n0,1\n1,2\n2,3\n")), @r"
    left out
    error unknown-unit: logs/b07.csv line 1 column 2, trial b07
      column `tank [degX]`: unknown unit `degX` for a temperature
      done: trial left out
      hint: did you mean `degC`?
    ");
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],flow\n0,1,3\n1,2,3\n2,3,3\n")), @r"
    left out
    error missing-unit: logs/b07.csv line 1 column 3, trial b07
      the column `flow` has no unit
      done: trial left out
      hint: write `flow [L/min]` in the header, or give the unit under [columns] in dataset.toml
    ");
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],flow [gpm],flue_o2\n0,1,3,12\n1,2,3,12\n2,3,3,12\n")), @r"
    left out
    error ambiguous-unit: logs/b07.csv line 1 column 3, trial b07
      column `flow [gpm]`: `gpm` is ambiguous: write gpm_us (3.785 L/min) or gpm_imp (4.546 L/min)
      done: trial left out
    error missing-unit: logs/b07.csv line 1 column 4, trial b07
      the column `flue_o2` has no unit
      done: trial left out
      hint: write `flue_o2 [%]` in the header, or give the unit under [columns] in dataset.toml
    ");
}

#[test]
fn units_that_nothing_states() {
    insta::assert_snapshot!(shown(&log("elapsed,tank,ambient [degC],power,note\n0,10,9,1,lit\n12,18,9,1,\n24,26,9,1,\n")), @r"
    3 readings
    warning unit-assumed: logs/b07.csv line 1 column 1, trial b07
      no unit is stated for `elapsed`, `tank`, `power`
      done: read `elapsed` in s, `tank` in degC, `power` in W
      hint: write the unit in the header, as `elapsed [min]`, or under [columns] in dataset.toml
    ");
    let toml = "[columns]\nelapsed = \"t [min]\"\ntank = \"Barrel\"\n";
    insta::assert_snapshot!(shown(&log_with(toml, b"t,Barrel\n0,10\n12,18\n24,26\n")), @r"
    3 readings
    warning unit-assumed: logs/b07.csv line 1 column 2, trial b07
      no unit is stated for `Barrel`
      done: read `Barrel` in degC
      hint: write the unit in the header, as `Barrel [degC]`, or under [columns] in dataset.toml
    ");
    // Stated in `dataset.toml`, in a row of units, or by the colons of the time itself.
    let toml = "[columns]\nelapsed = \"t [min]\"\ntank = { header = \"Barrel\", unit = \"degF\" }\n";
    assert_eq!(shown(&log_with(toml, b"t,Barrel\n0,10\n12,18\n24,26\n")), "3 readings");
    assert_eq!(shown(&log("elapsed,tank\n[min],[degC]\n0,10\n12,18\n24,26\n")), "3 readings");
    assert_eq!(shown(&log("elapsed,tank [degC]\n0:00:00,10\n0:12:00,18\n0:24:00,26\n")), "3 readings");
    assert_eq!(shown(&log("clock,tank [degC]\n10:00,10\n10:12,18\n10:24,26\n")), "3 readings");
}

#[test]
fn unknown_and_doubled_columns() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],battery,ambeint\n0,1,3,4\n1,2,3,4\n2,3,3,4\n")), @r"
    3 readings
    warning column-ignored: logs/b07.csv line 1 column 4, trial b07
      the column `ambeint` is none a log is read for
      done: column left out
      hint: if it is `ambient`, map it under [columns] in dataset.toml
    note column-ignored: logs/b07.csv line 1 column 3, trial b07
      the column `battery` is none a log is read for
      done: column left out
    ");
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],tank [degC]\n0,1,3\n1,2,3\n2,3,3\n")), @r"
    left out
    error duplicate-column: logs/b07.csv line 1 column 3, trial b07
      `tank [degC]` is a second column for `tank`
      done: trial left out
    ");
}

#[test]
fn decimal_commas_between_commas_are_refused() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n0,10,5\n600,20,5\n1200,30,5\n")), @r"
    left out
    error too-many-cells: logs/b07.csv line 2 column 3, trial b07
      the row has 3 cells, the header 2
      done: trial left out
      hint: decimal commas in a file delimited by commas? write it with semicolons or decimal points
    ");
}

#[test]
fn a_quote_that_is_not_closed() {
    let head = "elapsed [s],tank [degC],note\n0,10,lit\n";
    insta::assert_snapshot!(shown(&log(&format!("{head}600,\"20,\n1200,30,\n1800,40,\n2400,50,\"wood\"\n"))), @r"
    left out
    error quote-open: logs/b07.csv line 3 column 2, trial b07
      File(QuoteOpen { never_closed: false })
    ");
    insta::assert_snapshot!(shown(&log(&format!("{head}600,20,\n1200,30,\n\"1800,40,\n2400,50,\n"))), @r"
    left out
    error quote-open: logs/b07.csv line 5 column 1, trial b07
      File(QuoteOpen { never_closed: false })
    ");
    insta::assert_snapshot!(shown(&log(&format!("{head}600,20,\n1200,30,\"wood\n1800,40,\n2400,50,\n"))), @r"
    left out
    error quote-open: logs/b07.csv line 4 column 3, trial b07
      File(QuoteOpen { never_closed: true })
    ");
    assert_eq!(shown(&log(&format!("{head}600,20,\"wood\nput on\"\n1200,30,\"out\n\"\n"))), "3 readings");
}

#[test]
fn times_that_cannot_be_read() {
    insta::assert_snapshot!(shown(&log("elapsed,tank [degC]\n0:00,1\n0:10,2\n0:20,3\n")), @r"
    left out
    error time-ambiguous: logs/b07.csv line 2 column 1, trial b07
      `0:00` may be hours and minutes or minutes and seconds (and 2 more, the last on line 4)
      done: trial left out
      hint: write `elapsed [h:mm]` or `elapsed [m:ss]` in the header
    ");
    insta::assert_snapshot!(shown(&log("clock,tank [degC]\n10:00,1\nten past,2\n,2\n10:20,3\n10:30,4\n")), @r"
    3 readings
    warning time-unreadable: logs/b07.csv line 3 column 1, trial b07
      `ten past` is no time
      done: row left out
      hint: if the clock has a form of its own, state `clock_format` under [logs] in dataset.toml
    warning time-blank: logs/b07.csv line 4 column 1, trial b07
      the row has no time
      done: row left out
    ");
}

#[test]
fn implausible_temperature() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n0,1\n1,2000\n2,3\n")), @r"
    3 readings
    warning implausible: logs/b07.csv line 3 column 2, trial b07
      `tank` reads 2000 degC, beyond -60 to 1400 degC
      done: value kept
      hint: check the unit of the column and the probe
    ");
}

#[test]
fn guessed_encoding_is_named() {
    insta::assert_snapshot!(shown(&log_with("", b"elapsed [s],tank [\xB0C]\n0,1\n1,2\n2,3\n")), @r#"
    3 readings
    note encoding-guessed: logs/b07.csv, trial b07
      File(EncodingGuessed("windows-1252"))
    "#);
}

#[test]
fn zone_without_a_date() {
    let toml = "[logs]\ntime_zone = \"Europe/Oslo\"\n";
    insta::assert_snapshot!(shown(&log_with(toml, b"clock,tank [degC]\n10:00,1\n10:10,2\n10:20,3\n")), @r"
    3 readings
    warning date-missing: logs/b07.csv, trial b07
      `time_zone` is stated but neither register nor [logs] gives the date of the first reading
      done: times taken as they stand, without changes of clocks
      hint: write the date as 2026-03-28 in the register's `date` column
    ");
    let dated = b"clock,tank [degC]\n2026-03-29 01:50,1\n2026-03-29 03:10,2\n2026-03-29 03:20,3\n";
    assert_eq!(shown(&log_with(toml, dated)), "3 readings");
    assert_eq!(shown(&log_with(toml, b"elapsed [min],tank [degC]\n0,1\n10,2\n20,3\n")), "3 readings");
    let odd = log_on(Some("28.3.2026"), toml, b"clock,tank [degC]\n10:00,1\n10:10,2\n10:20,3\n");
    insta::assert_snapshot!(shown(&odd), @r"
    3 readings
    warning date-missing: logs/b07.csv, trial b07
      `time_zone` is stated but the date `28.3.2026` of the register cannot be read
      done: times taken as they stand, without changes of clocks
      hint: write the date as 2026-03-28 in the register's `date` column
    ");
}

#[test]
fn a_file_that_does_not_hold_text() {
    let sheet = shown(&log_with("", b"PK\x03\x04\x14\x00\x06\x00\x08\x00\x00\x00!\x00, \xFF\n"));
    insta::assert_snapshot!(sheet, @r"
    left out
    error file-not-text: logs/b07.csv, trial b07
      File(NotText { table: Log, format: Some(Zip) })
    ");
    let program = log_with("", b"\x7FELF\x02\x01\x01\x00\x00\x00\x03\x00\x3E\x00\x01\x00");
    assert_eq!(program.findings[0].fact, File::NotText { table: TableFile::Log, format: None }.into());
}

#[test]
fn long_cells_are_cut() {
    let trial = log(&format!("elapsed [s],tank [degC]\n0,10\n1,{}\n2,30\n3,40\n", "x".repeat(5000)));
    let cell = format!("{}\u{2026}", "x".repeat(40));
    assert_eq!(trial.findings[0].fact, Log::NotANumber { channel: Channel::Tank, cell }.into());
}

#[test]
fn values_outside_the_range_of_their_channel() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],flow [kg/s],flue_o2 [%]\n0,10,-3,12\n1,20,0,2090\n2,30,0,12\n")), @"");
}

/// European summer time began on 2026-03-29 at 02:00 (Directive 2000/84/EC: last Sunday of March, 01:00 UTC).
#[test]
fn a_time_that_does_not_exist() {
    let toml = "[logs]\ntime_zone = \"Europe/Oslo\"\ndate = \"2026-03-29\"\n";
    let trial = log_with(toml, b"clock,tank [degC]\n01:50,1\n02:10,2\n02:20,3\n");
    insta::assert_snapshot!(shown(&trial), @r"
    3 readings
    warning time-skipped: logs/b07.csv line 3 column 1, trial b07
      `02:10` never was: clocks were put forward over it (and 1 more, the last on line 4)
      done: taken as if this clock had not been put forward
      hint: if this clock never changes, leave `time_zone` out of [logs] in dataset.toml
    ");
    assert_eq!(trial.readings.map(|r| r.elapsed_s), Some(vec![0.0, 1200.0, 1800.0]));
}

#[test]
fn a_word_for_a_time_is_not_a_header_where_the_row_has_readings() {
    let trial = log("clock,tank [degC]\n10:00,1\nlater,2\n10:20,3\n10:30,4\n");
    assert_eq!(trial.findings.iter().map(crate::Finding::code).collect::<Vec<_>>(), ["time-unreadable"]);
    assert_eq!(trial.readings.map(|r| r.elapsed_s), Some(vec![0.0, 1200.0, 1800.0]));
}
