//! `new`: from nothing, from a notebook as people type one, and from the exports of a logger, to a report with one `new` and
//! one `run`.

use super::{Outcome, calefact, table};
use calefact_tests::Workspace;

fn new(w: &Workspace, args: &[&str]) -> Outcome {
    calefact(w.path(), &[&["new"], args].concat())
}

/// Efficiencies of a report by trial.
fn efficiencies(w: &Workspace, report: &str) -> Vec<(String, f64)> {
    let rows = table(&w.join(&format!("reports/{report}/tables/estimates.csv")));
    let efficiency = rows.iter().filter(|row| row["quantity"] == "thermal_efficiency");
    efficiency.map(|row| (row["trial"].clone(), row["value"].parse().expect("a number"))).collect()
}

#[test]
fn a_dataset_from_nothing_runs_at_once() {
    for units in ["metric", "us"] {
        let w = Workspace::new();
        let begun = new(&w, &["mine", "--units", units]);
        assert_eq!(begun.code, 0, "{}", begun.stderr);
        for part in ["only you can say:", "steam bomb", "next: calefact check mine, then calefact run mine"] {
            assert!(begun.stderr.contains(part), "{part} is not in {}", begun.stderr);
        }
        let run = calefact(w.path(), &["run", "mine"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        assert!(run.stderr.contains("; 0 errors, 0 warnings"), "{}", run.stderr);
        let [(trial, efficiency)] = &efficiencies(&w, "mine")[..] else { panic!("one burn: {}", run.stderr) };
        assert!(trial == "example-1" && (0.1..0.6).contains(efficiency), "{efficiency}");
        let page = std::fs::read_to_string(w.join("reports/mine/report.html")).expect("the page");
        assert!(page.to_lowercase().contains("invented"), "the example is labelled");
        let files = w.files("mine");
        assert!(String::from_utf8_lossy(&files["dataset.toml"]).starts_with("#:schema schemas/dataset.schema.json\n"));
        assert!(files.contains_key("schemas/dataset.schema.json") && files.contains_key("burn-sheet.html"));
    }
}

#[test]
fn options_are_written_and_checked() {
    let w = Workspace::new();
    let options = ["--stove", "Box stove", "--stove", "Rocket \"R2\"", "--fuel", "Red oak", "--vessel", "Blue drum"];
    let more = ["--water", "30 gal_us", "--thermometer", "1 degF", "--scale", "1 % of reading", "--title", "Yard"];
    let begun = new(&w, &[&["mine", "--units", "us"][..], &options, &more].concat());
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    assert!(!begun.stderr.contains("only you can say"), "{}", begun.stderr);
    let run = calefact(w.path(), &["run", "mine", "--quiet"]);
    assert_eq!((run.code, run.stderr.as_str()), (0, ""));
    let wrong = new(&w, &["other", "--water", "30 gal"]);
    assert_eq!(wrong.code, 2, "{}", wrong.stderr);
    assert!(wrong.stderr.contains("nothing was written") && !w.join("other").exists(), "{}", wrong.stderr);
}

#[test]
fn nothing_is_overwritten() {
    let w = Workspace::new();
    w.write("mine/trials.csv", "my own\n");
    let begun = new(&w, &["mine"]);
    assert_eq!(begun.code, 3, "{}", begun.stderr);
    assert!(begun.stderr.contains("mine/trials.csv"), "{}", begun.stderr);
    assert_eq!(w.files("mine").len(), 1, "and nothing else is written");
}

/// Two stoves, two burns each, as typed from a notebook in the units of the country. Invented.
const NOTEBOOK: &str = "\
Burn #,Date,Stove,Wood type,Wood (lb),Kindling (lb),Moisture % dry,Water (gal),Air F,Leftover wood lb,Char lb,Weather
1,3/4/2026,Barrel stove,spruce,12.3,0.7,18,30,46,0,0.2,calm
2,3/14/2026,Barrel stove,spruce,12.0,0.7,18,30,45,0,0.3,wind
3,3/15/2026,Rocket,spruce,9.2,0.7,18,30,47,0,0.1,calm
4,3/20/2026,Rocket,spruce,9.4,0.7,18,30,48,0.1,0.1,calm
";

const NOTES: [(&str, &str); 4] = [
    ("burn 1.csv", "0,52\n12,65\n24,80\n36,93\n48,106\n"),
    ("burn 2.csv", "0,50\n12,63\n24,76\n36,90\n48,103\n"),
    ("burn 3.csv", "0,53\n12,70\n24,87\n36,103\n48,118\n"),
    ("burn 4.csv", "0,54\n12,72\n24,90\n36,107\n48,123\n"),
];

#[test]
fn a_notebook_becomes_a_report_with_one_new_and_one_run() {
    let w = Workspace::new();
    w.write("notes/burns.csv", NOTEBOOK);
    for (name, rows) in NOTES {
        w.write(&format!("notes/{name}"), format!("Min,Barrel\n{rows}"));
    }
    let hint = calefact(w.path(), &["run", "notes"]);
    assert!(hint.stderr.contains("calefact new notes --from notes"), "{}", hint.stderr);
    let begun = new(&w, &["notes", "--from", "notes", "--units", "us"]);
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    for part in [
        "`Barrel`: `tank`; the header says `barrel`; degF, as chosen",
        "burn 1.csv: trial `1`, a burn of 2026-03-04, 5 readings in 48 min, tank from 52.0 degF to 106.0 degF",
    ] {
        assert!(begun.stderr.contains(part), "{part} is not in {}", begun.stderr);
    }
    let run = calefact(w.path(), &["run", "notes"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let found = efficiencies(&w, "notes");
    assert_eq!(
        found.iter().map(|(trial, _)| trial.as_str()).collect::<Vec<_>>(),
        ["1", "2", "3", "4"],
        "{}",
        run.stderr
    );
    assert!(found.iter().all(|(_, e)| (0.1..0.8).contains(e)), "{found:?}");
    assert!(run.stderr.contains("stove: thermal efficiency Rocket "), "{}", run.stderr);
    let register = table(&w.join("notes/trials.csv"));
    assert_eq!((register[1]["date"].as_str(), register[1]["Weather"].as_str()), ("2026-03-14", "wind"));
}

/// Exports with a preamble, semicolons, decimal commas and German dates, in a folder elsewhere.
fn exports(w: &Workspace) {
    for (day, start, rise) in [("04", 11.0_f64, 2.6), ("05", 10.5, 2.4)] {
        let row = |i: usize| {
            let (minute, tank) = (5 * i, start + rise * i as f64);
            let line = format!("{day}.03.2026 {:02}:{:02}:10;{tank:.1};8.{};3.6", 10 + minute / 60, minute % 60, i % 3);
            line.replace('.', ",").replacen(',', ".", 2) + "\n"
        };
        let rows: String = (0..13).map(row).collect();
        w.write(
            &format!("stick/LOG{day}.TXT"),
            format!("Logger X1\nSerial;12345678\n\nDatum/Uhrzeit;Fass \u{b0}C;Luft \u{b0}C;Batterie V\n{rows}"),
        );
    }
}

#[test]
fn logger_exports_become_a_report_with_one_new_and_one_run() {
    let w = Workspace::new();
    exports(&w);
    let options = ["--water", "120 L", "--stove", "Kastenofen", "--fuel", "Fichte", "--vessel", "Fass"];
    let begun = new(&w, &[&["yard", "--from", "stick/LOG04.TXT", "stick/LOG05.TXT"][..], &options].concat());
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    assert!(begun.stderr.contains("`Batterie V`: not used"), "{}", begun.stderr);
    assert!(begun.stderr.contains("the wood: `fuel_mass` in trials.csv"), "{}", begun.stderr);
    let run = calefact(w.path(), &["run", "yard"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let rows = table(&w.join("reports/yard/tables/estimates.csv"));
    let rates: Vec<&str> =
        rows.iter().filter(|r| r["quantity"] == "heat_stored").map(|r| r["trial"].as_str()).collect();
    assert_eq!(rates, ["LOG04", "LOG05"], "{}", run.stderr);
    let register = table(&w.join("yard/trials.csv"));
    assert_eq!(register[0]["date"], "2026-03-04");
    assert_eq!(
        (register[0]["start"].as_str(), register[0]["end"].as_str()),
        ("04.03.2026 10:00:10", "04.03.2026 11:00:10")
    );
}

/// Logs of a logger in degF by the minute, and of one in German by the clock, with a day that has two readings.
#[test]
fn logs_of_two_loggers_stand_in_one_dataset() {
    let w = Workspace::new();
    w.write("old/burn-1.csv", "t [min],Barrel F,Room F\n0,52,46\n12,65,46\n24,80,47\n36,93,46\n48,106,46\n");
    w.write("old/burn-2.csv", "t [min],Barrel F,Room F\n0,50,46\n12,63,46\n24,76,47\n36,90,46\n48,103,46\n");
    let row = |(minute, tank): (u32, &str)| format!("3/4/2026 10:{minute:02};{tank};8,0\n");
    let rows: String = (0..).step_by(12).zip(["11,5", "21,0", "30,5", "39,5", "48,0"]).map(row).collect();
    w.write("new/burn-3.csv", format!("Uhrzeit;Fass;Luft\n{rows}"));
    let options = ["--water", "120 L", "--stove", "Box stove", "--thermometer", "0.5 degC"];
    let begun = new(&w, &[&["yard", "--from", "old", "new"][..], &options].concat());
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    let first =
        begun.stderr.split("only you can say:\n").nth(1).and_then(|open| open.lines().next()).unwrap_or_default();
    let doubt = "the order of day and month: `3/4/2026` is read as 2026-04-03; if 2026-03-04 is meant, write \
        `clock_format = \"%m/%d/%Y %H:%M\"` under [logs] of dataset.toml and correct the dates in trials.csv";
    assert_eq!(first.trim(), doubt, "{}", begun.stderr);
    let toml = std::fs::read_to_string(w.join("yard/dataset.toml")).expect("the file");
    assert!(toml.contains(&format!("clock_format = \"%d/%m/%Y %H:%M\"   # CHECK {doubt}\n")), "{toml}");
    assert!(toml.contains("reads = [\"tank\", \"ambient\"]\n"), "{toml}");
    assert!(toml.contains("tank = [\n    { header = \"Barrel F\", unit = \"degF\" },"), "{toml}");
    let run = calefact(w.path(), &["run", "yard"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let estimates = table(&w.join("reports/yard/tables/estimates.csv"));
    let stored = estimates.iter().filter(|row| row["quantity"] == "heat_stored");
    let stored: Vec<(&str, f64)> =
        stored.map(|row| (row["trial"].as_str(), row["value"].parse().expect("a number"))).collect();
    let trials: Vec<&str> = stored.iter().map(|(trial, _)| *trial).collect();
    assert_eq!(trials, ["burn-1", "burn-2", "burn-3"], "{}", run.stderr);
    // 120 kg of water by 30.0, 29.4 and 36.5 K: 15.1, 14.8 and 18.3 MJ, and what the vessel takes.
    assert!(stored.iter().all(|(_, heat)| (14.0..22.0).contains(heat)), "{stored:?}");
    w.write("yard/logs/burn-1.csv", "t [min],Barrel F,Fass\n0,52,11\n12,65,18\n24,80,27\n");
    let check = calefact(w.path(), &["check", "yard"]);
    for part in ["`Barrel F` and `Fass` are two columns for `tank`", "out of `tank` under [columns] in dataset.toml"] {
        assert!(check.code == 1 && check.stderr.contains(part), "{part} is not in {}", check.stderr);
    }
}

#[test]
fn what_cannot_be_understood_is_told_with_what_to_do() {
    let w = Workspace::new();
    w.write("a.csv", "0,10\n15,20\n");
    let begun = new(&w, &["mine", "--from", "a.csv"]);
    assert_eq!(begun.code, 2);
    assert!(
        begun.stderr.contains("left out: a.csv: no row of headers above rows of numbers; write a row"),
        "{}",
        begun.stderr
    );
    assert!(begun.stderr.contains("nothing was written") && !w.join("mine").exists());
    let none = new(&w, &["mine", "--from", "none.csv"]);
    assert!(none.code == 2 && none.stderr.contains("cannot read none.csv"), "{}", none.stderr);
    w.write("empty/readme.md", "x");
    let empty = new(&w, &["mine", "--from", "empty"]);
    assert!(empty.code == 2 && empty.stderr.contains("empty holds no CSV"), "{}", empty.stderr);
}
