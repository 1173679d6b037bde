//! The boxes and columns of a burn sheet: columns of the register and of the log that this apparatus fills.

use super::request::SheetRequest;
use crate::words::{Wording, instrument};
use calefact_analysis::result::PlannedBurn;
use calefact_data::{Apparatus, Channel};

/// A box of the register.
pub(crate) struct Field {
    /// Column with its unit, cut where a line may break.
    pub(crate) name: Vec<String>,
    /// Value that is known before the burn.
    pub(crate) value: String,
    /// Places for several readings, of which the register takes the mean.
    pub(crate) slots: &'static str,
    /// Instrument that reads it.
    pub(crate) instrument: String,
    /// Whether it is a remark, which wants a whole line.
    pub(crate) wide: bool,
}

/// Columns of a burn's register row that are filled in at the stove, in the order of the work.
static COLUMNS: [&str; 17] = [
    "trial",
    "date",
    "block",
    "operator",
    "stove",
    "fuel",
    "exchanger",
    "vessel",
    "water",
    "fuel_moisture",
    "moisture_basis",
    "kindling_mass",
    "fuel_mass",
    "leftover_fuel",
    "leftover_char",
    "ambient",
    "note",
];

/// Places for the moisture of three pieces.
const PIECES: &str = "1        2        3        mean";

/// Channels that a sheet always has: the least that a burn under a flue wants.
const ALWAYS: [Channel; 4] = [Channel::Tank, Channel::FlueBefore, Channel::FlueAfter, Channel::FuelAdded];

/// The boxes, with what a planned burn fills in.
pub(super) fn fields(w: &Wording<'_>, request: &SheetRequest<'_>, burn: Option<&PlannedBurn>) -> Vec<Field> {
    let apparatus = request.apparatus;
    let is_wanted = |column: &&str| match *column {
        "exchanger" => !apparatus.exchangers.is_empty(),
        "ambient" => !channels(apparatus).contains(&Channel::Ambient),
        _ => true,
    };
    let further = request.further.iter().map(String::as_str).filter(|c| !c.is_empty());
    let (note, columns) = COLUMNS.split_last().map_or(("note", &COLUMNS[..]), |(note, columns)| (*note, columns));
    let (set_up, measured) = columns.split_at(columns.iter().position(|c| *c == "water").unwrap_or(columns.len()));
    let wanted = |columns: &'static [&'static str]| columns.iter().copied().filter(|c| is_wanted(c));
    let all = wanted(set_up).chain(further).chain(wanted(measured)).chain([note]);
    let field = |column: &str| Field {
        name: broken(w, column),
        value: burn.map(|b| value(b, column)).unwrap_or_default(),
        slots: if column == "fuel_moisture" { PIECES } else { "" },
        instrument: reader(apparatus, column).unwrap_or_default(),
        wide: column == note,
    };
    all.map(field).collect()
}

/// Value of a column by the plan.
fn value(burn: &PlannedBurn, column: &str) -> String {
    match column {
        "trial" => burn.trial.clone(),
        "block" => burn.block.clone(),
        "date" => burn.date.clone().unwrap_or_default(),
        _ => burn.levels.iter().find(|(c, _)| c == column).map(|(_, level)| level.clone()).unwrap_or_default(),
    }
}

/// The columns of the log, with their units.
pub(super) fn log_columns(w: &Wording<'_>, apparatus: &Apparatus) -> Vec<Vec<String>> {
    let channels = channels(apparatus).into_iter().map(|c| broken(w, c.name()));
    [vec!["elapsed".to_owned(), "[min]".to_owned()]].into_iter().chain(channels).chain([broken(w, "event")]).collect()
}

/// Channels that a burn's log of this apparatus has: what its instruments read and what is always wanted.
fn channels(apparatus: &Apparatus) -> Vec<Channel> {
    let is_read = |c: &Channel| apparatus.instruments.values().any(|i| i.reads.iter().any(|column| column == c.name()));
    let is_wanted = |c: &Channel| *c != Channel::Power && (ALWAYS.contains(c) || is_read(c));
    Channel::ALL.into_iter().filter(is_wanted).collect()
}

/// Name of the instrument that reads a column.
fn reader(apparatus: &Apparatus, column: &str) -> Option<String> {
    let (id, found) = apparatus.instruments.iter().find(|(_, i)| i.reads.iter().any(|c| c == column))?;
    Some(if found.name.is_empty() { id.clone() } else { found.name.clone() })
}

/// A column with its unit, cut behind its underscores: `fuel_` `mass` `[kg]`.
fn broken(w: &Wording<'_>, column: &str) -> Vec<String> {
    let unit = instrument::unit_to_note(w, column).map(|u| format!(" [{u}]"));
    column.split_inclusive('_').map(ToOwned::to_owned).chain(unit).collect()
}
