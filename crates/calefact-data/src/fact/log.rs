//! Facts about logs: their files, headers, units, times and cells.

use super::log_detail::{AssumedUnit, ClockForm};
use super::{Ids, ReadFailure, TwoReadings};
use crate::Channel;
use crate::finding::Severity;
use calefact_units::UnitError;
use serde::Serialize;
use std::path::PathBuf;

/// A fact about a log. Cells and headers are quoted as the file has them, long ones cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Log {
    /// The log that a register row names cannot be read.
    Unreadable {
        /// The log.
        log: PathBuf,
        /// Why.
        failure: ReadFailure,
    },
    /// No register row names a file that lies among the logs.
    Unregistered {
        /// Whether the file lies beside the register, where other files are usual.
        beside_register: bool,
    },
    /// No register names sheets of a workbook that holds logs or a register; their names.
    SheetsUnregistered(Vec<String>),
    /// The log holds the same bytes as another one.
    SameBytes {
        /// The other log.
        first: PathBuf,
    },
    /// The log has no rows.
    Empty,
    /// No row names a known column; the cells of the row most like a header.
    HeaderMissing(Vec<String>),
    /// The header names no time column; its cells.
    TimeMissing(Vec<String>),
    /// The header names no column for `tank`; its cells.
    TankMissing(Vec<String>),
    /// A column of the log is not known; its header, and the known column it may be.
    ColumnIgnored {
        /// Header as written.
        header: String,
        /// The canonical column nearest to it.
        nearest: Option<&'static str>,
    },
    /// Two columns of the log stand for the same canonical one.
    DuplicateColumn {
        /// Headers of the two.
        headers: [String; 2],
        /// The canonical column.
        column: &'static str,
        /// Whether `dataset.toml` gives one of the headers to the column.
        is_mapped: bool,
    },
    /// The unit of a column cannot be read.
    UnitUnreadable {
        /// Header as written.
        header: String,
        /// Why.
        error: UnitError,
    },
    /// A column has no unit and cannot do without.
    UnitMissing {
        /// Header as written.
        header: String,
        /// The channel.
        channel: Channel,
    },
    /// Columns have no unit and are read in SI units.
    UnitAssumed(Vec<AssumedUnit>),
    /// The register gives one log to several trials, but no column of the log holds the trial; their ids.
    TrialColumnMissing(Ids),
    /// The log has rows of trials that the register does not have; their ids.
    TrialUnregistered(Ids),
    /// The log has no row of the trial; the ids it has.
    TrialNotInLog(Ids),
    /// The time zone is stated, but the date of the first reading is not; the date of the register, if it cannot be read.
    DateMissing(Option<String>),
    /// The log has fewer readings than a trial needs.
    TooFewReadings {
        /// Rows with a number for `tank`.
        readings: usize,
        /// All rows.
        rows: usize,
        /// Number of readings that a trial needs.
        needed: usize,
    },
    /// A row has more cells than the header.
    TooManyCells {
        /// Cells of the row.
        cells: usize,
        /// Cells of the header.
        header: usize,
    },
    /// A cell of a sheet stands beside the table, under no header.
    CellBesideTable,
    /// A number and the words beside it may be one number with a decimal comma.
    SplitNumber {
        /// The channel of the number.
        channel: Channel,
        /// The number with its decimal comma.
        written: String,
    },
    /// The two times of a reading, `elapsed` and `clock`, differ.
    TimesDisagree {
        /// Elapsed time since the first reading, s.
        elapsed_s: f64,
        /// Time of the clock since the first reading, s.
        clock_s: f64,
    },
    /// The time of a row lies before that of the row above.
    TimeBackwards {
        /// Time as written.
        cell: String,
        /// By how much, s.
        by_s: f64,
        /// Line of the reading above.
        previous_line: u64,
    },
    /// Rows lie before rows that were read already.
    RowsOverlap {
        /// Number of rows.
        rows: usize,
        /// By how much the first of them lies before the row above, s.
        by_s: f64,
    },
    /// The time of a row is that of the row above.
    TimeRepeated {
        /// Time as written.
        cell: String,
        /// Line of the reading above.
        previous_line: u64,
    },
    /// The time, as written, does not exist on its day: clocks went forward past it.
    TimeSkipped(String),
    /// The clock has no zone and jumps by an hour at night, as where clocks go forward; times of day, s.
    HourSkipped {
        /// Before the jump.
        from_s: f64,
        /// Behind it.
        to_s: f64,
    },
    /// A time is written in another form than those above, and no time zone joins the two.
    TimeMixed {
        /// Time as written.
        cell: String,
        /// Its form.
        form: ClockForm,
        /// The form above.
        above: ClockForm,
    },
    /// The tank of a burn starts far from the air; in another unit of temperature it would start near it. All in degC.
    OtherUnit {
        /// Unit of the column.
        unit: &'static str,
        /// The other unit.
        other: &'static str,
        /// Start of the tank.
        start: f64,
        /// Start of the tank in the other unit.
        other_start: f64,
        /// The air.
        air: f64,
    },
    /// A time of day lies hours before the last one, as on a clock of twelve hours after noon or midnight.
    TimePastTwelve {
        /// Time as written.
        cell: String,
        /// Time of day that it is taken as, s.
        of_day_s: f64,
    },
    /// The date of a time has two meanings.
    TimeTwoDates {
        /// Time as written.
        cell: String,
        /// Both dates.
        dates: [String; 2],
    },
    /// A column `time` holds numbers without a unit.
    TimeWithoutUnit {
        /// Header as written.
        header: String,
        /// Its first cell.
        cell: String,
    },
    /// The row has no time.
    TimeBlank,
    /// The time, as written, may be hours and minutes or minutes and seconds.
    TimeAmbiguous(String),
    /// The cell, as written, is not a time.
    TimeUnreadable(String),
    /// A number may be read two ways, and nothing else in the log shows which.
    TwoReadings {
        /// The canonical column.
        column: &'static str,
        /// As written.
        cell: String,
        /// Both readings, in the unit of the column.
        readings: TwoReadings,
    },
    /// A cell is not a number.
    NotANumber {
        /// The channel.
        channel: Channel,
        /// The cell as written.
        cell: String,
    },
    /// A cell has no value.
    BlankCell(Channel),
    /// A value cannot be true and is left out.
    Impossible {
        /// The channel.
        channel: Channel,
        /// The value in SI units.
        value: f64,
    },
    /// A value is not plausible for its channel.
    Implausible {
        /// The channel.
        channel: Channel,
        /// The value in SI units.
        value: f64,
    },
}

impl Log {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("log-unreadable", "the log that a register row names cannot be read"),
        ("log-unregistered", "no register row names a file that lies among the logs"),
        ("log-repeated", "two logs hold the same bytes"),
        ("log-empty", "the log has no rows"),
        ("time-missing", "the log has no time column"),
        ("tank-missing", "the log has no column for `tank`"),
        ("column-ignored", "a column of the log is not known"),
        ("duplicate-column", "two columns stand for the same quantity"),
        ("missing-unit", "a quantity has no unit and cannot do without"),
        ("unknown-unit", "a unit is not known"),
        ("ambiguous-unit", "a unit has more than one meaning"),
        ("wrong-kind-of-unit", "a unit measures another kind of quantity"),
        ("not-a-quantity", "a text is not a number with a unit"),
        ("unit-assumed", "columns of the log have no unit and are read in SI units"),
        ("trial-column-missing", "several trials share a log that has no column for the trial"),
        ("trial-unregistered", "the log has rows of trials that the register does not have"),
        ("trial-not-in-log", "the log has no row of the trial"),
        ("date-missing", "the time zone is stated, but the date of the first reading is not known"),
        ("too-few-readings", "the log has fewer readings than a trial needs"),
        ("too-many-cells", "a row has more cells than the header"),
        ("cell-beside-table", "a cell of a sheet stands beside the table, under no header"),
        ("sheets-unregistered", "no register names some sheets of a workbook"),
        ("split-number", "a number and the words beside it may be one number with a decimal comma"),
        ("times-disagree", "`elapsed` and `clock` of a reading differ"),
        ("time-backwards", "a time lies before that of the row above"),
        ("rows-overlap", "rows lie before rows that were read already"),
        ("time-repeated", "a time is that of the row above"),
        ("time-skipped", "a time does not exist on its day: clocks went forward past it"),
        (
            "hour-skipped",
            "the clock jumps by an hour at night, as where clocks go forward, and its time zone is not stated",
        ),
        ("time-mixed", "times of one log are written with and without date or UTC offset"),
        ("unit-doubtful", "in another unit of temperature the tank would start near the air"),
        ("time-past-twelve", "a clock of twelve hours seems to have passed noon or midnight"),
        ("date-ambiguous", "a date between slashes may have the day or the month first"),
        ("time-blank", "a row has no time"),
        ("time-ambiguous", "a time may be hours and minutes or minutes and seconds"),
        ("time-unreadable", "a cell is not a time"),
        ("ambiguous-number", "the mark in a number may be a decimal sign or part thousands"),
        ("not-a-number", "a cell is not a number"),
        ("blank-cell", "a cell has no value"),
        ("out-of-range", "a value cannot be true"),
        ("implausible", "a value is not plausible for its column"),
    ];

    /// Stable code of the fact.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Unreadable { .. } => "log-unreadable",
            Self::Unregistered { .. } => "log-unregistered",
            Self::SheetsUnregistered(_) => "sheets-unregistered",
            Self::SameBytes { .. } => "log-repeated",
            Self::HourSkipped { .. } => "hour-skipped",
            Self::TimeMixed { .. } => "time-mixed",
            Self::OtherUnit { .. } => "unit-doubtful",
            Self::Empty => "log-empty",
            Self::HeaderMissing(_) | Self::TimeMissing(_) => "time-missing",
            Self::TankMissing(_) => "tank-missing",
            Self::ColumnIgnored { .. } => "column-ignored",
            Self::DuplicateColumn { .. } => "duplicate-column",
            Self::UnitUnreadable { error, .. } => crate::text::units::code(error),
            Self::UnitMissing { .. } | Self::TimeWithoutUnit { .. } => "missing-unit",
            Self::UnitAssumed(_) => "unit-assumed",
            Self::TrialColumnMissing(_) => "trial-column-missing",
            Self::TrialUnregistered(_) => "trial-unregistered",
            Self::TrialNotInLog(_) => "trial-not-in-log",
            Self::DateMissing(_) => "date-missing",
            Self::TooFewReadings { .. } => "too-few-readings",
            Self::TooManyCells { .. } => "too-many-cells",
            Self::CellBesideTable => "cell-beside-table",
            Self::SplitNumber { .. } => "split-number",
            Self::TimesDisagree { .. } => "times-disagree",
            Self::TwoReadings { .. } => "ambiguous-number",
            Self::TimeBackwards { .. } => "time-backwards",
            Self::RowsOverlap { .. } => "rows-overlap",
            Self::TimeRepeated { .. } => "time-repeated",
            Self::TimeSkipped(_) => "time-skipped",
            Self::TimePastTwelve { .. } => "time-past-twelve",
            Self::TimeTwoDates { .. } => "date-ambiguous",
            Self::TimeBlank => "time-blank",
            Self::TimeAmbiguous(_) => "time-ambiguous",
            Self::TimeUnreadable(_) => "time-unreadable",
            Self::NotANumber { .. } => "not-a-number",
            Self::BlankCell(_) => "blank-cell",
            Self::Impossible { .. } => "out-of-range",
            Self::Implausible { .. } => "implausible",
        }
    }

    /// How bad the fact is; an error stops its trial.
    pub const fn severity(&self) -> Severity {
        match self {
            Self::Unregistered { beside_register: true }
            | Self::SheetsUnregistered(_)
            | Self::CellBesideTable
            | Self::ColumnIgnored { nearest: None, .. }
            | Self::BlankCell(_) => Severity::Note,
            Self::Unregistered { .. }
            | Self::ColumnIgnored { .. }
            | Self::UnitAssumed(_)
            | Self::TrialUnregistered(_)
            | Self::DateMissing(_)
            | Self::RowsOverlap { .. }
            | Self::SplitNumber { .. }
            | Self::TimeRepeated { .. }
            | Self::TimeSkipped(_)
            | Self::SameBytes { .. }
            | Self::HourSkipped { .. }
            | Self::OtherUnit { .. }
            | Self::TimePastTwelve { .. }
            | Self::TimeBlank
            | Self::TimeUnreadable(_)
            | Self::NotANumber { .. }
            | Self::Impossible { .. }
            | Self::Implausible { .. } => Severity::Warning,
            _ => Severity::Error,
        }
    }
}
