//! What the README tells a newcomer to type works as it stands there.

use super::demo::DEMO;
use super::{calefact, table};
use calefact_tests::{Workspace, root};

/// Every fenced block that follows a file name in backquotes at the start of a line; a text with blanks is a command, not a file.
fn files_of_the_readme() -> Vec<(String, String)> {
    let text = std::fs::read_to_string(root().join("README.md")).expect("the README");
    let (mut files, mut name, mut block) = (Vec::new(), None, None::<String>);
    for line in text.lines() {
        if line.starts_with("```") {
            match block.take() {
                None => block = Some(String::new()),
                Some(content) => files.extend(name.take().map(|n: String| (n, content))),
            }
        } else if let Some(content) = &mut block {
            content.push_str(line);
            content.push('\n');
        } else if let Some(rest) = line.strip_prefix('`') {
            name = rest.split('`').next().filter(|name| !name.contains(' ')).map(str::to_string);
        }
    }
    files
}

#[test]
fn the_ten_minute_dataset_runs() {
    let w = Workspace::new();
    let files = files_of_the_readme();
    let names: Vec<&str> = files.iter().map(|(n, _)| n.as_str()).collect();
    assert_eq!(names, ["mine/dataset.toml", "mine/trials.csv", "mine/b1.csv", "mine.toml"]);
    for (name, content) in &files {
        w.write(name, content);
    }
    let check = calefact(w.path(), &["check", "mine.toml"]);
    assert_eq!(check.code, 0, "{}", check.stderr);
    let run = calefact(w.path(), &["run", "mine.toml"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stderr.contains("; 0 errors, 0 warnings"), "{}", run.stderr);
    let estimates = table(&w.join("reports/mine/tables/estimates.csv"));
    for quantity in ["thermal_efficiency", "heating_rate", "fuel_per_heat", "burn_rate"] {
        assert!(estimates.iter().any(|row| row["quantity"] == quantity), "no {quantity}: {}", run.stderr);
    }
}

/// The lines the README shows of a run are those the demo says.
#[test]
fn the_readme_shows_what_the_demo_says() {
    let text = std::fs::read_to_string(root().join("README.md")).expect("the README");
    let shown: Vec<&str> =
        text.lines().filter(|l| l.starts_with("    ") && l.contains(": thermal efficiency")).collect();
    assert!(!shown.is_empty(), "the README shows no verdict");
    for line in shown {
        let said = &DEMO.outcome.stderr;
        assert!(said.lines().any(|l| l.trim() == line.trim()), "{line} is not what the demo says:\n{said}");
    }
}

/// The reference of datasets is read without a finding, and names every column and every key's table.
#[test]
fn the_reference_of_datasets_is_whole() {
    let text = std::fs::read_to_string(root().join("datasets/README.md")).expect("the reference");
    let example = text.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).expect("an example");
    let w = Workspace::new();
    w.write("data/dataset.toml", example);
    let header = "trial,kind,log,stove,fuel,exchanger,vessel,water [L],Wood [lb],fuel_moisture [%],moisture_basis,ambient [degC]";
    let row = "b1,burn,logs/b1.csv,box,spruce,helix,drum,120,12.3,18,wet,9";
    w.write("data/trials.csv", format!("{header}\n{row}\n"));
    let readings = ["06:00;11,0", "06:12;18,5", "06:24;26,5", "06:36;34,0"];
    let rows: String = readings.iter().flat_map(|r| ["b1;04.03.2031 ", *r, "\n"]).collect();
    w.write("data/logs/b1.csv", format!("made by a logger\n\nrun;clock;Barrel [degC]\n{rows}"));
    w.write("p.toml", "name = \"p\"\ndatasets = [\"data\"]\n");
    let outcome = calefact(w.path(), &["check", "p.toml"]);
    assert!(outcome.stderr.contains(": 0 errors, 0 warnings"), "{}", outcome.stderr);

    let log = calefact_data::Channel::ALL.map(calefact_data::Channel::name);
    for column in calefact_data::register_columns::names().into_iter().chain(log).chain(["elapsed", "clock", "event"]) {
        assert!(text.contains(&format!("`{column}`")), "{column} is not in the reference");
    }
}
