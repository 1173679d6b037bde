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
//! Every key, what it holds and what it means is in [`KEYS`]. Nothing here opens another file.

mod assume;
mod defaults;
mod exchangers;
mod files;
mod fuels;
mod instruments;
mod keys;
mod tolerance;
mod vessels;

pub use keys::KEYS;
pub use vessels::{MATERIALS, TOPS};

use crate::apparatus::{Apparatus, Site, Stove};
use crate::layout::{LogSettings, RegisterSettings};
use crate::toml_source::{self, Table};
use crate::{Assume, Finding};
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
    /// `assume`.
    pub assume: Assume,
}

/// Reads the bytes of a `dataset.toml`; `path` is only named in findings. `None` if they are not TOML.
pub(crate) fn read(path: &Path, bytes: Vec<u8>) -> (Option<DatasetFile>, Vec<Finding>) {
    toml_source::read_bytes(path, bytes, KEYS, from_table)
}

/// Reads the text of a `dataset.toml`; `path` is only named in findings.
pub fn read_text(path: &Path, text: &str) -> (Option<DatasetFile>, Vec<Finding>) {
    toml_source::read_text(path, text, KEYS, from_table)
}

fn from_table(root: &Table<'_>) -> DatasetFile {
    let assume = assume::assume(root);
    let apparatus = apparatus(root, &assume);
    let instruments: Vec<&str> = apparatus.instruments.keys().map(String::as_str).collect();
    let logs = files::logs(root, &instruments);
    let register = files::register(root, &instruments);
    let register_style = RegisterSettings { defaults: defaults::defaults(root, &apparatus), ..register };
    let mut file = DatasetFile { apparatus, logs, register_style, assume, ..DatasetFile::default() };
    if let Some(table) = root.table("files") {
        file.register = table.text("register").map(PathBuf::from);
        file.logs_root = table.text("logs_root").map(PathBuf::from);
    }
    instruments::report_shared(root, &file.logs.columns, &file.register_style.columns);
    instruments::link_columns(&mut file.apparatus.instruments, &file.logs.columns);
    instruments::link_columns(&mut file.apparatus.instruments, &file.register_style.columns);
    file
}

fn apparatus(root: &Table<'_>, assume: &Assume) -> Apparatus {
    Apparatus {
        title: root.string("title"),
        invented: root.boolean("invented").unwrap_or(false),
        site: root.table("site").map(|t| site(&t)).unwrap_or_default(),
        stoves: by_id(root, "stoves", stove),
        fuels: by_id(root, "fuels", fuels::fuel),
        exchangers: by_id(root, "exchangers", exchangers::exchanger),
        vessels: by_id(root, "vessels", vessels::vessel),
        instruments: by_id(root, "instruments", instruments::instrument),
        assumes_nothing: assume.nothing,
    }
}

fn site(table: &Table<'_>) -> Site {
    Site { name: table.string("name"), altitude_m: table.number("altitude") }
}

fn stove(table: &Table<'_>) -> Stove {
    Stove { name: table.string("name"), note: table.text("note").map(Into::into) }
}

/// Reads a table of tables whose keys are ids.
fn by_id<T>(root: &Table<'_>, key: &str, read: impl Fn(&Table<'_>) -> T) -> BTreeMap<String, T> {
    root.entries(key).into_iter().filter_map(|(id, item)| Some((id, read(&item.table()?)))).collect()
}

#[cfg(test)]
mod tests;
