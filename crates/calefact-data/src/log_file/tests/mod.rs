//! Logs that read well, in the forms that loggers and people give them.

mod doubtful;
mod problems;
mod properties;
mod round_trip;
mod written;

use super::{LogTrial, Wanted, read};
use crate::dataset_file;
use crate::{Channel, ClockTime, ReadAs, ReadColumn};
use crate::{Fact, Finding};

fn log_with(toml: &str, bytes: &[u8]) -> LogTrial {
    log_on(None, toml, bytes)
}

/// A log of a trial whose date the register gives.
fn log_on(date: Option<&str>, toml: &str, bytes: &[u8]) -> LogTrial {
    let (file, findings) = dataset_file::read_text("dataset.toml".as_ref(), &format!("title = \"Bench\"\n{toml}"));
    assert_eq!(findings, []);
    let settings = file.expect("a dataset file").logs;
    let wanted = [Wanted { trial: "b07", date, ..Wanted::default() }];
    read("logs/b07.csv".as_ref(), bytes, &settings, &wanted).remove(0)
}

fn log(text: &str) -> LogTrial {
    log_with("", text.as_bytes())
}

/// The number of readings, and each finding as severity, line and column, fact and repeats.
fn shown(trial: &LogTrial) -> String {
    let kept = trial.readings.as_ref().map_or_else(|| "left out".into(), |r| format!("{} readings", r.len()));
    trial.findings.iter().fold(kept, |all, finding| format!("{all}\n{}", finding_line(finding)))
}

fn finding_line(finding: &Finding) -> String {
    let number = |n: Option<u64>| n.map_or_else(|| "-".into(), |n| n.to_string());
    let fact = match &finding.fact {
        Fact::Log(fact) => format!("{fact:?}"),
        other => format!("{other:?}"),
    };
    let repeats = finding.repeats.map_or_else(String::new, |r| format!(", {} more to line {}", r.count, r.last_line));
    format!("{:?} {}:{} {fact}{repeats}", finding.severity, number(finding.line), number(finding.column))
}

fn columns(trial: &LogTrial, channel: Channel) -> (Vec<f64>, Vec<f64>) {
    assert_eq!(trial.findings, []);
    let readings = trial.readings.as_ref().expect("readings");
    let values = readings.channel(channel).expect("the channel").iter().map(|v| (v * 1e6).round() / 1e6);
    (readings.elapsed_s.clone(), values.collect())
}

fn tank(trial: &LogTrial) -> (Vec<f64>, Vec<f64>) {
    columns(trial, Channel::Tank)
}

const TIMES: [f64; 3] = [0.0, 600.0, 1200.0];

#[test]
fn a_log_on_paper() {
    let trial = log("elapsed [min],tank [degF],note\n0,50,lit\n10,68,\n20,86,\"steady, door shut\"\n");
    assert_eq!(tank(&trial), (TIMES.to_vec(), vec![10.0, 20.0, 30.0]));
    let readings = trial.readings.expect("readings");
    assert_eq!(readings.notes.len(), 2);
    assert_eq!((readings.notes[1].row, readings.notes[1].text.as_str()), (2, "steady, door shut"));
}

#[test]
fn preamble_units_row_semicolons_and_decimal_commas() {
    let text = "Logger X; serial 42\nfirmware;1.2\n\nelapsed;tank;flow\n[min];[degC];[kg/s]\n0;10,5;0,05\n10;20,25;0,05\n20;30;0,05\n";
    assert_eq!(tank(&log(text)), (TIMES.to_vec(), vec![10.5, 20.25, 30.0]));
}

#[test]
fn mapped_headers_in_windows_1252() {
    let toml = "[columns]\nclock = \"Uhr\"\ntank = { header = \"Barrel \u{b0}F\", unit = \"degF\" }\n[logs]\nencoding = \"windows-1252\"\n";
    let trial = log_with(toml, b"Uhr,Barrel \xB0F\n23:50,50\n00:00,68\n00:10,86\n");
    assert_eq!(tank(&trial), (TIMES.to_vec(), vec![10.0, 20.0, 30.0]));
}

/// The unit of each header is its own; a log that has two headers of one column is refused.
#[test]
fn one_column_under_the_headers_of_several_loggers() {
    let toml = "[columns]\nelapsed = [\"t [min]\", { header = \"Zeit\", unit = \"s\" }]\n\
        tank = [\"Barrel [degF]\", { header = \"Fass\", unit = \"degC\" }]\n[logs]\ntrial_column = [\"run\", \"Versuch\"]\n";
    let read = |text: &str| log_with(toml, text.as_bytes());
    let wanted = (TIMES.to_vec(), vec![10.0, 20.0, 30.0]);
    assert_eq!(tank(&read("t,Barrel,run\n0,50,b07\n10,68,b07\n20,86,b07\n")), wanted);
    assert_eq!(tank(&read("Versuch;Zeit;FASS\nb07;0;10\nb07;600;20\nb07;1200;30\n")), wanted);
    assert_eq!(tank(&read("Zeit,Fass [degF]\n0,50\n600,68\n1200,86\n")), wanted, "the unit of the file goes first");
    insta::assert_snapshot!(shown(&read("t,Barrel,Fass\n0,50,10\n10,68,20\n20,86,30\n")), @r#"
    left out
    Error 1:3 DuplicateColumn { headers: ["Barrel", "Fass"], column: "tank", is_mapped: true }
    "#);
    insta::assert_snapshot!(shown(&read("t,tank [degC],Fass\n0,50,10\n10,68,20\n20,86,30\n")), @r#"
    left out
    Error 1:3 DuplicateColumn { headers: ["tank [degC]", "Fass"], column: "tank", is_mapped: true }
    "#);
    insta::assert_snapshot!(shown(&read("t,Barrel,run,Versuch\n0,50,b07,b07\n10,68,b07,b07\n")), @r#"
    left out
    Error 1:4 DuplicateColumn { headers: ["run", "Versuch"], column: "trial", is_mapped: true }
    "#);
}

#[test]
fn what_was_read_is_told() {
    let toml = "[columns]\ntank = \"Barrel [degF]\"\n";
    let read = |date, text: &str| log_on(date, toml, text.as_bytes()).read_as;
    let columns = |read: &ReadAs| -> Vec<String> {
        let shown = |c: &ReadColumn| format!("{}: {} {}", c.header, c.column.unwrap_or("-"), c.unit.unwrap_or("-"));
        read.columns.iter().map(shown).collect()
    };
    let by_hand = read(None, "elapsed [h:mm],Barrel,ambient,Battery,note\n0:00,50,56 F,3,x\n0:10,68,57 F,3,\n");
    let wanted =
        ["elapsed [h:mm]: elapsed h:mm", "Barrel: tank degF", "ambient: ambient degF", "Battery: - -", "note: note -"];
    assert_eq!((columns(&by_hand).as_slice(), &by_hand.clock), (&wanted.map(String::from)[..], &None));
    let below = read(None, "elapsed,Barrel\n[min],[degC]\n0,10\n10,20\nelapsed [s],tank [degF]\n1200,86\n");
    assert_eq!(columns(&below), ["elapsed [s]: elapsed s", "tank [degF]: tank degF"], "the last header");
    let clock = |date, cells: [&str; 2]| {
        let text = format!("clock,Barrel\n{},50\n{},68\n", cells[0], cells[1]);
        let [first, last] = read(date, &text).clock.expect("a clock");
        let shown = |t: ClockTime| {
            format!("{} {}{}", t.date.as_deref().unwrap_or("-"), t.minutes, if t.is_utc { " UTC" } else { "" })
        };
        [shown(first), shown(last)]
    };
    assert_eq!(clock(None, ["12:20", "1:05"]), ["- 740", "- 785"], "past noon");
    assert_eq!(clock(None, ["24.3.2026 23:50", "25.3.2026 0:10"]), ["2026-03-24 1430", "2026-03-25 10"]);
    assert_eq!(clock(None, ["24.3. 23:50", "25.3. 0:10"]), ["- 1430", "- 10"], "no year is invented");
    assert_eq!(clock(Some("2026-03-24"), ["24.3. 23:50", "25.3. 0:10"]), ["2026-03-24 1430", "2026-03-25 10"]);
    let utc = ["2026-03-24T22:58:10Z", "2026-03-24T23:08:10Z"];
    assert_eq!(clock(None, utc), ["2026-03-24 1378 UTC", "2026-03-24 1388 UTC"]);
}

/// A header cell is looked up, not compared with every mapped header.
#[test]
fn a_wide_log_of_many_mapped_headers() {
    let headers = |mark: &str| (0..20_000).map(|i| format!("{mark}T{i}{mark}")).collect::<Vec<_>>().join(",");
    let toml = format!("[columns]\nelapsed = \"t [s]\"\nnote = [{}]\ntank = \"Barrel [degC]\"\n", headers("\""));
    let text = format!("t,Barrel,{}\n0,10\n600,20\n1200,30\n", headers(""));
    assert_eq!(tank(&log_with(&toml, text.as_bytes())), (TIMES.to_vec(), vec![10.0, 20.0, 30.0]));
}

#[test]
fn brackets_that_are_part_of_a_mapped_header() {
    let toml = "[columns]\ntank = { header = \"Probe (left)\", unit = \"degF\" }\n";
    let trial = log_with(toml, b"elapsed [min],Probe (left)\n0,50\n10,68\n20,86\n");
    assert_eq!(tank(&trial), (TIMES.to_vec(), vec![10.0, 20.0, 30.0]));
}

#[test]
fn header_again_with_another_unit() {
    let text = "elapsed [min],tank [degC]\n0,10\n10,20\nelapsed [min],tank [degF]\n20,86\n";
    assert_eq!(tank(&log(text)), (TIMES.to_vec(), vec![10.0, 20.0, 30.0]));
}

#[test]
fn header_again_with_another_order_and_column() {
    let text = "elapsed [min],tank [degC]\n0,10\n10,20\nambient [degC],elapsed [min],tank [degC]\n15,20,30\n";
    let trial = log(text);
    assert_eq!(tank(&trial), (TIMES.to_vec(), vec![10.0, 20.0, 30.0]));
    let ambient = trial.readings.as_ref().and_then(|r| r.channel(Channel::Ambient)).expect("ambient");
    assert!(ambient[0].is_nan() && ambient[1].is_nan());
    assert!((ambient[2] - 15.0).abs() < 1e-12);
}

#[test]
fn gases_in_percent_and_thousands() {
    let trial =
        log("elapsed [s],tank [degC],flue_o2 [%],power [W]\n0,10,12.5,\"1,200\"\n600,20,13,1100\n1200,30,14,900\n");
    assert_eq!(columns(&trial, Channel::FlueO2).1, [0.125, 0.13, 0.14]);
    assert_eq!(columns(&trial, Channel::Power).1, [1200.0, 1100.0, 900.0]);
}

#[test]
fn fuel_put_on_now_and_then_is_no_gap() {
    let trial = log("elapsed [s],tank [degC],fuel_added [lb]\n0,10,2\n600,20,\n1200,30,1\n");
    assert_eq!(trial.findings, []);
    assert_eq!(trial.readings.map(|r| r.flags), Some(vec![0, 0, 0]));
}
