//! How the data files of a dataset are written: delimiters, headers, clocks. What is not stated is found out per file.

use crate::register_defaults::Defaults;
use crate::text::number::DecimalSign;
use encoding_rs::Encoding;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// How a delimited file is written.
#[derive(Debug, Clone, Default)]
pub struct FileStyle {
    /// Character between cells.
    pub delimiter: Option<u8>,
    /// Decimal sign.
    pub decimal: Option<DecimalSign>,
    /// Encoding.
    pub encoding: Option<&'static Encoding>,
    /// Lines above the header.
    pub skip_lines: Option<u64>,
    /// Further words for "no reading".
    pub missing: Vec<String>,
    /// Whether the text is a sheet of a workbook, whose cells cannot run into each other.
    pub is_sheet: bool,
}

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

/// How the logs are written.
#[derive(Debug, Clone, Default)]
pub struct LogSettings {
    /// Style of the files.
    pub style: FileStyle,
    /// Foreign headers.
    pub columns: Vec<ColumnMap>,
    /// Header of the column that holds the trial id, where a file holds several trials.
    pub trial_column: Option<String>,
    /// `strptime` pattern of the clock column, such as `%d.%m.%Y %H:%M`.
    pub clock_format: Option<String>,
    /// Zone of the clock, to follow it through a change of clocks.
    pub time_zone: Option<TimeZone>,
    /// Day of the first reading, for clocks without a date where the register gives none.
    pub date: Option<Date>,
}

/// How the register is written.
#[derive(Debug, Clone, Default)]
pub struct RegisterSettings {
    /// Style of the file.
    pub style: FileStyle,
    /// Foreign headers.
    pub columns: Vec<ColumnMap>,
    /// Values of blank cells.
    pub defaults: Defaults,
}
