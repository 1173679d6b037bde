//! Where a register row comes from: its dataset, and the ranges that stand for what nobody recorded there.
//!
//! The ranges that hold where a dataset states none are the analysis's business.

use std::collections::BTreeMap;

/// The dataset of a row.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Origin {
    /// Title of the dataset.
    pub title: String,
    /// Its own ranges.
    pub assume: Assume,
}

/// What `assume` of `dataset.toml` says.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Assume {
    /// Whether nothing is assumed: what was not recorded stays empty.
    pub nothing: bool,
    /// Lower and upper end by input, SI; what is a share of something else is a fraction.
    pub ranges: BTreeMap<String, (f64, f64)>,
}
