//! The tables as CSV and as Parquet hold the same.

use super::{calefact, run, table};
use calefact_tests::{TinyDataset, Workspace, root};
use polars::prelude::{AnyValue, ParquetReader, SerReader};
use std::fs::File;
use std::path::Path;

#[test]
fn parquet_equals_csv() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    assert_eq!(run(&w).code, 0);
    let names = ["readings", "estimates", "groups", "contrasts", "budget", "balance", "findings"];
    for name in names {
        same(&w.join(&format!("out/tables/{name}.csv")), &w.join(&format!("out/tables/{name}.parquet")));
    }
}

pub(super) fn same(csv: &Path, parquet: &Path) {
    let frame = ParquetReader::new(File::open(parquet).expect("a file")).finish().expect("a table");
    let rows = table(csv);
    assert_eq!(rows.len(), frame.height(), "{}", csv.display());
    for column in frame.columns() {
        for (i, row) in rows.iter().enumerate() {
            let (text, value) = (&row[column.name().as_str()], column.get(i).expect("a cell"));
            assert!(cell_equals(text, &value), "{} row {i}: `{text}` against {value:?}", csv.display());
        }
    }
}

fn cell_equals(text: &str, value: &AnyValue<'_>) -> bool {
    match value {
        AnyValue::Null => text.is_empty(),
        AnyValue::String(s) => s == &text,
        AnyValue::StringOwned(s) => s.as_str() == text,
        AnyValue::Boolean(b) => text == b.to_string(),
        number => match (number.try_extract::<f64>(), text.parse::<f64>()) {
            // The CSV may be rounded to the digits that mean something.
            (Ok(a), Ok(b)) => a.total_cmp(&b).is_eq() || (a - b).abs() <= 1e-9 * a.abs().max(1e-300),
            _ => false,
        },
    }
}

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
