//! Parts of the facts about a log. The facts are in [`super::log`].

use calefact_units::Kind;
use serde::Serialize;

/// How a time of a clock is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum ClockForm {
    /// Only a time of day.
    TimeOfDay,
    /// Date and time of day.
    Date,
    /// Date, time of day and UTC offset.
    Offset,
}

/// A column whose unit is stated nowhere.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AssumedUnit {
    /// Header as written.
    pub header: String,
    /// Kind of quantity; its SI unit is taken.
    pub kind: Kind,
}
