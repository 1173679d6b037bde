//! `dataset.toml`: the apparatus, the columns of foreign logs and the style of the files.
//!
//! ```toml
//! title = "Hill nursery, wash water"
//! invented = true                      # labels every output; default false
//!
//! [site]
//! name = "Upper terrace"
//! altitude = "420 m"
//!
//! [stoves.box]
//! name = "Box stove"
//! [fuels.spruce]
//! name = "Spruce, split"
//! class = "coniferous"
//! net_calorific_value = "19.1 MJ/kg"   # of dry matter
//! net_calorific_value_uncertainty = "0.3 MJ/kg"   # one standard deviation
//! [vessels.barrel]
//! name = "Barrel"
//! volume = "160 L"
//! mass = "9.5 kg"
//! material = "steel"
//! [instruments.tank-probe]
//! name = "Tank probe"
//! reads = ["tank"]
//! tolerance = "class B Pt100"
//! resolution = "0.1 degC"
//!
//! [columns]
//! tank = "Barrel [degF]"               # or { header = "Barrel", unit = "degF", instrument = "tank-probe" }
//! [logs]
//! decimal = "comma"
//! ```
//!
//! Keys of each table are documented at the function that reads it. Nothing here opens another file.

mod exchangers;
mod files;
mod fuels;
mod instruments;
mod limits;
mod stated;
mod tolerance;
mod vessels;

use limits::Limits;

pub use files::{ColumnMap, FileStyle, LogSettings, RegisterSettings};
pub use tolerance::{ToleranceError, parse_tolerance};

use crate::apparatus::{ALTITUDE_M, Apparatus, Site, Stove};
use crate::toml_source::{self, Table};
use crate::{Channel, Finding};
use calefact_units::Kind;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What `dataset.toml` says.
#[derive(Debug, Clone, Default)]
pub struct DatasetFile {
    /// The apparatus.
    pub apparatus: Apparatus,
    /// `[files] register`: the register, relative to the folder; `trials.csv` by default.
    pub register: Option<PathBuf>,
    /// `[files] logs_root`: folder the log names of the register are relative to; the register's own by default.
    pub logs_root: Option<PathBuf>,
    /// `[columns]` and `[logs]`.
    pub logs: LogSettings,
    /// `[register]`.
    pub register_style: RegisterSettings,
}

/// Reads a `dataset.toml`; `None` if it cannot be opened or is not TOML.
pub fn read(path: &Path) -> (Option<DatasetFile>, Vec<Finding>) {
    toml_source::read_file(path, from_table)
}

/// Reads the text of a `dataset.toml`; `path` is only named in findings.
pub fn read_text(path: &Path, text: &str) -> (Option<DatasetFile>, Vec<Finding>) {
    toml_source::read_text(path, text, from_table)
}

fn from_table(root: &Table<'_>) -> DatasetFile {
    let apparatus = apparatus(root);
    let instruments: Vec<&str> = apparatus.instruments.keys().map(String::as_str).collect();
    let (logs, register_style) = (files::logs(root, &instruments), files::register(root, &instruments));
    let mut file = DatasetFile { apparatus, logs, register_style, ..DatasetFile::default() };
    if let Some(table) = root.table("files") {
        file.register = table.string("register").map(PathBuf::from);
        file.logs_root = table.string("logs_root").map(PathBuf::from);
        table.finish();
    }
    root.finish();
    instruments::link_columns(&mut file.apparatus.instruments, &file.logs.columns);
    instruments::link_columns(&mut file.apparatus.instruments, &file.register_style.columns);
    file
}

fn apparatus(root: &Table<'_>) -> Apparatus {
    Apparatus {
        title: root.required_string("title").unwrap_or_default(),
        invented: root.boolean("invented").unwrap_or(false),
        site: root.table("site").map(|t| site(&t)).unwrap_or_default(),
        stoves: by_id(root, "stoves", stove),
        fuels: by_id(root, "fuels", fuels::fuel),
        exchangers: by_id(root, "exchangers", exchangers::exchanger),
        vessels: by_id(root, "vessels", vessels::vessel),
        instruments: by_id(root, "instruments", instruments::instrument),
    }
}

/// `[site]`: `name`, `altitude` (a length).
fn site(table: &Table<'_>) -> Site {
    let limits = Limits::Between(*ALTITUDE_M.start(), *ALTITUDE_M.end(), "-430 to 9000 m");
    let altitude_m = table.optional("altitude").and_then(|i| limits.quantity(&i, Kind::Length));
    let site = Site { name: table.string("name").unwrap_or_default(), altitude_m };
    table.finish();
    site
}

/// `[stoves.ID]`: `name`, `note`.
fn stove(table: &Table<'_>) -> Stove {
    Stove { name: table.required_string("name").unwrap_or_default(), note: table.string("note") }
}

/// Reads a table of tables whose keys are ids, and reports unknown keys of each.
fn by_id<T>(root: &Table<'_>, key: &'static str, read: impl Fn(&Table<'_>) -> T) -> BTreeMap<String, T> {
    let entries = root.table(key).map(|t| t.entries()).unwrap_or_default();
    let one = |(id, item): (String, toml_source::Item<'_>)| {
        let table = item.table()?;
        let value = read(&table);
        table.finish();
        Some((id, value))
    };
    entries.into_iter().filter_map(one).collect()
}

/// Kind of the quantity a canonical column of log or register holds; `None` for a column of words or times.
pub fn column_kind(name: &str) -> Option<Kind> {
    if let Some(channel) = Channel::from_name(name) {
        return Some(channel.kind());
    }
    Some(match name {
        "fuel_mass" | "kindling_mass" | "leftover_fuel" | "leftover_char" => Kind::Mass,
        "fuel_moisture" => Kind::Fraction,
        "heater_power" => Kind::Power,
        "altitude" => Kind::Length,
        "water" => Kind::Volume,
        _ => return None,
    })
}

#[cfg(test)]
mod tests;
