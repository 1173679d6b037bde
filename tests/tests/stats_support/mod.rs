//! Reading the published statistics tables.
#![allow(dead_code, clippy::allow_attributes, reason = "each test binary uses its own part")]

use std::collections::BTreeMap;

/// Rows of a reference CSV under `reference/stats-data`, by column name; `None` when the data are absent.
pub(crate) fn rows(name: &str) -> Option<Vec<BTreeMap<String, String>>> {
    let path = calefact_tests::reference(&format!("reference/stats-data/{name}"))?;
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_path(path).expect("readable table");
    let headers = reader.headers().expect("header").clone();
    let named = |r: csv::StringRecord| headers.iter().zip(r.iter()).map(|(h, v)| (h.into(), v.into())).collect();
    let rows: Vec<_> = reader.records().map(|r| named(r.expect("row"))).collect();
    assert!(!rows.is_empty(), "{name} has no rows");
    Some(rows)
}

/// A cell as a number; an empty cell is not a number.
pub(crate) fn number(row: &BTreeMap<String, String>, column: &str) -> f64 {
    row.get(column).and_then(|v| v.trim().parse().ok()).unwrap_or(f64::NAN)
}

/// A results table (case, quantity, value) as a lookup.
pub(crate) struct Results(BTreeMap<(String, String), f64>);

impl Results {
    /// Reads the table.
    pub(crate) fn read(name: &str) -> Option<Self> {
        let pairs = rows(name)?.into_iter().map(|r| ((r["case"].clone(), r["quantity"].clone()), number(&r, "value")));
        Some(Self(pairs.collect()))
    }

    /// The published or recomputed value; panics when the table has none.
    pub(crate) fn get(&self, case: &str, quantity: &str) -> f64 {
        let key = (case.to_owned(), quantity.to_owned());
        *self.0.get(&key).unwrap_or_else(|| panic!("no {quantity} for {case}"))
    }
}

/// Values of `column` split by the text in `by`, in order of first appearance.
pub(crate) fn split(rows: &[BTreeMap<String, String>], by: &str, column: &str) -> Vec<(String, Vec<f64>)> {
    let mut groups: Vec<(String, Vec<f64>)> = Vec::new();
    for row in rows {
        let value = number(row, column);
        match groups.iter_mut().find(|(name, _)| *name == row[by]) {
            Some((_, values)) => values.push(value),
            None => groups.push((row[by].clone(), vec![value])),
        }
    }
    groups
}

/// Level codes of a text column, in order of first appearance.
pub(crate) fn codes(rows: &[BTreeMap<String, String>], column: &str) -> (Vec<usize>, Vec<String>) {
    let mut names: Vec<String> = Vec::new();
    let codes = rows
        .iter()
        .map(|r| {
            names.iter().position(|n| *n == r[column]).unwrap_or_else(|| {
                names.push(r[column].clone());
                names.len() - 1
            })
        })
        .collect();
    (codes, names)
}

/// Fails unless `got` agrees with `want` to `relative`, or to `relative` itself near zero.
#[track_caller]
pub(crate) fn agree(what: &str, got: f64, want: f64, relative: f64) {
    let scale = want.abs().max(1e-300);
    assert!(((got - want) / scale).abs() <= relative, "{what}: got {got}, want {want}");
}
