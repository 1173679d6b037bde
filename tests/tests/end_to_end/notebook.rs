//! A notebook as a builder keeps it: two stoves with three burns each, of five rows, blanks included. It gets an answer on the
//! first run, and `check` tells the same story.

use super::{calefact, run, table};
use calefact_tests::Workspace;

/// No mass of the vessel, no tolerance, no air temperature, no class of the fuel.
const APPARATUS: &str = r#"title = "Shed notebook"

[stoves.barrel]
name = "Barrel stove"

[stoves.rocket]
name = "Rocket stove"

[fuels.birch]
name = "Birch, split"

[vessels.drum]
name = "Blue drum"
volume = "120 L"
"#;

/// Kindling and leftovers weighed now and then, one moisture forgotten with its basis.
const REGISTER: &str = "\
trial,kind,date,log,stove,fuel,vessel,water [L],fuel_mass [kg],fuel_moisture [%],moisture_basis,kindling_mass [kg],leftover_fuel [kg],leftover_char [kg]
b1,burn,2031-03-04,b1.csv,barrel,birch,drum,110,6.2,19,dry,,,0.15
r1,burn,2031-03-05,r1.csv,rocket,birch,drum,110,4.4,18,dry,0.3,0,
b2,burn,2031-03-07,b2.csv,barrel,birch,drum,108,5.8,20,dry,,0.4,
r2,burn,2031-03-08,r2.csv,rocket,birch,drum,110,4.6,,,,,0.05
b3,burn,2031-03-11,b3.csv,barrel,birch,drum,110,6.0,19,dry,,,
r3,burn,2031-03-12,r3.csv,rocket,birch,drum,112,4.5,18,dry,,0,0.04
";

/// Minutes and degrees, as read off.
const LOGS: [(&str, &str); 6] = [
    ("b1", "0,9\n15,16\n30,25\n45,33\n60,40\n"),
    ("b2", "0,8\n15,15\n30,23\n45,31\n58,37\n"),
    ("b3", "0,10\n14,17\n30,26\n46,35\n60,41\n"),
    ("r1", "0,9\n12,18\n25,30\n38,41\n50,50\n"),
    ("r2", "0,10\n12,19\n24,30\n37,41\n50,51\n"),
    ("r3", "0,11\n13,21\n25,31\n40,43\n52,52\n"),
];

fn notebook() -> Workspace {
    let w = Workspace::new();
    w.write("data/dataset.toml", APPARATUS);
    w.write("data/trials.csv", REGISTER);
    for (trial, rows) in LOGS {
        w.write(&format!("data/{trial}.csv"), format!("elapsed [min],tank [degC]\n{rows}"));
    }
    w.write("pipeline.toml", "name = \"notebook\"\ndatasets = [\"data\"]\n");
    w
}

#[test]
fn a_notebook_with_blanks_gets_an_answer() {
    let w = notebook();
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let number = |text: &str| text.parse::<f64>().unwrap_or_else(|_| panic!("`{text}` is no number"));
    let estimates = table(&w.join("out/tables/estimates.csv"));
    let efficiencies: Vec<_> = estimates.iter().filter(|row| row["quantity"] == "thermal_efficiency").collect();
    assert_eq!(efficiencies.len(), 6, "{}", outcome.stderr);
    for row in efficiencies {
        let [lower, value, upper] = ["lower", "value", "upper"].map(|column| number(&row[column]));
        assert!(0.05 < lower && lower < value && value < upper && upper < 0.6, "{row:?}");
    }
    let groups = table(&w.join("out/tables/groups.csv"));
    let efficiency_of =
        |stove: &str| groups.iter().any(|g| g["quantity"] == "thermal_efficiency" && g["stove"] == stove);
    assert!(efficiency_of("barrel") && efficiency_of("rocket"));
    let contrasts = table(&w.join("out/tables/contrasts.csv"));
    assert!(contrasts.iter().any(|c| c["quantity"] == "thermal_efficiency" && c["kind"] == "difference"));
    assert!(outcome.stderr.contains("stove: thermal efficiency Rocket stove "), "{}", outcome.stderr);
}

#[test]
fn check_tells_the_story_of_a_notebook_as_run_does() {
    let w = notebook();
    let (check, run) = (calefact(w.path(), &["check", "pipeline.toml"]), run(&w));
    assert_eq!((check.code, run.code), (0, 0), "{}", check.stderr);
    let story = |stderr: &str| {
        let warnings = stderr.split("\n\n").filter(|part| part.trim_start().starts_with("warning "));
        let missing = stderr.lines().filter(|line| line.contains("not given: "));
        warnings.chain(missing).map(ToOwned::to_owned).collect::<Vec<String>>()
    };
    assert_eq!(story(&check.stderr), story(&run.stderr));
    let counts = |stderr: &str| {
        let line = stderr.lines().find(|line| line.contains(" errors, ")).expect("counts");
        line.split("0 errors").nth(1).map(ToOwned::to_owned)
    };
    assert_eq!(counts(&check.stderr), counts(&run.stderr));
}
