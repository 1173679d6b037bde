//! Reading datasets and logs. IO lives at this edge; everything handed on is a plain value in SI.
//!
//! Steps: `dataset.toml` -> [`Apparatus`]; `trials.csv` -> [`RegisterRow`]s; `logs/*.csv` -> [`Readings`]. Every problem is
//! a [`Finding`]; an error stops the trial it belongs to, not the batch. Nothing is computed from the readings here.
//!
//! [`Dataset`] is the way in: open a folder, ask for its [`LogBatch`]es, read them on as many threads as there are.
//! [`toml_source`] is the one way TOML is read, here and for pipeline files.

pub mod apparatus;
pub mod dataset_file;
pub mod fact;
mod faults;
pub mod finding;
mod finding_summary;
mod input_file;
mod log_file;
mod log_files;
pub mod personal;
pub mod readings;
mod register;
pub mod register_columns;
mod register_defaults;
pub mod register_file;
pub mod toml_source;

mod apparatus_names;
mod channel;
mod column_maps;
mod dataset;
mod file;
mod layout;
mod limits;
mod named;
mod nearest;
mod normalize_path;
mod origin;
mod proposal;
mod reach;
mod read_as;
mod set_apart;
mod table_reader;
mod text;
mod workbook;

pub use apparatus::Apparatus;
pub use apparatus_names::{ApparatusKind, ApparatusNames};
pub use channel::Channel;
pub use dataset::{Dataset, LogBatch, ReadTrial};
pub use fact::Fact;
pub use finding::{Repeats, Severity};
pub use finding_summary::{FindingGroup, FindingSummary};
pub use input_file::InputFile;
pub use limits::Limit;
pub use log_files::{holds_tables, is_table, tables};
pub use nearest::nearest;
pub use normalize_path::normalize_path;
pub use origin::{Assume, Origin};
pub use proposal::{
    ClockFormat, ColumnProposal, DateDoubt, LeftOut, LogProposal, Meaning, Proposal, Reason, Role, TableColumn,
    TableProposal, TrialProposal, UnitReason, propose,
};
pub use read_as::{ClockTime, ReadAs, ReadColumn};
pub use readings::Readings;
pub use register::{MoistureBasis, RegisterRow, TrialKind, Water};
pub use register_defaults::{DefaultCell, Defaults};
pub use workbook::{SheetAddress, SheetTable, place_name, sheets};

/// The file that makes a folder a dataset.
pub const DESCRIPTION: &str = "dataset.toml";

/// A finding of the reader.
pub type Finding = finding::Finding<Fact>;
