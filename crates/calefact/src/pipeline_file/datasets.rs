//! Which datasets a pipeline reads.

use calefact_data::toml_source::{Item, Table};
use std::path::{Path, PathBuf};

/// A dataset, by where it lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DatasetRef {
    /// Folder with `dataset.toml`, and unless `files` says otherwise, the register and the logs.
    pub folder: PathBuf,
    /// Folder of the register and the logs, where they are kept apart from `dataset.toml`.
    pub files: Option<PathBuf>,
}

/// Reads `datasets = [...]`, each a folder or `{ folder, files }`, relative to the pipeline file.
pub(super) fn read(root: &Table<'_>, base: &Path) -> Vec<DatasetRef> {
    let Some(list) = root.required("datasets") else { return Vec::new() };
    let Some(items) = list.array() else { return Vec::new() };
    if items.is_empty() {
        list.error("no-dataset", "`datasets` is empty", "name at least one dataset folder");
    }
    items.iter().filter_map(|item| one(item, base)).collect()
}

fn one(item: &Item<'_>, base: &Path) -> Option<DatasetRef> {
    if !item.is_table() {
        return Some(DatasetRef { folder: super::place(base, &item.string()?), files: None });
    }
    let table = item.table()?;
    let folder = table.required_string("folder");
    let files = table.string("files");
    table.finish();
    Some(DatasetRef { folder: super::place(base, &folder?), files: files.map(|f| super::place(base, &f)) })
}
