//! The written tables: their columns, and their formats.

use super::{calefact, run};
use calefact_tests::{TinyDataset, Workspace, root};

/// The first columns are part of the interface; further ones may follow.
#[test]
fn columns_are_stable() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    assert_eq!(run(&w).code, 0);
    let header = |name: &str| {
        let text = std::fs::read_to_string(w.join(&format!("out/tables/{name}.csv"))).expect("a table");
        text.lines().next().unwrap_or_default().to_string()
    };
    let estimates = "trial,quantity,value,unit,std_uncertainty,lower,upper,level,dof,method,note";
    assert!(header("estimates").starts_with(estimates), "{}", header("estimates"));
    let contrasts =
        "quantity,factor,a,b,kind,value,unit,lower,upper,level,p_value,p_adjusted,adjustment,verdict,more_trials";
    assert!(header("contrasts").starts_with(contrasts), "{}", header("contrasts"));
}

#[test]
fn formats_can_be_chosen() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str("\n[outputs]\nformats = [\"csv\"]\nreadings = false\n");
    data.write(&w);
    assert_eq!(run(&w).code, 0);
    let files = w.files("out");
    assert!(files.contains_key("tables/estimates.csv"));
    assert!(!files.keys().any(|f| f.contains("parquet") || f.contains("readings")), "{:?}", files.keys());
}

/// The example file names every key with its default: it is read without a finding, and taking the optional ones away changes nothing.
#[test]
fn the_demo_pipeline_has_no_unknown_key() {
    let outcome = calefact(&root(), &["check", "pipelines/hill-nursery.toml", "--csv"]);
    assert!(!outcome.stdout.contains("hill-nursery.toml"), "{}", outcome.stdout);
    assert_ne!(outcome.code, 2, "{}", outcome.stderr);
}
