//! Proposals for files as people and loggers leave them.

use super::{LeftOut, Proposal, Reason, Role, UnitReason, propose};
use crate::{Channel, TrialKind};
use std::path::PathBuf;

fn proposal(files: &[(&str, &str)], us: bool) -> Proposal {
    let dir = tempfile::tempdir().expect("a folder");
    let paths: Vec<PathBuf> = files.iter().map(|(name, _)| dir.path().join(name)).collect();
    for ((_, text), path) in files.iter().zip(&paths) {
        std::fs::write(path, text).expect("a file");
    }
    propose(&paths, us)
}

fn roles(proposal: &Proposal) -> Vec<(&str, Role, Option<&str>)> {
    proposal.columns.iter().map(|c| (c.header.as_str(), c.role, c.unit)).collect()
}

#[test]
fn a_logger_export_with_a_preamble() {
    let log = "Data logger X1\nSerial;12345678\n\nDatum/Uhrzeit;Fass \u{b0}C;Luft \u{b0}C;T3;Batterie V\n\
        04.03.2026 10:05:00;11,5;8,0;300,5;3,6\n04.03.2026 10:10:00;14,5;8,1;310,5;3,6\n04.03.2026 10:15:00;17,0;8,1;305,5;3,6\n";
    let found = proposal(&[("a.csv", log)], false);
    assert_eq!(found.left_out, []);
    assert_eq!(
        roles(&found),
        [
            ("Datum/Uhrzeit", Role::Clock, None),
            ("Fass \u{b0}C", Role::Channel(Channel::Tank), Some("degC")),
            ("Luft \u{b0}C", Role::Channel(Channel::Ambient), Some("degC")),
            ("T3", Role::Unused, None),
            ("Batterie V", Role::Unused, None),
        ]
    );
    assert_eq!(found.clock_format, None, "the reader knows the form");
    let trial = &found.logs[0].trials[0];
    assert_eq!((trial.trial.as_str(), trial.kind, trial.readings), ("a", TrialKind::Burn, 3));
    assert_eq!((trial.date.as_deref(), trial.tank, trial.length_s), (Some("2026-03-04"), (11.5, 17.0), 600.0));
    let (first, last) = trial.clock.as_ref().expect("a clock");
    assert_eq!((first.as_str(), last.as_str()), ("04.03.2026 10:05:00", "04.03.2026 10:15:00"));
}

/// Rows by hand: minutes by their steps, Fahrenheit by the choice of units, and the tank by how it rises.
#[test]
fn what_nothing_states_has_a_reason() {
    let log = "Time,T1,T2\n0,50,46\n15,66,46\n30,82,47\n45,97,46\n";
    let found = proposal(&[("b.csv", log)], true);
    let tank = &found.columns[1];
    assert_eq!((tank.role, tank.unit), (Role::Channel(Channel::Tank), Some("degF")));
    assert!(matches!(tank.reason, Reason::Rises(from, to) if (from - 10.0).abs() < 0.01 && (to - 36.1).abs() < 0.1));
    assert_eq!((found.columns[0].unit, found.columns[0].unit_reason), (Some("min"), UnitReason::Steps));
    assert_eq!(tank.unit_reason, UnitReason::Preference);
    let hot = proposal(&[("b.csv", "min,water\n0,60\n10,120\n20,190\n")], false);
    assert_eq!((hot.columns[1].unit, hot.columns[1].unit_reason), (Some("degF"), UnitReason::Values));
    assert!((hot.logs[0].trials[0].tank.1 - 87.8).abs() < 0.1);
}

/// Logs by hand that the reader understands one by one need no common headers.
#[test]
fn three_notebooks_of_three_hands() {
    let files = [
        ("b1.csv", "Time,Tank,Notes\n11:40,56 F,lit\n12:20,84,\n1:05,108,\n1:40,124,fire out\n"),
        ("b2.csv", "time,tank [degF]\n3/14/2026 4 PM,52\n3/14/2026 4:30 PM,76\n3/14/2026 5:05 p.m.,104\n"),
        ("b3.csv", "Date;Time;Tank\n21.03.2026;10:00;11,5 C\n21.03.2026;10:40;28 C\n21.03.2026;11:30;47,5 C\n"),
    ];
    let found = proposal(&files, false);
    assert_eq!(found.left_out, []);
    let trials: Vec<_> =
        found.logs.iter().flat_map(|log| &log.trials).map(|t| (t.readings, t.tank.0.round())).collect();
    assert_eq!(trials, [(4, 13.0), (3, 11.0), (3, 12.0)]);
    assert!(found.columns.iter().all(|c| !c.mapped || c.role == Role::Note), "{:?}", found.columns);
}

#[test]
fn kinds_by_what_the_tank_does() {
    let kind = |log: &str| proposal(&[("a.csv", log)], false).logs[0].trials[0].kind;
    assert_eq!(kind("elapsed [min],tank [degC]\n0,60\n60,55\n120,51\n"), TrialKind::StandingLoss);
    assert_eq!(kind("elapsed [min],tank [degC]\n0,60\n60,55\n120,71\n"), TrialKind::Burn);
    assert_eq!(kind("elapsed [min],tank [degC],power [W]\n0,20,900\n60,35,900\n"), TrialKind::ReferenceHeater);
}

#[test]
fn a_notebook_tells_of_its_logs() {
    let table = "Burn #,Date,Stove,Wood (lb),Wood type,Water (gal),Moisture % dry,Air F,Weather\n\
        1,3/4/2026,Barrel stove,12.5,spruce,30,18,45,calm\n2,3/14/2026,Rocket,9.25,spruce,30,,46,wind\n";
    let log = "min,water F\n0,50\n15,66\n30,82\n";
    let found = proposal(&[("burns.csv", table), ("burn 01.csv", log), ("burn-2.csv", log)], true);
    assert_eq!(found.left_out, []);
    let notebook = found.table.as_ref().expect("a table");
    let columns: Vec<(&str, Option<&str>)> = notebook.columns.iter().map(|c| (c.column, c.unit)).collect();
    assert_eq!(
        columns,
        [
            ("trial", None),
            ("date", None),
            ("stove", None),
            ("fuel_mass", Some("lb")),
            ("fuel", None),
            ("water", Some("gal_us")),
            ("fuel_moisture", Some("%")),
            ("ambient", Some("degF")),
        ]
    );
    assert_eq!(notebook.further, ["Weather"]);
    assert_eq!(notebook.rows[1]["date"], "2026-03-14");
    assert_eq!(notebook.rows[0]["moisture_basis"], "dry");
    let trials: Vec<(&str, Option<usize>)> =
        found.logs.iter().flat_map(|log| &log.trials).map(|t| (t.trial.as_str(), t.row)).collect();
    assert_eq!(trials, [("1", Some(0)), ("2", Some(1))]);
}

#[test]
fn many_trials_in_one_log() {
    let log = "run,minutes,tank\nb1,0,10\nb1,10,20\nb2,0,11\nb2,10,19\nb2,20,30\n";
    let found = proposal(&[("all.csv", log)], false);
    assert_eq!(found.left_out, []);
    assert_eq!(found.trial_column.as_deref(), Some("run"));
    let trials: Vec<(&str, usize)> = found.logs[0].trials.iter().map(|t| (t.trial.as_str(), t.readings)).collect();
    assert_eq!(trials, [("b1", 2), ("b2", 3)]);
}

#[test]
fn files_that_cannot_be_understood_have_a_reason() {
    let good = "elapsed [min],Barrel F\n0,50\n15,66\n";
    let files = [
        ("good.csv", good),
        ("no-header.csv", "0,10\n15,20\n"),
        ("empty.csv", ""),
        ("book.xlsx", "PK"),
        ("no-time.csv", "tank,room\n10,8\n20,8\n"),
        ("no-tank.csv", "min,flue\n0,10\n15,200\n"),
        ("other.csv", "elapsed [min],Drum F\n0,50\n15,66\n"),
        ("stop.csv", "elapsed [min],tank [gal]\n0,50\n15,66\n"),
    ];
    let found = proposal(&files, false);
    let reasons: Vec<(String, &LeftOut)> = found
        .left_out
        .iter()
        .map(|(path, reason)| (path.file_name().expect("a name").to_string_lossy().into_owned(), reason))
        .collect();
    assert_eq!(found.logs.len(), 1, "{reasons:?}");
    assert_eq!(reasons.len(), 7);
    let reason = |name: &str| reasons.iter().find(|(n, _)| n == name).map(|(_, reason)| *reason).expect(name);
    assert_eq!(reason("no-header.csv"), &LeftOut::NoHeader);
    assert_eq!(reason("empty.csv"), &LeftOut::NoHeader);
    assert!(
        matches!(reason("book.xlsx"), LeftOut::Finding(f) if f.code() == "file-unreadable"),
        "{:?}",
        reason("book.xlsx")
    );
    assert!(matches!(reason("no-time.csv"), LeftOut::NoTime(_)));
    assert!(matches!(reason("no-tank.csv"), LeftOut::NoTank(_)), "{:?}", reason("no-tank.csv"));
    assert_eq!(reason("other.csv"), &LeftOut::OtherHeaders("tank"));
    assert!(
        matches!(reason("stop.csv"), LeftOut::Finding(f) if f.code() == "wrong-kind-of-unit"),
        "{:?}",
        reason("stop.csv")
    );
}

proptest::proptest! {
    /// Whatever the bytes, looking at them ends.
    #[test]
    fn no_file_stops_the_program(bytes in proptest::collection::vec(proptest::prelude::any::<u8>(), 0..400)) {
        let dir = tempfile::tempdir().expect("a folder");
        let path = dir.path().join("a.csv");
        std::fs::write(&path, bytes).expect("a file");
        let found = propose(&[path], false);
        proptest::prop_assert!(found.logs.len() + found.left_out.len() + usize::from(found.table.is_some()) == 1);
    }

    #[test]
    fn no_table_stops_the_program(text in "((time|min|tank|T1|burn|wood|,|;|[0-9.:/-]{1,6}|\\n| ){1,60})") {
        let dir = tempfile::tempdir().expect("a folder");
        let path = dir.path().join("a.csv");
        std::fs::write(&path, text).expect("a file");
        let found = propose(&[path], true);
        proptest::prop_assert!(found.logs.len() + found.left_out.len() + usize::from(found.table.is_some()) == 1);
    }
}
