//! Names of the apparatus for readers, by kind and id. What the apparatus is made of is in [`crate::apparatus`].

use crate::Apparatus;
use serde::Serialize;
use std::collections::BTreeMap;

/// Kind of apparatus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ApparatusKind {
    /// A stove.
    Stove,
    /// A fuel.
    Fuel,
    /// An exchanger.
    Exchanger,
    /// A vessel.
    Vessel,
    /// An instrument.
    Instrument,
}

impl ApparatusKind {
    /// The kind that a register column or a factor names.
    pub fn from_column(column: &str) -> Option<Self> {
        match column {
            "stove" => Some(Self::Stove),
            "fuel" => Some(Self::Fuel),
            "exchanger" => Some(Self::Exchanger),
            "vessel" => Some(Self::Vessel),
            _ => None,
        }
    }
}

impl Apparatus {
    /// Whether an entry of a kind has the id.
    pub(crate) fn has(&self, kind: ApparatusKind, id: &str) -> bool {
        match kind {
            ApparatusKind::Stove => self.stoves.contains_key(id),
            ApparatusKind::Fuel => self.fuels.contains_key(id),
            ApparatusKind::Exchanger => self.exchangers.contains_key(id),
            ApparatusKind::Vessel => self.vessels.contains_key(id),
            ApparatusKind::Instrument => self.instruments.contains_key(id),
        }
    }

    /// Ids and names of the entries of a kind.
    pub(crate) fn entries(&self, kind: ApparatusKind) -> Vec<(&str, &str)> {
        fn pairs<T>(entries: &BTreeMap<String, T>, name: fn(&T) -> &String) -> Vec<(&str, &str)> {
            entries.iter().map(|(id, entry)| (id.as_str(), name(entry).as_str())).collect()
        }
        match kind {
            ApparatusKind::Stove => pairs(&self.stoves, |e| &e.name),
            ApparatusKind::Fuel => pairs(&self.fuels, |e| &e.name),
            ApparatusKind::Exchanger => pairs(&self.exchangers, |e| &e.name),
            ApparatusKind::Vessel => pairs(&self.vessels, |e| &e.name),
            ApparatusKind::Instrument => pairs(&self.instruments, |e| &e.name),
        }
    }

    /// The ids of a kind.
    pub fn ids(&self, kind: ApparatusKind) -> Vec<String> {
        self.entries(kind).into_iter().map(|(id, _)| id.to_owned()).collect()
    }
}

/// Names by kind and id. A name that two entries of a kind share carries the id too, so that each names one entry.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ApparatusNames(BTreeMap<ApparatusKind, BTreeMap<String, String>>);

impl ApparatusNames {
    /// No names.
    pub const fn none() -> Self {
        Self(BTreeMap::new())
    }

    /// The name of an entry; its id where it has no name.
    pub fn get<'a>(&'a self, kind: ApparatusKind, id: &'a str) -> &'a str {
        self.0.get(&kind).and_then(|names| names.get(id)).map_or(id, String::as_str)
    }

    /// The id of the only entry of a kind.
    pub fn only(&self, kind: ApparatusKind) -> Option<&str> {
        let mut ids = self.0.get(&kind)?.keys();
        ids.next().filter(|_| ids.next().is_none()).map(String::as_str)
    }

    /// Adds the entries of a kind by id and name.
    #[must_use]
    pub fn with<'a>(
        mut self,
        kind: ApparatusKind,
        entries: impl Iterator<Item = (&'a String, &'a String)> + Clone,
    ) -> Self {
        let named = entries.filter(|(_, name)| !name.trim().is_empty());
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        named.clone().for_each(|(_, name)| *counts.entry(name.trim()).or_insert(0) += 1);
        let is_shared = |name: &str| counts.get(name).is_some_and(|count| *count > 1);
        let unique = |(id, name): (&String, &String)| {
            let name = name.trim();
            (id.clone(), if is_shared(name) { format!("{name} ({id})") } else { name.to_owned() })
        };
        self.0.entry(kind).or_default().extend(named.map(unique));
        self
    }
}

impl From<&Apparatus> for ApparatusNames {
    fn from(apparatus: &Apparatus) -> Self {
        Self::none()
            .with(ApparatusKind::Stove, apparatus.stoves.iter().map(|(id, entry)| (id, &entry.name)))
            .with(ApparatusKind::Fuel, apparatus.fuels.iter().map(|(id, entry)| (id, &entry.name)))
            .with(ApparatusKind::Exchanger, apparatus.exchangers.iter().map(|(id, entry)| (id, &entry.name)))
            .with(ApparatusKind::Vessel, apparatus.vessels.iter().map(|(id, entry)| (id, &entry.name)))
            .with(ApparatusKind::Instrument, apparatus.instruments.iter().map(|(id, entry)| (id, &entry.name)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::apparatus::Stove;

    #[test]
    fn each_name_names_one_entry() {
        let stove = |name: &str| Stove { name: name.into(), note: None };
        let stoves = [("a", "Box stove"), ("b", " Box stove"), ("c", "Rocket stove"), ("d", "")];
        let apparatus =
            Apparatus { stoves: stoves.map(|(id, name)| (id.into(), stove(name))).into(), ..Apparatus::default() };
        let names = ApparatusNames::from(&apparatus);
        let shown = ["a", "b", "c", "d", "unknown"].map(|id| names.get(ApparatusKind::Stove, id));
        assert_eq!(shown, ["Box stove (a)", "Box stove (b)", "Rocket stove", "d", "unknown"]);
    }
}
