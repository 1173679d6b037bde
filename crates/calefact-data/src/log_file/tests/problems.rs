//! Logs with problems, and the facts found about them.

use super::{log, log_on, log_with, shown};
use crate::Channel;
use crate::fact::{File, Log, TableFile};
use crate::readings::flag;

#[test]
fn blank_and_unreadable_cells_are_flagged() {
    let trial = log("elapsed [s],tank [degC],ambient [degC]\n0,10,15\n600,OL,--\n1200,2o,\n1800,40,15\n2400,50,15\n");
    insta::assert_snapshot!(shown(&trial), @r#"
    5 readings
    Warning 4:2 NotANumber { channel: Tank, cell: "2o" }
    Note 3:2 BlankCell(Tank)
    Note 3:3 BlankCell(Ambient), 1 more to line 4
    "#);
    let flags = trial.readings.map(|r| r.flags);
    assert_eq!(flags, Some(vec![0, flag::BLANK, flag::BLANK | flag::UNREADABLE, 0, 0]));
}

#[test]
fn time_backwards() {
    insta::assert_snapshot!(shown(&log("elapsed [min],tank [degC]\n0,10\n25,20\n20,30\n30,40\n")), @r#"
    left out
    Error 4:1 TimeBackwards { cell: "20", by_s: 300.0, previous_line: 3 }
    "#);
}

#[test]
fn time_repeated() {
    let trial = log("elapsed [s],tank [degC]\n0,10\n600,20\n600,25\n1200,30\n");
    insta::assert_snapshot!(shown(&trial), @r#"
    3 readings
    Warning 4:1 TimeRepeated { cell: "600", previous_line: 3 }
    "#);
    assert!(trial.readings.is_some_and(|r| r.channel(Channel::Tank) == Some(&[10.0, 20.0, 30.0])));
}

#[test]
fn too_few_readings() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n0,10\n")), @r"
    left out
    Error -:- TooFewReadings { readings: 1, rows: 1, needed: 2 }
    ");
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n")), @r"
    left out
    Error -:- TooFewReadings { readings: 0, rows: 0, needed: 2 }
    ");
    let blank = log("elapsed [s],tank [degC]\n0,10\n600,OL\n1200,--\n1800,2o\n2400,\n");
    insta::assert_snapshot!(shown(&blank), @r#"
    left out
    Error -:- TooFewReadings { readings: 1, rows: 5, needed: 2 }
    Warning 5:2 NotANumber { channel: Tank, cell: "2o" }
    Note 3:2 BlankCell(Tank), 2 more to line 6
    "#);
    insta::assert_snapshot!(shown(&log("")), @r"
    left out
    Error -:- Empty
    ");
}

#[test]
fn columns_missing() {
    insta::assert_snapshot!(shown(&log("elapsed,Barrel,room\n0,1,2\n1,2,3\n2,3,4\n")), @r#"
    left out
    Error 1:- TankMissing(["elapsed", "Barrel", "room"])
    "#);
    insta::assert_snapshot!(shown(&log("t,tank\n0,1\n1,2\n2,3\n")), @r#"
    left out
    Error 1:- TimeMissing(["t", "tank"])
    "#);
    insta::assert_snapshot!(shown(&log("a,b\n0,1\n1,2\n2,3\n")), @r#"
    left out
    Error 1:- HeaderMissing(["a", "b"])
    "#);
}

#[test]
fn units_of_columns() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [kg]\n0,1\n1,2\n2,3\n")), @r#"
    left out
    Error 1:2 UnitUnreadable { header: "tank [kg]", error: WrongKind { text: "kg", found: Mass, kind: Temperature } }
    "#);
    insta::assert_snapshot!(shown(&log("elapsed [mim],tank [degX],flow [xyz]\n0,1,1\n1,2,1\n2,3,1\n")), @r#"
    left out
    Error 1:1 UnitUnreadable { header: "elapsed [mim]", error: Unknown { text: "mim", kind: Time, nearest: Some("min") } }
    "#);
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degX]\n0,1\n1,2\n2,3\n")), @r#"
    left out
    Error 1:2 UnitUnreadable { header: "tank [degX]", error: Unknown { text: "degX", kind: Temperature, nearest: Some("degC") } }
    "#);
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],flow\n0,1,3\n1,2,3\n2,3,3\n")), @r#"
    left out
    Error 1:3 UnitMissing { header: "flow", channel: Flow }
    "#);
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],flow [gpm],flue_o2\n0,1,3,12\n1,2,3,12\n2,3,3,12\n")), @r#"
    left out
    Error 1:3 UnitUnreadable { header: "flow [gpm]", error: Ambiguous { text: "gpm", choices: "gpm_us (3.785 L/min) or gpm_imp (4.546 L/min)" } }
    Error 1:4 UnitMissing { header: "flue_o2", channel: FlueO2 }
    "#);
}

#[test]
fn units_that_nothing_states() {
    insta::assert_snapshot!(shown(&log("elapsed,tank,ambient [degC],power,note\n0,10,9,1,lit\n12,18,9,1,\n24,26,9,1,\n")), @r#"
    3 readings
    Warning 1:1 UnitAssumed([AssumedUnit { header: "elapsed", kind: Time }, AssumedUnit { header: "tank", kind: Temperature }, AssumedUnit { header: "power", kind: Power }])
    "#);
    let toml = "[columns]\nelapsed = \"t [min]\"\ntank = \"Barrel\"\n";
    insta::assert_snapshot!(shown(&log_with(toml, b"t,Barrel\n0,10\n12,18\n24,26\n")), @r#"
    3 readings
    Warning 1:2 UnitAssumed([AssumedUnit { header: "Barrel", kind: Temperature }])
    "#);
    // Stated in `dataset.toml`, in a row of units, or by the colons of the time itself.
    let toml = "[columns]\nelapsed = \"t [min]\"\ntank = { header = \"Barrel\", unit = \"degF\" }\n";
    assert_eq!(shown(&log_with(toml, b"t,Barrel\n0,50\n12,58\n24,66\n")), "3 readings");
    assert_eq!(shown(&log("elapsed,tank\n[min],[degC]\n0,10\n12,18\n24,26\n")), "3 readings");
    assert_eq!(shown(&log("elapsed,tank [degC]\n0:00:00,10\n0:12:00,18\n0:24:00,26\n")), "3 readings");
    assert_eq!(shown(&log("clock,tank [degC]\n10:00,10\n10:12,18\n10:24,26\n")), "3 readings");
}

#[test]
fn unknown_and_doubled_columns() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],battery,ambeint\n0,1,3,4\n1,2,3,4\n2,3,3,4\n")), @r#"
    3 readings
    Warning 1:4 ColumnIgnored { header: "ambeint", nearest: Some("ambient") }
    Note 1:3 ColumnIgnored { header: "battery", nearest: None }
    "#);
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],tank [degC]\n0,1,3\n1,2,3\n2,3,3\n")), @r#"
    left out
    Error 1:3 DuplicateColumn { headers: ["tank [degC]", "tank [degC]"], column: "tank", is_mapped: false }
    "#);
}

#[test]
fn decimal_commas_between_commas_are_refused() {
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC]\n0,10,5\n600,20,5\n1200,30,5\n")), @r"
    left out
    Error 2:3 TooManyCells { cells: 3, header: 2 }
    ");
}

#[test]
fn a_quote_that_is_not_closed() {
    let head = "elapsed [s],tank [degC],note\n0,10,lit\n";
    insta::assert_snapshot!(shown(&log(&format!("{head}600,\"20,\n1200,30,\n1800,40,\n2400,50,\"wood\"\n"))), @r"
    left out
    Error 3:2 File(QuoteOpen { never_closed: false })
    ");
    insta::assert_snapshot!(shown(&log(&format!("{head}600,20,\n1200,30,\n\"1800,40,\n2400,50,\n"))), @r"
    left out
    Error 5:1 File(QuoteOpen { never_closed: false })
    ");
    insta::assert_snapshot!(shown(&log(&format!("{head}600,20,\n1200,30,\"wood\n1800,40,\n2400,50,\n"))), @r"
    left out
    Error 4:3 File(QuoteOpen { never_closed: false })
    ");
    assert_eq!(shown(&log(&format!("{head}600,20,\"wood\nput on\"\n1200,30,\"out\n\"\n"))), "3 readings");
}

#[test]
fn times_that_cannot_be_read() {
    insta::assert_snapshot!(shown(&log("elapsed,tank [degC]\n0:00,1\n0:10,2\n0:20,3\n")), @r#"
    left out
    Error 2:1 TimeAmbiguous("0:00"), 2 more to line 4
    "#);
    insta::assert_snapshot!(shown(&log("clock,tank [degC]\n10:00,1\nten past,2\n,2\n10:20,3\n10:30,4\n")), @r#"
    3 readings
    Warning 3:1 TimeUnreadable("ten past")
    Warning 4:1 TimeBlank
    "#);
}

#[test]
fn temperatures_beyond_their_limits() {
    let trial = log("elapsed [s],tank [degC],ambient [degC]\n0,1,1400\n1,2000,20\n2,3,20\n3,-9,50\n4,3,50\n");
    insta::assert_snapshot!(shown(&trial), @r"
    5 readings
    Warning 2:3 Impossible { channel: Ambient, value: 1400.0 }
    Warning 3:2 Impossible { channel: Tank, value: 2000.0 }
    Warning 5:2 Implausible { channel: Tank, value: -9.0 }
    Warning 5:3 Implausible { channel: Ambient, value: 50.0 }, 1 more to line 6
    ");
}

#[test]
fn guessed_encoding_is_named() {
    insta::assert_snapshot!(shown(&log_with("", b"elapsed [s],tank [\xB0C]\n0,1\n1,2\n2,3\n")), @r#"
    3 readings
    Note -:- File(EncodingGuessed("windows-1252"))
    "#);
}

#[test]
fn zone_without_a_date() {
    let toml = "[logs]\ntime_zone = \"Europe/Oslo\"\n";
    insta::assert_snapshot!(shown(&log_with(toml, b"clock,tank [degC]\n10:00,1\n10:10,2\n10:20,3\n")), @r"
    3 readings
    Warning -:- DateMissing(None)
    ");
    let dated = b"clock,tank [degC]\n2026-03-29 01:50,1\n2026-03-29 03:10,2\n2026-03-29 03:20,3\n";
    assert_eq!(shown(&log_with(toml, dated)), "3 readings");
    assert_eq!(shown(&log_with(toml, b"elapsed [min],tank [degC]\n0,1\n10,2\n20,3\n")), "3 readings");
    let odd = log_on(Some("3/4/2026"), toml, b"clock,tank [degC]\n10:00,1\n10:10,2\n10:20,3\n");
    insta::assert_snapshot!(shown(&odd), @r#"
    3 readings
    Warning -:- DateMissing(Some("3/4/2026"))
    "#);
    let dotted = log_on(Some("28.3.2026"), toml, b"clock,tank [degC]\n10:00,1\n10:10,2\n10:20,3\n");
    assert_eq!(shown(&dotted), "3 readings");
}

#[test]
fn a_file_that_does_not_hold_text() {
    let sheet = shown(&log_with("", b"PK\x03\x04\x14\x00\x06\x00\x08\x00\x00\x00!\x00, \xFF\n"));
    insta::assert_snapshot!(sheet, @r"
    left out
    Error -:- File(NotText { table: Log, format: Some(Zip) })
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
    insta::assert_snapshot!(shown(&log("elapsed [s],tank [degC],flow [kg/s],flue_o2 [%]\n0,10,-3,12\n1,20,0,2090\n2,30,0,12\n")), @r"
    3 readings
    Warning 2:3 Impossible { channel: Flow, value: -3.0 }
    Warning 3:4 Impossible { channel: FlueO2, value: 20.9 }
    ");
}

/// European summer time began on 2026-03-29 at 02:00 (Directive 2000/84/EC: last Sunday of March, 01:00 UTC).
#[test]
fn a_time_that_does_not_exist() {
    let toml = "[logs]\ntime_zone = \"Europe/Oslo\"\ndate = \"2026-03-29\"\n";
    let trial = log_with(toml, b"clock,tank [degC]\n01:50,1\n02:10,2\n02:20,3\n");
    insta::assert_snapshot!(shown(&trial), @r#"
    3 readings
    Warning 3:1 TimeSkipped("02:10"), 1 more to line 4
    "#);
    assert_eq!(trial.readings.map(|r| r.elapsed_s), Some(vec![0.0, 1200.0, 1800.0]));
}

#[test]
fn a_word_for_a_time_is_not_a_header_where_the_row_has_readings() {
    let trial = log("clock,tank [degC]\n10:00,1\nlater,2\n10:20,3\n10:30,4\n");
    assert_eq!(trial.findings.iter().map(crate::Finding::code).collect::<Vec<_>>(), ["time-unreadable"]);
    assert_eq!(trial.readings.map(|r| r.elapsed_s), Some(vec![0.0, 1200.0, 1800.0]));
}
