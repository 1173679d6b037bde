//! The pipeline file: what to read, how to analyse it, where the results go.
//!
//! All problems of a file are collected, with their place in it. How dataset folders are read is the data crate's business;
//! what the settings mean is the analysis crate's.

mod comparison;
mod job;
mod keys;
mod locate;
mod outputs;
mod plan;
mod publish;
mod reference_job;
mod settings;
mod values;

pub use keys::KEYS;
pub(crate) use locate::{Located, locate};
pub use outputs::Outputs;
pub use plan::PlanWishes;

use calefact_analysis::Settings;
use calefact_analysis::finding::Finding;
use calefact_bundle::Publication;
use calefact_data::{DESCRIPTION, InputFile, Severity, dataset_file, toml_source};
use std::fs;
use std::path::{Path, PathBuf};
use toml_source::Table;

/// A pipeline, resolved: paths as they are opened, values in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct PipelineFile {
    /// Name, the folder of its reports.
    pub name: String,
    /// Title of the report.
    pub title: String,
    /// The file as it was read; none where text was read that is no file.
    pub file: Option<InputFile>,
    /// Folders of the datasets, in order.
    pub datasets: Vec<PathBuf>,
    /// Whether registers and logs may lie outside the folder of their dataset.
    pub read_outside: bool,
    /// Settings of the analysis.
    pub settings: Settings,
    /// Whether the file names its comparisons; else the usual ones are made of what the registers hold.
    pub comparisons_named: bool,
    /// Wishes and guesses for the next burns.
    pub plan: PlanWishes,
    /// Outputs, and where they go.
    pub outputs: Outputs,
    /// What its publication says of itself, where the file tells.
    pub publication: Option<Publication>,
}

impl PipelineFile {
    /// Reads a pipeline file. `None` when anything in it is wrong: a setting that was meant differently must not run.
    pub fn read(path: &Path) -> (Option<Self>, Vec<Finding>) {
        let folder = path.parent().unwrap_or(Path::new(""));
        let (read, findings) = toml_source::read_file(path, KEYS, |root| build(root, folder));
        let findings: Vec<Finding> = findings.into_iter().map(calefact_data::Finding::widen).collect();
        let sound = !findings.iter().any(|f| f.severity == Severity::Error);
        let pipeline = read.filter(|_| sound).and_then(|(pipeline, file)| Some(Self { file: Some(file), ..pipeline? }));
        (pipeline, findings)
    }

    /// The pipeline of a dataset without a file of its own: the usual comparisons, everything else by default. Problems of
    /// the dataset are told when it is opened.
    pub fn of_dataset(folder: &Path) -> Option<Self> {
        let path = folder.join(DESCRIPTION);
        let name = folder_name(folder);
        let (read, _) = toml_source::read_text(&path, &of_one(&name), KEYS, |root| build(root, folder));
        let (title, _) = toml_source::read_file(&path, dataset_file::KEYS, |root| root.string("title"));
        let title = title.map(|(title, _)| title).filter(|title| !title.is_empty()).unwrap_or(name);
        Some(Self { title, ..read.flatten()? })
    }
}

/// The words of a pipeline file for a dataset alone, which leave everything else to defaults.
fn of_one(name: &str) -> String {
    format!("name = \"{name}\"\ndatasets = [\".\"]\n")
}

/// A name for the results of a folder: its own, as far as a folder of results can have it.
pub(crate) fn folder_name(folder: &Path) -> String {
    let opened = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    // A folder that is not there yet has its name all the same.
    let real = fs::canonicalize(opened).unwrap_or_else(|_| opened.to_path_buf());
    let name = real.file_name().map(|name| name.to_string_lossy().into_owned());
    let fits = |c: char| if c.is_alphanumeric() || "-_.".contains(c) { c } else { '-' };
    let name: String = name.unwrap_or_default().chars().map(fits).collect();
    let name = name.trim_start_matches('.');
    if name.is_empty() { "dataset".to_owned() } else { name.to_owned() }
}

fn build(root: &Table<'_>, folder: &Path) -> Option<PipelineFile> {
    let settings = settings::read(root);
    let name = root.text("name")?.to_owned();
    Some(PipelineFile {
        title: root.text("title").unwrap_or(&name).to_owned(),
        name,
        file: None,
        datasets: root.texts("datasets").iter().map(|dataset| values::place(folder, dataset)).collect(),
        read_outside: root.boolean("read_outside").unwrap_or(false),
        settings,
        comparisons_named: root.item("comparison").is_some(),
        plan: plan::read(root),
        outputs: outputs::read(root, folder),
        publication: publish::read(root),
    })
}

#[cfg(test)]
mod tests;
