//! The proposal itself: plain facts, with the reason of each. Their words are in the report crate.

use crate::{Channel, TrialKind};
use std::path::PathBuf;

/// A proposal for a dataset of some files.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Proposal {
    /// The logs, in the order of their paths.
    pub logs: Vec<LogProposal>,
    /// Columns of the logs, each header once.
    pub columns: Vec<ColumnProposal>,
    /// Pattern of the clock, where the reader needs one.
    pub clock_format: Option<ClockFormat>,
    /// Days of the table of trials, or of a column of days in a log, that have two meanings: the file and the first such day.
    pub date_doubts: Vec<(PathBuf, DateDoubt)>,
    /// The table of trials, one row a trial.
    pub table: Option<TableProposal>,
    /// Files that no proposal was made for.
    pub left_out: Vec<(PathBuf, LeftOut)>,
}

/// A pattern of clock cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClockFormat {
    /// `strptime` pattern.
    pub pattern: String,
    /// A day with two meanings, where nothing shows the order of day and month.
    pub doubt: Option<DateDoubt>,
}

impl ClockFormat {
    /// The pattern with day and month in the other order.
    pub fn other(&self) -> String {
        let swapped = self.pattern.replace("%d", "\0").replace("%m", "%d");
        swapped.replace('\0', "%m")
    }
}

/// A day that may be read two ways, and the way that is proposed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DateDoubt {
    /// As written.
    pub cell: String,
    /// The day proposed, ISO 8601.
    pub taken: String,
    /// The other one.
    pub other: String,
}

impl Proposal {
    /// Headers of the column that holds the trial id, for `dataset.toml`; none where all are the name of the column.
    pub fn trial_columns(&self) -> Vec<&str> {
        let trials = || self.columns.iter().filter(|c| c.role == Role::Trial);
        if trials().any(|c| c.mapped) { trials().map(|c| c.header.as_str()).collect() } else { Vec::new() }
    }
}

/// A log and its trials.
#[derive(Debug, Clone, PartialEq)]
pub struct LogProposal {
    /// The file.
    pub path: PathBuf,
    /// Its trials.
    pub trials: Vec<TrialProposal>,
}

/// A trial as its log shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialProposal {
    /// Id: the name of the file, or that in the file.
    pub trial: String,
    /// Kind, by what the tank does.
    pub kind: TrialKind,
    /// Day, ISO 8601.
    pub date: Option<String>,
    /// Time of the first and the last reading, where the log has a clock.
    pub clock: Option<(String, String)>,
    /// Number of readings.
    pub readings: usize,
    /// Length, s.
    pub length_s: f64,
    /// Tank at the first and at the last reading, degC.
    pub tank: (f64, f64),
    /// Row of the table of trials that tells of this one.
    pub row: Option<usize>,
}

/// Role of a column of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Time since the start.
    Elapsed,
    /// Time of day, or date and time.
    Clock,
    /// The day alone.
    Date,
    /// The trial's id.
    Trial,
    /// A number.
    Channel(Channel),
    /// Words on what happened.
    Event,
    /// Remarks.
    Note,
    /// None that is known.
    Unused,
}

impl Role {
    /// The canonical column, where the role has one.
    pub const fn column(self) -> Option<&'static str> {
        match self {
            Self::Elapsed => Some("elapsed"),
            Self::Clock => Some("clock"),
            Self::Trial => Some("trial"),
            Self::Channel(channel) => Some(channel.name()),
            Self::Event => Some("event"),
            Self::Note => Some("note"),
            Self::Date | Self::Unused => None,
        }
    }
}

/// A column, its role and why.
#[derive(Debug, Clone, PartialEq)]
pub struct ColumnProposal {
    /// Header as written.
    pub header: String,
    /// Role.
    pub role: Role,
    /// Reason.
    pub reason: Reason,
    /// Unit to state in `dataset.toml`.
    pub unit: Option<&'static str>,
    /// Where the unit is from.
    pub unit_reason: UnitReason,
    /// Whether `dataset.toml` has to map the header.
    pub mapped: bool,
}

/// Why a column has its role.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reason {
    /// The header is the name of the column.
    Name,
    /// A word of the header.
    Word(&'static str),
    /// Its cells are times or dates.
    Times,
    /// It is the only temperature left.
    OnlyTemperature,
    /// Its numbers rise steadily from one to another, degC.
    Rises(f64, f64),
    /// Nothing tells.
    Nothing,
}

/// Where a unit is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitReason {
    /// The file states it.
    Stated,
    /// In the usual unit its numbers could not be true.
    Values,
    /// The person's choice of units.
    Preference,
    /// The size of the steps of the time.
    Steps,
    /// Nothing states it; the reader takes the SI unit.
    Nothing,
    /// It needs none.
    NotNeeded,
}

/// A table of trials, such as one copied from a notebook.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TableProposal {
    /// The file.
    pub path: PathBuf,
    /// Columns of the register: header, column and unit.
    pub columns: Vec<TableColumn>,
    /// Headers that are no column of the register.
    pub further: Vec<String>,
    /// Cells by column, one map a row.
    pub rows: Vec<std::collections::BTreeMap<String, String>>,
}

/// A column of a table of trials.
#[derive(Debug, Clone, PartialEq)]
pub struct TableColumn {
    /// Header as written.
    pub header: String,
    /// Column of the register.
    pub column: &'static str,
    /// Word of the header that tells.
    pub word: &'static str,
    /// Unit, where it needs one and the file states it.
    pub unit: Option<&'static str>,
    /// Where the unit is from.
    pub unit_reason: UnitReason,
}

/// Why no proposal was made for a file.
#[derive(Debug, Clone, PartialEq)]
pub enum LeftOut {
    /// It cannot be read, or the reader refuses it.
    Finding(Box<crate::Finding>),
    /// No row of headers with numbers below it.
    NoHeader,
    /// No time.
    NoTime(Vec<String>),
    /// No column of which it can be told that it is the tank.
    NoTank(Vec<String>),
    /// A second table of trials.
    SecondTable,
    /// One of its headers has another meaning than in the files before it.
    OtherMeaning {
        /// The header.
        header: String,
        /// Its meaning there.
        before: Meaning,
        /// Its meaning here.
        here: Meaning,
    },
    /// Its clock needs another pattern than those of the files before it.
    OtherClock,
}

/// Meaning of a header.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meaning {
    /// The column, if it is one.
    pub column: Option<&'static str>,
    /// Unit of its numbers.
    pub unit: Option<&'static str>,
}
