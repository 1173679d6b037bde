//! From an [`Analysis`](calefact_analysis::result::Analysis) to what a person or a program reads: tables, charts, one
//! HTML report and a manifest.
//!
//! Everything is written into a working folder beside the target and moved into place at the end ([`Stage`]). Same
//! analysis, same bytes: no clock, no absolute path, no order that depends on a hash or on the number of threads.
//! What does not live here: physics and statistics. A number is only rounded and put into a unit a reader expects.

mod book_folder;
mod charts;
mod columns;
mod csv_file;
mod error;
mod figure;
mod folder;
mod formats;
mod html;
mod leaders;
mod manifest;
mod number;
#[cfg(feature = "parquet")]
mod parquet_file;
mod pick;
mod place;
mod plan_folder;
mod readings;
mod results;
mod sheet;
mod sheet_file;
mod stage;
mod staging;
mod standing;
mod starter;
mod table_files;
mod table_writer;
mod tables;
mod trial_tables;
pub mod words;
mod working;

pub use book_folder::write_book;
pub use error::ReportError;
pub use formats::Formats;
pub use manifest::{ToolInfo, made_of};
pub use plan_folder::PlanFolder;
pub use readings::{ReadingsFiles, ReadingsWriter};
pub use results::Results;
pub use sheet::{Paper, SheetRequest, write_blank_sheets};
pub use stage::{Stage, Summary};
pub use staging::Staging;
pub use starter::{StarterFile, StarterRequest, starter_files};
pub use tables::book::VERSION as BOOK_VERSION;
pub use trial_tables::TrialTables;
pub use working::abandon;

#[cfg(test)]
#[path = "../tests/support/fixture.rs"]
mod fixture;
