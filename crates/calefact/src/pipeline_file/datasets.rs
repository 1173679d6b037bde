//! Which datasets a pipeline reads.

use calefact_data::toml_source::{Item, Table};
use std::path::{Path, PathBuf};

/// Reads `datasets = [...]`, folders relative to the pipeline file.
pub(super) fn read(root: &Table<'_>, base: &Path) -> Vec<PathBuf> {
    let Some(list) = root.required("datasets") else { return Vec::new() };
    let Some(items) = list.array() else { return Vec::new() };
    if items.is_empty() {
        list.error("no-dataset", "`datasets` is empty", "name at least one dataset folder");
    }
    items.iter().filter_map(Item::string).map(|folder| super::place(base, &folder)).collect()
}
