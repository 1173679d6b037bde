//! Knowledge of a dataset that is begun: what the person said, and what the logs and the table of trials show.

use super::example;
use crate::place::slug;
use crate::words::Units;
use calefact_data::Proposal;
use std::collections::BTreeSet;

/// Answers of the person on a dataset that is begun.
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

/// An entry of the apparatus: id and name.
pub(super) struct Entry {
    pub(super) id: String,
    pub(super) name: String,
}

impl StarterRequest<'_> {
    /// The cells of a column in the table of trials, each once, in the order of their ids.
    pub(super) fn in_table(&self, column: &str) -> Vec<String> {
        let rows = self.found.as_ref().and_then(|(proposal, _)| proposal.table.as_ref()).map(|t| &t.rows);
        let cells = rows.into_iter().flatten().filter_map(|row| row.get(column).cloned());
        cells.collect::<BTreeSet<_>>().into_iter().collect()
    }

    /// The entries of a column of ids: those that are said, and those of the table.
    pub(super) fn entries(&self, column: &str) -> Vec<Entry> {
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
            entries.extend(example::entry(column).map(|(id, name)| Entry { id: id.into(), name: name.into() }));
        }
        entries
    }

    /// The only entry of a column that no row has to name.
    pub(super) fn only(&self, column: &str) -> Option<Entry> {
        let mut entries = self.entries(column);
        (entries.len() == 1 && self.in_table(column).is_empty()).then(|| entries.remove(0))
    }
}

/// The id of a name.
pub(super) fn id(name: &str) -> String {
    let id = slug(name);
    if id.is_empty() { "one".to_owned() } else { id }
}
