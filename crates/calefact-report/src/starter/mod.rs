//! The files of a dataset that is begun: `dataset.toml`, the register, a pipeline file, and an example where there are no logs
//! yet. Texts only; who writes them where, and that nothing is overwritten, is the command's business.

mod dataset_toml;
mod example;
mod register;
mod wood;

use crate::place::slug;
use crate::words::Units;
use calefact_data::Proposal;
use calefact_data::toml_source::spelling::text;
use std::collections::BTreeSet;

/// What a person says of a dataset that is begun.
#[derive(Debug, Clone, Default)]
pub struct StarterRequest<'a> {
    /// Name of the folder, and of the results.
    pub name: String,
    /// Title of the dataset.
    pub title: String,
    /// Units in the headers.
    pub units: Units,
    /// Names of the stoves.
    pub stoves: Vec<String>,
    /// Names of the fuels.
    pub fuels: Vec<String>,
    /// Name of the vessel.
    pub vessel: Option<String>,
    /// Water of a trial, with its unit.
    pub water: Option<String>,
    /// Tolerance of the thermometer of the water.
    pub thermometer: Option<String>,
    /// Tolerance of the scale.
    pub scale: Option<String>,
    /// What the logs show, and the name of each log as the register gives it.
    pub found: Option<(&'a Proposal, Vec<String>)>,
}

/// A file to write, by its path in the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StarterFile {
    /// Path in the folder.
    pub path: &'static str,
    /// Text.
    pub text: String,
}

/// An entry of the apparatus: id and name.
pub(crate) struct Entry {
    pub(crate) id: String,
    pub(crate) name: String,
}

/// The files of a dataset.
pub fn starter_files(request: &StarterRequest<'_>) -> Vec<StarterFile> {
    let file = |path, text| StarterFile { path, text };
    let mut files = vec![
        file("dataset.toml", dataset_toml::text(request)),
        file("trials.csv", register::text(request)),
        file("pipeline.toml", pipeline(request)),
    ];
    if request.found.is_none() {
        files.push(file("example-1.csv", example::log(request.units)));
    }
    files
}

fn pipeline(request: &StarterRequest<'_>) -> String {
    let units = if request.units == Units::Us { "\n[outputs]\nunits = \"us\"\n" } else { "" };
    format!(
        "#:schema schemas/pipeline.schema.json\n\
         # What is compared, and where the results go: stoves, fuels and exchangers, in reports/{name}, unless more is said here.\n\
         name = {}\ntitle = {}\ndatasets = [\".\"]\n{units}",
        text(&request.name),
        text(&request.title),
        name = request.name,
    )
}

impl StarterRequest<'_> {
    /// The cells of a column in the table of trials, each once, in the order of their ids.
    fn in_table(&self, column: &str) -> Vec<String> {
        let rows = self.found.as_ref().and_then(|(proposal, _)| proposal.table.as_ref()).map(|t| &t.rows);
        let cells = rows.into_iter().flatten().filter_map(|row| row.get(column).cloned());
        cells.collect::<BTreeSet<_>>().into_iter().collect()
    }

    /// The entries of a column of ids: those that are said, and those of the table.
    fn entries(&self, column: &str) -> Vec<Entry> {
        let said = match column {
            "stove" => self.stoves.clone(),
            "fuel" => self.fuels.clone(),
            "vessel" => self.vessel.iter().cloned().collect(),
            _ => Vec::new(),
        };
        let mut entries: Vec<Entry> = Vec::new();
        for name in said.into_iter().chain(self.in_table(column)) {
            let id = id(&name);
            if entries.iter().all(|e| e.id != id) {
                entries.push(Entry { id, name });
            }
        }
        if column == "vessel" && entries.is_empty() {
            entries.push(Entry { id: "vessel".to_owned(), name: "Vessel".to_owned() });
        }
        if self.found.is_none() && entries.is_empty() {
            entries.extend(example::entry(column));
        }
        entries
    }

    /// The only entry of a column that no row has to name.
    fn only(&self, column: &str) -> Option<Entry> {
        let mut entries = self.entries(column);
        (entries.len() == 1 && self.in_table(column).is_empty()).then(|| entries.remove(0))
    }
}

/// The id of a name.
pub(crate) fn id(name: &str) -> String {
    let id = slug(name);
    if id.is_empty() { "one".to_owned() } else { id }
}
