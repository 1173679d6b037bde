//! Facts about the register: its header, and the cells of its rows.

use super::TwoReadings;
use crate::ApparatusKind;
use crate::toml_source::Range;
use calefact_units::{Kind, UnitError};
use serde::Serialize;

/// A fact about the register. Columns are given by their canonical name, cells as they are written.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum RegisterFact {
    /// The file has no row.
    NoRow,
    /// The file has a header and no trial.
    NoTrial,
    /// The header has more columns than are read.
    TooManyColumns {
        /// Its columns.
        columns: usize,
        /// Columns up to which a register is read.
        most: usize,
    },
    /// A required column is missing.
    MissingColumn {
        /// The column.
        column: &'static str,
        /// A header that resembles it.
        near: Option<String>,
        /// The headers found.
        headers: Vec<String>,
    },
    /// A further column whose header is almost that of a canonical one.
    UnknownColumn {
        /// Its header.
        header: String,
        /// The canonical column.
        near: &'static str,
    },
    /// Two spellings of what may be one level.
    TwinLevels {
        /// The column.
        column: String,
        /// The level as written here.
        level: String,
        /// The level as written before.
        twin: String,
        /// Line where it was first.
        twin_line: u64,
    },
    /// A word under `exclude` that says no.
    NotExcluded {
        /// As written.
        cell: String,
    },
    /// A second column for the same canonical one.
    DuplicateColumn {
        /// The canonical column.
        column: String,
        /// Headers of the two.
        headers: [String; 2],
        /// Whether `dataset.toml` gives one of the headers to the column.
        is_mapped: bool,
    },
    /// The unit in a header cannot be read.
    HeaderUnit {
        /// The column.
        column: String,
        /// The reason.
        error: UnitError,
    },
    /// More cells in a row than in the header.
    TooManyCells {
        /// Cells of the row.
        cells: usize,
        /// Cells of the header.
        header: usize,
    },
    /// A row has one cell more than the header, a blank one: where the name of a column is missing, all behind it have shifted.
    BlankBeyondHeader {
        /// Cells of the header.
        header: usize,
    },
    /// A column without a header holds values in most rows.
    ColumnWithoutHeader {
        /// Rows with a value.
        rows: usize,
    },
    /// A cell of a sheet stands beside the table, under no header.
    CellBesideTable,
    /// A cell that must be filled is blank.
    Blank {
        /// The column.
        column: String,
    },
    /// A date between slashes may have the day or the month first, and no other date of the register shows which.
    DateTwoReadings {
        /// As written.
        cell: String,
        /// Both dates.
        dates: [String; 2],
    },
    /// A cell that must hold a number does not.
    NotANumber {
        /// The column.
        column: String,
        /// As written.
        cell: String,
    },
    /// A number that may be read two ways, and nothing else in the register shows which.
    TwoReadings {
        /// The column.
        column: String,
        /// As written.
        cell: String,
        /// Both readings, in the unit of the cell.
        readings: TwoReadings,
    },
    /// A number and the words beside it may be one number with a decimal comma.
    SplitNumber {
        /// The column of the number.
        column: String,
        /// The number with its decimal comma.
        written: String,
    },
    /// A quantity with a unit that cannot be read.
    Unit {
        /// The column.
        column: String,
        /// As written.
        cell: String,
        /// The reason.
        error: UnitError,
    },
    /// Water without a unit.
    WaterUnit {
        /// As written.
        cell: String,
    },
    /// A number below zero.
    Negative {
        /// The column.
        column: String,
        /// As written.
        cell: String,
    },
    /// No water.
    NoWater {
        /// As written.
        cell: String,
    },
    /// A number outside its range.
    OutOfRange {
        /// The column.
        column: String,
        /// The number, SI.
        value: f64,
        /// Kind of the quantity.
        kind: Kind,
        /// The range, SI.
        range: Range,
    },
    /// A number that is not plausible; an error where another reading of its mark is.
    Implausible {
        /// The column.
        column: String,
        /// The number, SI.
        value: f64,
        /// Kind of the quantity.
        kind: Kind,
        /// The plausible range, SI.
        range: Range,
        /// The other reading, SI, if its mark has two and that one is plausible.
        other: Option<f64>,
    },
    /// Water that does not fit in its vessel, or hardly covers its bottom.
    WaterInVessel {
        /// The water, m3.
        water_m3: f64,
        /// The vessel, m3.
        vessel_m3: f64,
        /// Whether the row is left out.
        refused: bool,
    },
    /// A moisture in percent that looks like a fraction.
    MoistureAsFraction {
        /// The moisture as it reads, mass fraction.
        moisture: f64,
    },
    /// A moisture without unit that is above one.
    MoistureAboveOne {
        /// The number.
        value: f64,
    },
    /// A moisture without basis.
    NoMoistureBasis,
    /// A basis that is neither wet nor dry.
    MoistureBasis {
        /// As written.
        cell: String,
    },
    /// A wet-basis moisture that leaves no wood.
    NoWood {
        /// The moisture, mass fraction.
        moisture: f64,
    },
    /// A dry-basis moisture of more water than wood can hold.
    TooWet {
        /// The moisture, mass fraction.
        moisture: f64,
    },
    /// More wood taken back than was put on the fire.
    LeftoverAboveFuel {
        /// Wood taken back, kg.
        left_kg: f64,
        /// Fuel and kindling, kg.
        given_kg: f64,
    },
    /// A kind of trial that is not known.
    TrialKind {
        /// As written.
        cell: String,
    },
    /// An id that `dataset.toml` does not define.
    UnknownId {
        /// Kind of the entry.
        kind: ApparatusKind,
        /// The id.
        id: String,
        /// Ids of that kind that are defined.
        known: Vec<String>,
    },
    /// The id of an earlier trial.
    DuplicateTrial {
        /// The id.
        trial: String,
        /// Line of the earlier trial.
        line: u64,
    },
}

impl RegisterFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("register-empty", "the register holds no trial"),
        ("too-many-columns", "the register has more columns than are read"),
        ("missing-column", "the register has no column that every trial needs"),
        ("unknown-column", "a column of the register, or of a comparison, is not known"),
        ("duplicate-column", "two columns stand for the same quantity"),
        ("too-many-cells", "a row has more cells than the header"),
        ("blank-beyond-header", "a row has one blank cell more than the header, which may lack the name of a column"),
        ("column-without-header", "a column of the register holds values and has no header"),
        ("cell-beside-table", "a cell of a sheet stands beside the table, under no header"),
        ("blank-cell", "a cell has no value"),
        ("date-ambiguous", "a date between slashes may have the day or the month first"),
        ("not-a-number", "a cell is not a number"),
        ("ambiguous-number", "the mark in a number may be a decimal sign or part thousands"),
        ("split-number", "a number and the words beside it may be one number with a decimal comma"),
        ("missing-unit", "a quantity has no unit and cannot do without"),
        ("negative", "an amount is below zero"),
        ("not-positive", "the amount of water is zero or less"),
        ("out-of-range", "a value cannot be true"),
        ("implausible", "a value is not plausible for its column"),
        ("moisture-above-one", "a moisture without unit is above one"),
        ("moisture-basis-missing", "a moisture is given without its basis"),
        ("unknown-word", "a value is not one of the words it can be"),
        ("leftover-above-fuel", "more wood was taken back than put on the fire"),
        ("unknown-kind", "the kind of trial is not known"),
        ("unknown-id", "dataset.toml does not define an id"),
        ("level-spelling", "two levels of a column differ only in case, spaces or the code of their letters"),
        ("not-excluded", "a word such as `no` under `exclude` keeps the trial"),
        ("duplicate-trial", "two trials have the same id"),
    ];

    /// Stable code of the fact.
    pub fn code(&self) -> &'static str {
        match self {
            Self::NoRow | Self::NoTrial => "register-empty",
            Self::TooManyColumns { .. } => "too-many-columns",
            Self::MissingColumn { .. } => "missing-column",
            Self::UnknownColumn { .. } => "unknown-column",
            Self::DuplicateColumn { .. } => "duplicate-column",
            Self::HeaderUnit { error, .. } | Self::Unit { error, .. } => crate::text::units::code(error),
            Self::TooManyCells { .. } => "too-many-cells",
            Self::BlankBeyondHeader { .. } => "blank-beyond-header",
            Self::ColumnWithoutHeader { .. } => "column-without-header",
            Self::CellBesideTable => "cell-beside-table",
            Self::Blank { .. } => "blank-cell",
            Self::DateTwoReadings { .. } => "date-ambiguous",
            Self::NotANumber { .. } => "not-a-number",
            Self::TwoReadings { .. } => "ambiguous-number",
            Self::SplitNumber { .. } => "split-number",
            Self::WaterUnit { .. } => "missing-unit",
            Self::Negative { .. } => "negative",
            Self::NoWater { .. } => "not-positive",
            Self::OutOfRange { .. } | Self::NoWood { .. } | Self::TooWet { .. } => "out-of-range",
            Self::Implausible { .. } | Self::WaterInVessel { .. } | Self::MoistureAsFraction { .. } => "implausible",
            Self::MoistureAboveOne { .. } => "moisture-above-one",
            Self::NoMoistureBasis => "moisture-basis-missing",
            Self::MoistureBasis { .. } => "unknown-word",
            Self::LeftoverAboveFuel { .. } => "leftover-above-fuel",
            Self::TrialKind { .. } => "unknown-kind",
            Self::UnknownId { .. } => "unknown-id",
            Self::TwinLevels { .. } => "level-spelling",
            Self::NotExcluded { .. } => "not-excluded",
            Self::DuplicateTrial { .. } => "duplicate-trial",
        }
    }
}
