//! How the data files of a dataset are written: delimiters, headers, clocks. What is not stated is found out per file.

use crate::column_maps::ColumnMaps;
use crate::register_defaults::Defaults;
use crate::text::number::DecimalSign;
use encoding_rs::Encoding;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::sync::Arc;

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

/// How the logs are written.
#[derive(Debug, Clone, Default)]
pub struct LogSettings {
    /// Style of the files.
    pub style: FileStyle,
    /// Foreign headers; shared, since each log is read with settings of its own.
    pub columns: Arc<ColumnMaps>,
    /// Headers of the column that holds the trial id, where a file holds several trials.
    pub trial_columns: Vec<String>,
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
    pub columns: ColumnMaps,
    /// Values of blank cells.
    pub defaults: Defaults,
}
