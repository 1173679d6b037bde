//! The pipeline file: what to read, how to analyse it, where the results go.
//!
//! All problems of a file are collected, with their place in it. How dataset folders are read is the data crate's business;
//! what the settings mean is the analysis crate's.

mod comparison;
mod job;
mod keys;
mod outputs;
mod plan;
mod reference_job;
mod settings;
mod values;

pub use keys::KEYS;
pub use outputs::Outputs;
pub use plan::PlanWishes;

use calefact_analysis::Settings;
use calefact_analysis::fact::{OtherFile, PipelineFact};
use calefact_analysis::finding::Finding;
use calefact_data::{InputFile, Severity, toml_source};
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
    /// What is written, and where.
    pub outputs: Outputs,
}

impl PipelineFile {
    /// Reads a pipeline file. `None` when anything in it is wrong: a setting that was meant differently must not run.
    pub fn read(path: &Path) -> (Option<Self>, Vec<Finding>) {
        if let Some(finding) = other_file(path) {
            return (None, vec![finding]);
        }
        let folder = path.parent().unwrap_or(Path::new(""));
        let (read, findings) = toml_source::read_file(path, KEYS, |root| build(root, folder));
        let findings: Vec<Finding> = findings.into_iter().map(calefact_data::Finding::widen).collect();
        let sound = !findings.iter().any(|f| f.severity == Severity::Error);
        let pipeline = read.filter(|_| sound).and_then(|(pipeline, file)| Some(Self { file: Some(file), ..pipeline? }));
        (pipeline, findings)
    }
}

/// A finding for what is no pipeline file by its name: a folder, a description of a dataset, a table.
fn other_file(path: &Path) -> Option<Finding> {
    let table = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv"));
    let found = match path.file_name() {
        Some(name) if name == "dataset.toml" => OtherFile::Dataset,
        _ if path.is_dir() => OtherFile::Folder,
        _ if table => OtherFile::Table,
        _ => return None,
    };
    Some(Finding::error(PipelineFact::NotAPipeline { found }).at(path, None, None))
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
    })
}

#[cfg(test)]
mod tests;
