//! Foreign headers and the columns they stand for, as `dataset.toml` maps them. How the map is written is in `dataset_file`.

use crate::text::header::{folded, split_unit};
use std::collections::BTreeMap;

/// A foreign header and the canonical column it stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColumnMap {
    /// Canonical name.
    pub name: String,
    /// Header in the file, without the unit given beside it.
    pub header: String,
    /// Unit; a unit in the file's own header goes before it.
    pub unit: Option<String>,
    /// Instrument that read the column.
    pub instrument: Option<String>,
}

/// The foreign headers of the files of a dataset. A column may have several, for files of several loggers; a header stands for
/// one column.
#[derive(Debug, Clone, Default)]
pub struct ColumnMaps {
    maps: Vec<ColumnMap>,
    /// Place of each header; files may have as many headers as cells, so that none is looked for one by one.
    places: BTreeMap<String, usize>,
}

impl ColumnMaps {
    /// Adds a header.
    ///
    /// # Errors
    /// The map that has the header already; nothing is added then.
    pub(crate) fn add(&mut self, map: ColumnMap) -> Result<(), &ColumnMap> {
        if let Some(at) = self.places.get(&folded(&map.header)) {
            return Err(&self.maps[*at]);
        }
        self.places.insert(folded(&map.header), self.maps.len());
        self.maps.push(map);
        Ok(())
    }

    /// The map of a header cell as a whole, else of its name without the unit in brackets.
    pub(crate) fn find(&self, cell: &str) -> Option<&ColumnMap> {
        self.find_whole(cell).or_else(|| self.find_whole(split_unit(cell).0))
    }

    /// The map of a header cell as a whole: a bracket in it is a part of its name.
    pub(crate) fn find_whole(&self, cell: &str) -> Option<&ColumnMap> {
        self.places.get(&folded(cell)).map(|at| &self.maps[*at])
    }

    /// The maps in the order of the file.
    pub fn iter(&self) -> impl Iterator<Item = &ColumnMap> {
        self.maps.iter()
    }
}
