//! Values that stand for blank cells of the register. How `dataset.toml` writes them is `dataset_file`'s business, which
//! rows they hold for that of `register_file`.

use crate::Water;
use std::collections::BTreeMap;

/// Value of a column where a row leaves it blank.
#[derive(Debug, Clone, PartialEq)]
pub enum DefaultCell {
    /// Words or an id.
    Text(String),
    /// A number, SI.
    Number(f64),
    /// Water.
    Water(Water),
    /// A value that cannot be used, for a reason that is told where it is written.
    Refused,
}

/// Values by column.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Defaults(BTreeMap<String, DefaultCell>);

impl Defaults {
    /// Defaults by the name of their column.
    pub(crate) const fn new(values: BTreeMap<String, DefaultCell>) -> Self {
        Self(values)
    }

    /// The default of a column.
    pub fn get(&self, column: &str) -> Option<&DefaultCell> {
        self.0.get(column)
    }
}
