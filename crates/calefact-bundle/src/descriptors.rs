//! The files that describe a bundle: licence, citation, tables, provenance, and a page that says how to check it. All follow open
//! standards; the page is for people who have none of the programs.

use crate::names::{CHECKSUMS, PIPELINE};
use crate::{Publication, citation, crate_metadata, data_package};
use std::collections::BTreeSet;
use std::io;
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
    /// Writes all descriptors.
    ///
    /// # Errors
    /// If a table that they describe cannot be read, or a descriptor cannot be written.
    pub fn write(&self) -> io::Result<()> {
        let texts = [
            (LICENCE, self.publication.licence_text().unwrap_or_default()),
            (CITATION, citation::text(self.publication)),
            (DATA_PACKAGE, pretty(&data_package::document(self)?)?),
            (README, self.readme()),
            (CRATE, pretty(&crate_metadata::document(self)?)?),
        ];
        texts.iter().try_for_each(|(name, text)| std::fs::write(self.root.join(name), text))
    }

    /// What it is, in a few sentences.
    pub(crate) fn description(&self) -> String {
        let stated = self.publication.description.clone();
        stated.unwrap_or_else(|| {
            let titles: Vec<&str> = self.datasets.iter().map(|set| set.title.as_str()).collect();
            format!("Wood-stove water-heating trials, their inputs and results: {}.", titles.join("; "))
        })
    }

    /// Whether readings are invented.
    pub(crate) fn is_invented(&self) -> bool {
        self.datasets.iter().any(|set| set.invented)
    }

    fn readme(&self) -> String {
        let Publication { title, licence, date, .. } = self.publication;
        let Software { name, version } = self.software;
        let invented =
            if self.is_invented() { "\nThe readings are invented; no measurement stands behind them.\n" } else { "" };
        let licence = licence.map_or("", |l| l.id);
        let (holders, description) = (self.publication.holders(), self.description());
        format!(
            "# {title}\n\n{holders}, {date}. Licence: {licence} (LICENSE.txt). How to cite it: CITATION.cff.\n\n{description}\n{invented}\n\
             | file | content |\n|---|---|\n\
             | `results/report.html` | the report; open it in a browser |\n\
             | `results/tables` | the results as tables; `datapackage.json` explains every column |\n\
             | `datasets` | apparatus, trials and logs as they were read |\n\
             | `{PIPELINE}` | the settings |\n\
             | `ro-crate-metadata.json` | who, with what, from what |\n\
             | `{CHECKSUMS}` | SHA-256 of every other file |\n\n\
             To check that no file has changed:\n\n    sha256sum --check {CHECKSUMS}\n\n\
             To check that, and that the results follow from the inputs ({name} {version}):\n\n    {name} verify .\n"
        )
    }
}

fn pretty(document: &serde_json::Value) -> io::Result<String> {
    Ok(serde_json::to_string_pretty(document)? + "\n")
}
