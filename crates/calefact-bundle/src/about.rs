//! What the descriptors of a bundle tell, and their names. How each is written stands in a file of its own.

use crate::Publication;
use std::collections::BTreeSet;
use std::path::Path;

/// The program that made the results.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Software {
    /// Its name.
    pub name: String,
    /// Its version.
    pub version: String,
}

/// A dataset of the bundle.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DatasetEntry {
    /// Its folder in the bundle.
    pub folder: String,
    /// Its title.
    pub title: String,
    /// Whether its readings are invented.
    pub invented: bool,
    /// Name of its site; empty if it has none.
    pub site: String,
    /// Names of its instruments, each with the columns that it reads.
    pub instruments: Vec<(String, Vec<String>)>,
}

/// What the descriptors tell.
#[derive(Debug, Clone, Copy)]
pub struct Descriptors<'a> {
    /// Folder of the bundle.
    pub root: &'a Path,
    /// Name of the pipeline.
    pub name: &'a str,
    /// What the publication says of itself.
    pub publication: &'a Publication,
    /// The program.
    pub software: &'a Software,
    /// The datasets.
    pub datasets: &'a [DatasetEntry],
    /// The files that are there, without the descriptors.
    pub files: &'a BTreeSet<String>,
}

/// Names of the descriptors.
pub(crate) const LICENCE: &str = "LICENSE.txt";
pub(crate) const CITATION: &str = "CITATION.cff";
pub(crate) const DATA_PACKAGE: &str = "datapackage.json";
pub(crate) const CRATE: &str = "ro-crate-metadata.json";
pub(crate) const README: &str = "README.md";

impl Descriptors<'_> {
    /// What it is, in a few sentences.
    pub(crate) fn description(&self) -> String {
        let stated = self.publication.description.clone();
        stated.unwrap_or_else(|| {
            let titles: Vec<&str> = self.datasets.iter().map(|set| set.title.as_str()).collect();
            format!("Wood-stove water-heating trials, their inputs and results: {}.", titles.join("; "))
        })
    }

    /// A sentence on the readings that are invented, if any.
    pub(crate) fn invented(&self) -> Option<String> {
        let invented: Vec<&str> = self.datasets.iter().filter(|set| set.invented).map(|s| s.title.as_str()).collect();
        let readings = if invented.len() == self.datasets.len() {
            "The readings".to_owned()
        } else {
            format!("The readings of {}", invented.join(" and of "))
        };
        (!invented.is_empty()).then(|| format!("{readings} are invented; no measurement stands behind them."))
    }
}
