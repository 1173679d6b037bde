//! Proposals for files as people and loggers leave them.

use super::{LeftOut, Meaning, Proposal, Reason, Role, UnitReason, propose};
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
    assert_eq!(found.trial_columns(), ["run"]);
    let trials: Vec<(&str, usize)> = found.logs[0].trials.iter().map(|t| (t.trial.as_str(), t.readings)).collect();
    assert_eq!(trials, [("b1", 2), ("b2", 3)]);
}

/// Logs of two loggers stand in one dataset, each header with its unit.
#[test]
fn two_loggers_with_other_headers() {
    let files = [
        ("a.csv", "t [min],Barrel F,room F\n0,50,46\n15,66,46\n30,82,47\n"),
        ("b.csv", "Minuten;Fass;Luft;run\n0;10,5;8;b\n15;20,5;8;b\n30;31,5;8;b\n"),
        ("c.csv", "T [MIN],barrel f,run no\n0,50,c\n15,66,c\n30,82,c\n"),
        ("d.csv", "elapsed [min],tank [degC],trial\n0,10,d\n15,20,d\n"),
    ];
    let found = proposal(&files, false);
    assert_eq!(found.left_out, []);
    let of =
        |role| found.columns.iter().filter(move |c| c.role == role && c.mapped).map(|c| (c.header.as_str(), c.unit));
    let tank: Vec<_> = of(Role::Channel(Channel::Tank)).collect();
    assert_eq!(tank, [("Barrel F", Some("degF")), ("Fass", Some("degC"))]);
    assert_eq!(of(Role::Elapsed).count(), 2);
    assert_eq!(found.trial_columns(), ["run", "run no", "trial"]);
    let starts: Vec<f64> = found.logs.iter().flat_map(|l| &l.trials).map(|t| t.tank.0.round()).collect();
    assert_eq!(starts, [10.0, 11.0, 10.0, 10.0]);
}

/// Of `3/4/2026` the choice of units tells the order, and what it leaves open is told; a file with a day that shows the order
/// settles it for all.
#[test]
fn days_with_two_meanings() {
    let log = |day: &str| format!("clock,tank [degC]\n{day}/2026 10:00,10\n{day}/2026 10:20,20\n{day}/2026 10:40,30\n");
    let (open, shown) = (log("3/4"), log("3/14"));
    let alone = proposal(&[("a.csv", &open)], false);
    let format = alone.clock_format.as_ref().expect("a pattern");
    assert_eq!((format.pattern.as_str(), format.other().as_str()), ("%d/%m/%Y %H:%M", "%m/%d/%Y %H:%M"));
    let doubt = format.doubt.as_ref().expect("a doubt");
    assert_eq!(
        (doubt.cell.as_str(), doubt.taken.as_str(), doubt.other.as_str()),
        ("3/4/2026", "2026-04-03", "2026-03-04")
    );
    let both = proposal(&[("a.csv", &open), ("b.csv", &shown)], false);
    assert_eq!(both.left_out, []);
    let format = both.clock_format.as_ref().expect("a pattern");
    assert_eq!((format.pattern.as_str(), &format.doubt), ("%m/%d/%Y %H:%M", &None), "the second file shows it");
    assert_eq!(both.logs[0].trials[0].date.as_deref(), Some("2026-03-04"));
    let mixed =
        proposal(&[("a.csv", &open), ("c.csv", "clock,tank [degC]\n2026-03-04 10:00,10\n2026-03-04 10:20,20\n")], true);
    assert_eq!(mixed.left_out.iter().map(|(_, reason)| reason).collect::<Vec<_>>(), [&LeftOut::OtherClock]);
    let columns = "Date,Time,Tank\n3/4/2026,23:50,11\n3/5/2026,0:20,28\n3/5/2026,1:10,47\n";
    let night = proposal(&[("d.csv", columns)], true);
    assert_eq!((night.left_out.as_slice(), night.date_doubts.len()), (&[][..], 1));
    assert_eq!((night.logs[0].trials[0].readings, night.logs[0].trials[0].length_s), (3, 4800.0));
    let table = "Burn,Date,Wood kg,Stove,Water L\n1,3/4/2026,5,box,120\n2,4/5/2026,6,box,120\n";
    let register = proposal(&[("burns.csv", table), ("a.csv", &shown)], false);
    assert_eq!(
        (register.date_doubts.as_slice(), register.table.expect("a table").rows[0]["date"].as_str()),
        (&[][..], "2026-03-04")
    );
}

/// One line of `dataset.toml` holds for all logs, so that a header may not mean two things.
#[test]
fn a_header_with_two_meanings_is_left_out() {
    let reason = |second: &str| {
        let files = [("a.csv", "min,Probe,T2\n0,10,8\n15,20,8\n30,31,8\n"), ("b.csv", second)];
        proposal(&files, false).left_out.first().map(|(_, reason)| reason.clone())
    };
    assert_eq!(reason("min,Probe\n0,10\n15,20\n"), None);
    assert_eq!(reason("min,Probe [degF]\n0,50\n15,70\n"), None, "a header with its own unit");
    for second in ["min,tank [degC],Probe\n0,10,99\n15,20,99\n", "min,tank [degC],Probe [degC]\n0,10,99\n15,20,99\n"] {
        assert!(matches!(reason(second), Some(LeftOut::OtherMeaning { .. })), "{second}");
    }
    let unit = reason("min,Probe\n0,50\n15,170\n");
    let meaning = |unit| Meaning { column: Some("tank"), unit: Some(unit) };
    let (before, here) = (meaning("degC"), meaning("degF"));
    assert_eq!(unit, Some(LeftOut::OtherMeaning { header: "Probe".into(), before, here }));
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
        ("other.csv", "elapsed [min],tank [degC],Barrel F,x\n0,10,50,1\n15,20,66,2\n"),
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
    let meaning = |column, unit| Meaning { column, unit };
    let (before, here) = (meaning(Some("tank"), Some("degF")), meaning(None, None));
    assert_eq!(reason("other.csv"), &LeftOut::OtherMeaning { header: "Barrel F".into(), before, here });
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
