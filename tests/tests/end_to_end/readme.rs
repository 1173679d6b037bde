//! What the README tells a newcomer to type works as it stands there.

use super::{calefact, table};
use calefact_tests::{Workspace, root};

/// Every fenced block that follows a file name in backquotes at the start of a line.
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
            name = rest.split('`').next().map(str::to_string);
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
    assert!(run.stderr.contains("0 errors, 0 warnings"), "{}", run.stderr);
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
    let w = Workspace::new();
    let pipeline = root().join("pipelines/hill-nursery.toml");
    let run = calefact(w.path(), &["run", pipeline.to_str().expect("UTF-8"), "--out", "out"]);
    for line in shown {
        assert!(run.stderr.contains(line.trim()), "{line} is not what the demo says:\n{}", run.stderr);
    }
}
