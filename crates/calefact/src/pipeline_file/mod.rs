//! The pipeline file: what to read, how to analyse it, where the results go.
//!
//! All problems of a file are collected, with their place in it. How dataset folders are read is the data crate's business;
//! what the settings mean is the analysis crate's.

mod comparison;
mod datasets;
mod outputs;
mod reference_job;
mod settings;

pub use outputs::Outputs;

use calefact_analysis::Settings;
use calefact_analysis::finding::Finding;
use calefact_data::fact::FromText as _;
use calefact_data::{Severity, normalize_path, toml_source};
use std::path::{Path, PathBuf};
use toml_source::Table;

/// A pipeline, resolved: paths as they are opened, values in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct PipelineFile {
    /// Name, the folder of its reports.
    pub name: String,
    /// Title of the report.
    pub title: String,
    /// Folders of the datasets, in order.
    pub datasets: Vec<PathBuf>,
    /// Settings of the analysis.
    pub settings: Settings,
    /// Whether the file names its comparisons; else the usual ones are made of what the registers hold.
    pub comparisons_named: bool,
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
        let (file, findings) = toml_source::read_file(path, |root| build(root, folder));
        let mut findings: Vec<Finding> = findings.into_iter().map(calefact_data::Finding::widen).collect();
        let sound = !findings.iter().any(|f| f.severity == Severity::Error);
        if !sound {
            // Nothing is done with a file that is refused.
            for words in findings.iter_mut().filter_map(|f| f.fact.text_mut()) {
                words.action = None;
            }
        }
        (file.flatten().filter(|_| sound), findings)
    }
}

/// A finding for what is no pipeline file by its name: a folder, a description of a dataset, a table.
fn other_file(path: &Path) -> Option<Finding> {
    let table = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv"));
    let what = match path.file_name() {
        Some(name) if name == "dataset.toml" => "the description of a dataset",
        _ if path.is_dir() => "a folder",
        _ if table => "a table",
        _ => return None,
    };
    let message = format!("this is {what}; a pipeline file is wanted");
    let hint = "write a TOML file with `name = \"mine\"` and `datasets = [\"the dataset's folder\"]`, and give that";
    Some(Finding::error_text("not-a-pipeline", message).at(path, None, None).hint(hint))
}

fn build(root: &Table<'_>, folder: &Path) -> Option<PipelineFile> {
    let name = root.required("name").and_then(|item| {
        let name = item.string()?;
        let sound = !name.is_empty()
            && name.chars().all(|c| c.is_alphanumeric() || "-_.".contains(c))
            && !name.starts_with('.');
        if !sound {
            item.error("bad-name", "`name` names a folder", "use letters, digits, `-` and `_`");
        }
        sound.then_some(name)
    });
    let title = root.string("title");
    let datasets = datasets::read(root, folder);
    let comparisons_named = root.optional("comparison").is_some();
    let settings = settings::read(root);
    let outputs = outputs::read(root, folder);
    root.finish();
    let name = name?;
    Some(PipelineFile {
        title: title.unwrap_or_else(|| name.clone()),
        name,
        datasets,
        settings,
        comparisons_named,
        outputs,
    })
}

/// A path of the pipeline file, which is relative to the file's folder, as seen from where the command runs:
/// `../datasets/x` in `pipelines/p.toml` is `datasets/x`.
fn place(base: &Path, path: &str) -> PathBuf {
    normalize_path(&base.join(path))
}

#[cfg(test)]
mod tests;
