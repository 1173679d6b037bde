//! Pipeline files by what they mean and by the text of their problems.

use super::PipelineFile;
use calefact_analysis::Quantity;
use calefact_analysis::settings::{Combine, End, JobVessel, Propagation, RigCheck, Window};
use calefact_data::toml_source;
use calefact_report::words::{self, Wording};
use std::path::Path;

fn read(text: &str) -> (Option<PipelineFile>, String) {
    let (file, findings) =
        toml_source::read_text(Path::new("p.toml"), text, super::KEYS, |root| super::build(root, Path::new("base")));
    let problem = |f: calefact_data::Finding| words::terminal_refused(&Wording::plain(), &f.widen());
    (file.flatten(), findings.into_iter().map(problem).collect::<Vec<_>>().join("\n"))
}

#[test]
fn two_lines_are_enough() {
    let (file, problems) = read("name = \"mine\"\ndatasets = [\"logs\"]\n");
    assert_eq!(problems, "");
    let file = file.expect("a pipeline");
    assert_eq!((file.title.as_str(), file.datasets[0].as_path()), ("mine", Path::new("base/logs")));
    let factors: Vec<&str> = file.settings.comparisons.iter().map(|c| c.factor.as_str()).collect();
    assert_eq!(factors, ["stove", "fuel", "exchanger"]);
    assert_eq!(file.settings.comparisons[0].adjust, ["fuel", "exchanger"]);
}

#[test]
fn every_key_is_understood() {
    let text = r#"
        name = "all"
        title = "All keys"
        datasets = ["a", "../b"]
        read_outside = true
        [settings]
        level = "90 %"
        window = { from = "86 degF", to = "90 degC" }
        end = { target = "60 degC" }
        heating_rate_at = "45 degC"
        propagation = "monte carlo"
        seed = 7
        digits = 3
        rig_check = "correct"
        combine = "REML"
        [reference_job]
        water = "160 L"
        from = "10 degC"
        to = "60 degC"
        ambient = "10 degC"
        fuel_moisture = "20 %"
        [[job]]
        name = "tub"
        water = "0.4 m3"
        from = "12 degC"
        to = "40 degC"
        ambient = "8 degC"
        fuel_moisture = "16 %"
        standing = "2 h"
        repeats = 2
        deadline = "5 h"
        vessel = { volume = "450 L", insulation = "30 mm", conductivity = 0.035, area = "3 m2", mass = "50 kg", material = "steel", top = "open" }
        [[job]]
        name = "dishes"
        water = "0 L"
        from = "60 degC"
        to = "40 degC"
        ambient = "8 degC"
        vessel = "pot"
        [[comparison]]
        factor = "damper"
        kind = "burn"
        only = { stove = "box" }
        adjust = ["fuel"]
        covariates = ["ambient"]
        block = "block"
        quantities = ["thermal_efficiency", "heating_rate"]
        main = "heating_rate"
        planned = 8
        equivalence_margin = "5 %"
        [outputs]
        folder = "out"
        formats = ["csv"]
        readings = false
    "#;
    let (file, problems) = read(text);
    assert_eq!(problems, "");
    let file = file.expect("a pipeline");
    assert_eq!(file.datasets, [Path::new("base/a"), Path::new("b")]);
    assert!(file.read_outside);
    let s = &file.settings;
    assert!(
        matches!(s.window, Window::Between { from, to } if (from - 30.0).abs() < 1e-9 && (to - 90.0).abs() < 1e-12)
    );
    assert_eq!(s.end, End::Target(60.0));
    assert_eq!(s.propagation, Propagation::MonteCarlo { seed: 7, digits: 3 });
    assert_eq!((s.level, s.heating_rate_at, s.rig_check), (0.9, 45.0, RigCheck::Correct));
    assert_eq!(s.combine, Combine::Reml);
    let job = s.reference_job.expect("a job");
    assert!((job.water_m3 - 0.16).abs() < 1e-12 && job.fuel_moisture == Some(0.2));
    let [tub, dishes] = &s.jobs[..] else { panic!("two jobs") };
    assert_eq!((tub.standing_s, tub.repeats, tub.deadline_s), (Some(7200.0), Some(2.0), Some(18_000.0)));
    let JobVessel::Described(own) = &tub.vessel else { panic!("a vessel of its own") };
    // 50 kg of steel at 434 J/(kg K): Incropera & DeWitt, appendix A.1, from memory.
    assert!((own.vessel.heat_capacity.expect("from its mass").value - 21_700.0).abs() < 1e-9);
    assert_eq!((own.wall.insulation_m, own.wall.conductivity, own.wall.area_m2), (Some(0.03), Some(0.035), Some(3.0)));
    assert_eq!((dishes.name.as_str(), &dishes.vessel), ("dishes", &JobVessel::Named("pot".into())));
    let (asked, rate) = (&s.comparisons[0], Quantity::HeatingRate);
    assert_eq!((asked.factor.as_str(), asked.quantities.len(), asked.equivalence_margin), ("damper", 2, Some(0.05)));
    assert_eq!(
        (asked.quantities[0], asked.main, asked.planned),
        (rate, Some(rate), Some(8)),
        "the main one comes first"
    );
    assert!(file.outputs.formats.csv && !file.outputs.formats.parquet && !file.outputs.formats.readings);
}

#[test]
fn all_problems_are_shown_together() {
    let text = r#"name = "a/b"
datasets = []
[settings]
windw = "whole log"
level = 95
end = "fire"
digits = 9
seed = -1
window = { from = "60 degC", to = "30 degC" }
[reference_job]
water = "42 gal"
from = "60 degC"
to = "10 degC"
fuel_moisture = "100 %"
[[comparison]]
factor = "stove"
kind = "burns"
equivalence_margin = "0 %"
[[comparison]]
quantities = ["efficiency"]
[outputs]
formats = []
"#;
    insta::assert_snapshot!(read(text).1);
}

#[test]
fn paths_are_plain() {
    assert_eq!(super::values::place(Path::new("pipelines"), "../datasets/./x"), Path::new("datasets/x"));
    assert_eq!(super::values::place(Path::new(""), "../x"), Path::new("../x"));
}

/// Names of folders become names of results; `..` and blanks do not.
#[test]
fn a_dataset_is_a_pipeline_of_its_own() {
    let dir = tempfile::tempdir().expect("a folder");
    let folder = dir.path().join("wash house (2)");
    std::fs::create_dir(&folder).expect("a folder");
    std::fs::write(folder.join("dataset.toml"), "title = \"Wash house\"\n").expect("a file");
    let pipeline = PipelineFile::of_dataset(&folder).expect("a pipeline");
    assert_eq!((pipeline.name.as_str(), pipeline.title.as_str()), ("wash-house--2-", "Wash house"));
    assert_eq!((pipeline.datasets, pipeline.comparisons_named), (vec![folder], false));
}
