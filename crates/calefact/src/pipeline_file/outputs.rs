//! Outputs of a pipeline, and where they go.

use super::keys::{FORMATS, Format, UNITS};
use super::values::place;
use calefact_data::fact::Toml;
use calefact_data::toml_source::Table;
use calefact_report::Formats;
use std::path::{Path, PathBuf};

/// Outputs.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outputs {
    /// Folder of the results; `reports/<name>` in the current folder if none is stated.
    pub folder: Option<PathBuf>,
    /// Formats of the tables.
    pub formats: Formats,
}

/// Reads `[outputs]`.
pub(super) fn read(root: &Table<'_>, base: &Path) -> Outputs {
    let Some(table) = root.table("outputs") else { return Outputs::default() };
    let mut formats = Formats {
        readings: table.boolean("readings").unwrap_or(false),
        units: table.word("units", &UNITS).unwrap_or_default(),
        ..Formats::default()
    };
    let stated: Vec<Format> = table.items("formats").iter().filter_map(|item| item.word(&FORMATS)).collect();
    if !stated.is_empty() {
        formats.csv = stated.contains(&Format::Csv);
        formats.parquet = stated.contains(&Format::Parquet);
        formats.xlsx = stated.contains(&Format::Xlsx);
    }
    if let Some(item) = table.item("formats").filter(|_| formats.parquet && !Formats::HAS_PARQUET) {
        item.report(Toml::NoParquet);
    }
    Outputs { folder: table.text("folder").map(|folder| place(base, folder)), formats }
}
