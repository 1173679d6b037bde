//! Values that several tables of the pipeline file hold: ranges of temperature, and paths.

use calefact_data::fact::Toml;
use calefact_data::normalize_path;
use calefact_data::toml_source::Table;
use std::path::{Path, PathBuf};

/// Two temperatures of a table, of which the second must be above the first.
pub(super) fn rising(table: &Table<'_>, low: &'static str, high: &'static str) -> Option<(f64, f64)> {
    let (from, to) = (table.number(low)?, table.number(high)?);
    if to <= from {
        table.report(Toml::NotRising { table: table.path().into(), low, high });
        return None;
    }
    Some((from, to))
}

/// A path of the pipeline file, which is relative to the file's folder, as seen from where the command runs:
/// `../datasets/x` in `pipelines/p.toml` is `datasets/x`.
pub(super) fn place(base: &Path, path: &str) -> PathBuf {
    normalize_path(&base.join(path))
}
