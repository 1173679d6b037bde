//! A dataset folder from end to end.

mod hostile;
mod workbooks;

use crate::Channel;
use crate::fact::Toml;
use crate::{Dataset, Finding};
use std::fs;
use std::path::Path;

const DATASET: &str = r#"
title = "Bench"
[vessels.pot]
name = "Pot"
volume = "1 L"
mass = "0.5 kg"
material = "steel"
"#;

fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let dir = tempfile::tempdir().expect("a temporary folder");
    for (name, text) in files {
        let path = dir.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        fs::write(path, text).expect("a file");
    }
    dir
}

/// Findings with their places and facts, the temporary folder taken out.
fn rendered(dir: &Path, findings: &[Finding]) -> String {
    let all: Vec<String> = findings.iter().map(shown).collect();
    all.join("\n").replace(&format!("{}/", dir.display()), "d/")
}

fn shown(finding: &Finding) -> String {
    let severity = format!("{:?}", finding.severity).to_lowercase();
    let file = finding.file.as_ref().map(|file| file.display().to_string());
    let line = finding.line.map(|line| format!(" line {line}")).unwrap_or_default();
    let column = finding.column.map(|column| format!(" column {column}")).unwrap_or_default();
    let trial = finding.trial.as_ref().map(|trial| format!("trial {trial}"));
    let place: Vec<String> = file.map(|file| file + &line + &column).into_iter().chain(trial).collect();
    let mark = if place.is_empty() { "" } else { ": " };
    format!("{severity} {}{mark}{}\n  {:?}", finding.code(), place.join(", "), finding.fact)
}

#[test]
fn one_log_a_trial() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,logs/a.csv,pot,1\nb,burn,logs/b.csv,pot,0.9\n";
    let log = "elapsed [min],tank [degF],flow [L/min]\n0,50,1\n1,68,1\n2,86,\n";
    let dir = folder(&[("dataset.toml", DATASET), ("trials.csv", register), ("logs/a.csv", log), ("logs/c.csv", log)]);
    let (dataset, findings) = Dataset::open(dir.path());
    assert_eq!(rendered(dir.path(), &findings), "");
    let dataset = dataset.expect("a dataset");
    let batches = dataset.batches();
    assert_eq!(batches.len(), 2);
    let read = dataset.read(&batches[0]);
    let readings = read[0].readings.as_ref().expect("readings");
    assert_eq!(readings.elapsed_s, [0.0, 60.0, 120.0]);
    let tank = readings.channel(Channel::Tank).expect("tank");
    assert!(tank.iter().zip([10.0, 20.0, 30.0]).all(|(a, b)| (a - b).abs() < 1e-9));
    let flow = readings.channel(Channel::Flow).expect("flow");
    assert!((flow[1] - 998.2072e-3 / 60.0).abs() < 1e-6 && flow[2].is_nan());
    assert_eq!(readings.flags, [0, 0, crate::readings::flag::BLANK]);
    insta::assert_snapshot!(rendered(dir.path(), &dataset.read(&batches[1])[0].findings), @r#"
    error log-unreadable: d/trials.csv line 3, trial b
      Log(Unreadable { log: "d/logs/b.csv", failure: NotFound })
    "#);
    insta::assert_snapshot!(rendered(dir.path(), &dataset.unregistered_logs(&dataset.named_logs())), @r"
    warning log-unregistered: d/logs/c.csv
      Log(Unregistered { beside_register: false })
    ");
    let names: Vec<String> = dataset
        .input_files()
        .iter()
        .map(|file| file.path.display().to_string().replace(&format!("{}/", dir.path().display()), ""))
        .collect();
    assert_eq!(names, ["dataset.toml", "logs/a.csv", "trials.csv"]);
}

#[test]
fn several_trials_in_one_log() {
    let register =
        "trial,kind,log,vessel,water [L]\na,burn,all.csv,pot,1\nb,burn,all.csv,pot,1\nc,burn,all.csv,pot,1\n";
    let log = "run,elapsed [s],tank [degC]\na,0,10\na,60,11\na,120,12\nb,0,20\nb,60,21\nb,120,22\nz,0,1\n";
    let toml = format!("{DATASET}\n[logs]\ntrial_column = \"Run\"\n");
    let dir = folder(&[("dataset.toml", &toml), ("trials.csv", register), ("all.csv", log)]);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    let batches = dataset.batches();
    assert_eq!(batches.len(), 1);
    let read = dataset.read(&batches[0]);
    let tank = |i: usize| read[i].readings.as_ref().and_then(|r| r.channel(Channel::Tank).map(<[f64]>::to_vec));
    assert_eq!(tank(0), Some(vec![10.0, 11.0, 12.0]));
    assert_eq!(tank(1), Some(vec![20.0, 21.0, 22.0]));
    let findings: Vec<Finding> = read.into_iter().flat_map(|t| t.findings).collect();
    insta::assert_snapshot!(rendered(dir.path(), &findings), @r#"
    warning trial-unregistered: d/all.csv line 8, trial a
      Log(TrialUnregistered(["z"]))
    error trial-not-in-log: d/all.csv, trial c
      Log(TrialNotInLog(["z"]))
    "#);
}

#[test]
fn a_log_of_several_trials_is_told_once_of_units_it_lacks() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,all.csv,pot,1\nb,burn,all.csv,pot,1\n";
    let log = "trial,elapsed [s],tank\na,0,10\na,60,11\na,120,12\ntrial,elapsed [s],tank\nb,0,20\nb,60,21\nb,120,22\n";
    let dir = folder(&[("dataset.toml", DATASET), ("trials.csv", register), ("all.csv", log)]);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    let read = dataset.read(&dataset.batches()[0]);
    let findings: Vec<Finding> = read.into_iter().flat_map(|t| t.findings).collect();
    insta::assert_snapshot!(rendered(dir.path(), &findings), @r#"
    warning unit-assumed: d/all.csv line 1 column 3, trial a
      Log(UnitAssumed([AssumedUnit { header: "tank", kind: Temperature }]))
    "#);
}

#[test]
fn a_log_beside_the_register_may_be_forgotten_too() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,a.csv,pot,1\n";
    let log = "elapsed [s],tank [degC]\n0,1\n1,2\n2,3\n";
    let files = [("dataset.toml", DATASET), ("trials.csv", register), ("a.csv", log), ("z.csv", log)];
    let dir = folder(&files);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    insta::assert_snapshot!(rendered(dir.path(), &dataset.unregistered_logs(&dataset.named_logs())), @r"
    note log-unregistered: d/z.csv
      Log(Unregistered { beside_register: true })
    ");
}

#[test]
fn forgotten_logs_are_found_below_the_folders_of_logs() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,runs/may/a.dat,pot,1\nb,burn,./runs/may/a.dat,pot,1\n";
    let log = "elapsed [s],tank [degC]\n0,1\n1,2\n2,3\n";
    let dir = folder(&[
        ("dataset.toml", DATASET),
        ("trials.csv", register),
        ("runs/may/a.dat", log),
        ("runs/june/b.dat", log),
        ("runs/c.csv", log),
        ("logs/old/d.csv", log),
        ("other/e.csv", log),
        ("runs/june/readme.md", ""),
    ]);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    let findings = dataset.unregistered_logs(&dataset.named_logs());
    let files: Vec<_> = findings.iter().filter_map(|f| f.file.as_deref()?.strip_prefix(dir.path()).ok()).collect();
    assert_eq!(files, ["logs/old/d.csv", "runs/c.csv", "runs/june/b.dat"].map(Path::new));
}

#[test]
fn one_log_of_two_trials_in_two_spellings_or_two_copies() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,a.csv,pot,1\nb,burn,./a.csv,pot,1\nc,burn,c.csv,pot,1\n";
    let log = "elapsed [s],tank [degC]\n0,1\n1,2\n2,3\n";
    let dir = folder(&[("dataset.toml", DATASET), ("trials.csv", register), ("a.csv", log), ("c.csv", log)]);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    let batches = dataset.batches();
    assert_eq!(batches.iter().map(|b| b.rows.clone()).collect::<Vec<_>>(), [vec![0, 1], vec![2]]);
    assert_eq!(dataset.read(&batches[0])[0].findings[0].code(), "trial-column-missing");
    insta::assert_snapshot!(rendered(dir.path(), &Dataset::equal_logs(std::slice::from_ref(&dataset))), @r#"
    warning log-repeated: d/c.csv
      Log(SameBytes { first: "d/a.csv" })
    "#);
}

#[test]
fn without_a_column_to_tell_trials_apart() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,all.csv,pot,1\nb,burn,all.csv,pot,1\n";
    let dir = folder(&[
        ("dataset.toml", DATASET),
        ("trials.csv", register),
        ("all.csv", "elapsed [s],tank [degC]\n0,1\n1,2\n2,3\n"),
    ]);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    let read = dataset.read(&dataset.batches()[0]);
    insta::assert_snapshot!(rendered(dir.path(), &read[0].findings), @r#"
    error trial-column-missing: d/all.csv, trial a
      Log(TrialColumnMissing(["a", "b"]))
    "#);
}

#[test]
fn files_may_lie_elsewhere() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,logs/a.csv,pot,1\n";
    let log = "elapsed [s],tank [degC]\n0,1\n1,2\n2,3\n";
    let toml = format!("{DATASET}\n[files]\nregister = \"../data/trials.csv\"\n");
    let dir = folder(&[("set/dataset.toml", &toml), ("data/trials.csv", register), ("data/logs/a.csv", log)]);
    let count = |d: Option<Dataset>| d.map(|d| d.read(&d.batches()[0])[0].readings.as_ref().map(crate::Readings::len));
    assert_eq!(count(Dataset::open_anywhere(&dir.path().join("set")).0), Some(Some(3)));
    insta::assert_snapshot!(rendered(dir.path(), &Dataset::open(&dir.path().join("set")).1), @r"
    error file-unreadable: d/set/../data/trials.csv
      File(Unreadable(Outside))
    ");
    let elsewhere = dir.path().join("data");
    assert_eq!(count(Dataset::open_with(&dir.path().join("set"), Some(&elsewhere)).0), Some(Some(3)));
}

#[test]
fn nothing_to_open() {
    let dir = folder(&[]);
    let (dataset, findings) = Dataset::open(dir.path());
    assert!(dataset.is_none());
    insta::assert_snapshot!(rendered(dir.path(), &findings), @r"
    error file-unreadable: d/dataset.toml
      File(Unreadable(NotFound))
    ");
    let dir = folder(&[("dataset.toml", DATASET)]);
    let (dataset, findings) = Dataset::open(dir.path());
    assert!(dataset.is_none());
    insta::assert_snapshot!(rendered(dir.path(), &findings), @r"
    error file-unreadable: d/trials.csv
      File(Unreadable(NotFound))
    ");
}

#[test]
fn what_is_no_file_is_not_read() {
    let register = "trial,kind,log,vessel,water [L]\na,burn,logs,pot,1\n";
    let dir = folder(&[("dataset.toml", DATASET), ("trials.csv", register), ("logs/b.csv", "")]);
    let dataset = Dataset::open(dir.path()).0.expect("a dataset");
    let read = dataset.read(&dataset.batches()[0]);
    insta::assert_snapshot!(rendered(dir.path(), &read[0].findings), @r#"
    error log-unreadable: d/trials.csv line 2, trial a
      Log(Unreadable { log: "d/logs", failure: Folder })
    "#);
    let dir = folder(&[("dataset.toml", DATASET), ("trials.csv/x", "")]);
    insta::assert_snapshot!(rendered(dir.path(), &Dataset::open(dir.path()).1), @r"
    error file-unreadable: d/trials.csv
      File(Unreadable(Folder))
    ");
    let dir = folder(&[("dataset.toml/x", "")]);
    insta::assert_snapshot!(rendered(dir.path(), &Dataset::open(dir.path()).1), @r"
    error file-unreadable: d/dataset.toml
      File(Unreadable(Folder))
    ");
}

/// A named pipe without a writer would hold a reader for ever.
#[test]
#[cfg(unix)]
fn a_pipe_does_not_hold_the_program_up() {
    let dir = folder(&[("trials.csv", "")]);
    let made = std::process::Command::new("mkfifo").arg(dir.path().join("dataset.toml")).status();
    assert!(made.is_ok_and(|status| status.success()), "a pipe");
    insta::assert_snapshot!(rendered(dir.path(), &Dataset::open(dir.path()).1), @r"
    error file-unreadable: d/dataset.toml
      File(Unreadable(NotAFile))
    ");
}

#[test]
fn a_dataset_file_that_is_not_utf_8() {
    let dir = folder(&[]);
    let read = |bytes: &[u8]| {
        fs::write(dir.path().join("dataset.toml"), bytes).expect("a file");
        Dataset::open(dir.path()).1.remove(0)
    };
    let found = read(b"title = \"x\"\n[stoves.box]\nname = \"K\xFCche\"\n");
    assert_eq!(found.fact, Toml::NotUtf8 { byte: 0xFC }.into());
    assert_eq!((found.line, found.column), (Some(3), Some(10)));
    let binary = read(b"PK\x03\x04\x1b[2J\xE6").excerpt.expect("an excerpt");
    assert!(binary.contains("1 | PK\u{fffd}\u{fffd}\u{fffd}[2J\u{fffd}"), "{binary}");
    // UTF-16 says so by its mark: here only the register is missing.
    let wide: Vec<u8> = "\u{feff}title = \"K\u{fc}che\"\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(read(&wide).code(), "file-unreadable");
}
