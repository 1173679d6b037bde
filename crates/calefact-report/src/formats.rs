//! Forms in which a report is written.

use crate::words::Units;

/// Which forms of the tables are written, and the units of everything that people read.
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of its own")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Formats {
    /// Tables as CSV.
    pub csv: bool,
    /// Tables as Parquet.
    pub parquet: bool,
    /// Tables as the sheets of one workbook.
    pub xlsx: bool,
    /// The readings table, the only large one: a copy of all logs in one layout and in SI.
    pub readings: bool,
    /// Units of page and charts; tables are in SI units.
    pub units: Units,
}

impl Formats {
    /// Whether this build writes Parquet.
    pub const HAS_PARQUET: bool = cfg!(feature = "parquet");
}

impl Default for Formats {
    fn default() -> Self {
        Self { csv: true, parquet: false, xlsx: false, readings: false, units: Units::Metric }
    }
}
