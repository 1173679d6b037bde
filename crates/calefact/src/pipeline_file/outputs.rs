//! What a pipeline writes, and where.

use calefact_data::toml_source::Table;
use calefact_report::Formats;
use calefact_report::words::Units;
use std::path::{Path, PathBuf};

/// What is written.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outputs {
    /// Folder of the results; `reports/<name>` in the current folder if none is stated.
    pub folder: Option<PathBuf>,
    /// Forms of the tables.
    pub formats: Formats,
}

/// Reads `[outputs]`.
pub(super) fn read(root: &Table<'_>, base: &Path) -> Outputs {
    let Some(table) = root.table("outputs") else { return Outputs::default() };
    let mut formats = formats(&table);
    formats.readings = table.boolean("readings").unwrap_or(true);
    let units = [("metric", Units::Metric), ("us", Units::Us)];
    formats.units = table.optional("units").and_then(|item| item.word(&units)).unwrap_or_default();
    let folder = table.string("folder").map(|f| super::place(base, &f));
    table.finish();
    Outputs { folder, formats }
}

#[derive(Clone, Copy, PartialEq)]
enum Form {
    Csv,
    Parquet,
}

fn formats(table: &Table<'_>) -> Formats {
    let words = [("csv", Form::Csv), ("parquet", Form::Parquet)];
    let Some(list) = table.optional("formats") else { return Formats::default() };
    let forms: Vec<Form> = list.array().unwrap_or_default().iter().filter_map(|item| item.word(&words)).collect();
    if forms.is_empty() {
        list.error("no-format", "`outputs.formats` names no table format", "write [\"csv\"], [\"parquet\"] or both");
    }
    if forms.contains(&Form::Parquet) && !Formats::HAS_PARQUET {
        list.error(
            "no-parquet",
            "`outputs.formats` asks for Parquet, and this build writes none",
            "build with `--features parquet`, or leave \"parquet\" out",
        );
    }
    Formats { csv: forms.contains(&Form::Csv), parquet: forms.contains(&Form::Parquet), ..Formats::default() }
}
