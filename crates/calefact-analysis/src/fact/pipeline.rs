//! Facts about a pipeline: its file, its datasets together, and what its comparisons name.

use calefact_data::ApparatusKind;
use serde::Serialize;
use std::path::PathBuf;

/// A fact about a pipeline.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PipelineFact {
    /// The file is a table or a workbook.
    NotAPipeline {
        /// The file.
        path: PathBuf,
    },
    /// A folder that holds neither a pipeline file nor `dataset.toml`.
    NothingToRun {
        /// The folder.
        folder: PathBuf,
        /// Whether it holds tables or workbooks.
        tables: bool,
    },
    /// A folder that holds several pipeline files.
    SeveralPipelines {
        /// The files.
        files: Vec<PathBuf>,
    },
    /// The folder of the results holds those of another pipeline.
    FolderTaken {
        /// The folder.
        folder: PathBuf,
        /// File of the other pipeline.
        by: String,
    },
    /// A folder without `dataset.toml`.
    NoDataset {
        /// The folder.
        folder: PathBuf,
        /// A dataset beside it with almost its name.
        near: Option<String>,
        /// Whether it holds tables or workbooks.
        tables: bool,
    },
    /// Two datasets describe the entry of an id differently.
    ApparatusConflict {
        /// Kind of the entry.
        kind: ApparatusKind,
        /// The id.
        id: String,
        /// The later dataset.
        dataset: PathBuf,
    },
    /// A trial id of two datasets.
    DuplicateTrial {
        /// The id.
        trial: String,
    },
    /// A comparison names a column that no register has.
    UnknownColumn {
        /// The key that names it.
        key: &'static str,
        /// The column.
        column: String,
        /// Columns of the registers.
        known: Vec<String>,
    },
    /// A comparison is restricted to a level that no trial has.
    UnknownLevel {
        /// The column.
        column: String,
        /// The level.
        level: String,
        /// Levels of that column.
        known: Vec<String>,
    },
    /// No burn names its stove.
    NoStove,
    /// Fuels are priced in several currencies, these.
    SeveralCurrencies(Vec<String>),
}

impl PipelineFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("not-a-pipeline", "a file or folder is neither a pipeline nor a dataset"),
        ("several-pipelines", "a folder holds several pipeline files"),
        ("folder-taken", "the folder of the results holds those of another pipeline"),
        ("dataset-missing", "a folder that the pipeline names is not a dataset"),
        ("apparatus-conflict", "two datasets describe the entry of an id differently"),
        ("duplicate-trial", "two trials have the same id"),
        ("unknown-column", "a column of the register, or of a comparison, is not known"),
        ("unknown-level", "a comparison asks for a level that no trial has"),
        ("stove-missing", "no burn names its stove"),
        ("several-currencies", "fuels are priced in several currencies"),
    ];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotAPipeline { .. } | Self::NothingToRun { .. } => "not-a-pipeline",
            Self::SeveralPipelines { .. } => "several-pipelines",
            Self::FolderTaken { .. } => "folder-taken",
            Self::NoDataset { .. } => "dataset-missing",
            Self::ApparatusConflict { .. } => "apparatus-conflict",
            Self::DuplicateTrial { .. } => "duplicate-trial",
            Self::UnknownColumn { .. } => "unknown-column",
            Self::UnknownLevel { .. } => "unknown-level",
            Self::NoStove => "stove-missing",
            Self::SeveralCurrencies(_) => "several-currencies",
        }
    }
}
