//! Words for facts about the register.

use super::range::{number, range_words};
use super::suggestion::suggestion;
use super::{Message, Wording, ambiguous, file, plural, unit_error};
use calefact_data::ApparatusKind;
use calefact_data::fact::RegisterFact;
use calefact_data::nearest;
use calefact_data::register_columns::TRIAL_KINDS;
use calefact_data::toml_source::spelling::key;
use calefact_data::toml_source::words;
use calefact_units::Kind;

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &RegisterFact) -> Message {
    header(w, fact)
        .or_else(|| moisture(w, fact))
        .or_else(|| implausible(w, fact))
        .unwrap_or_else(|| cell(w, fact).action("trial left out"))
}

/// Facts about the file and its header.
fn header(w: &Wording<'_>, fact: &RegisterFact) -> Option<Message> {
    Some(match fact {
        RegisterFact::NoRow => Message::new("the register is empty").hint("write a header and a row for each trial"),
        RegisterFact::NoTrial => {
            Message::new("the register has no trial").hint("write a row for each trial below the header")
        }
        RegisterFact::TooManyColumns { columns, most } => {
            Message::new(format!("the register has {columns} columns; one of up to {most} is read"))
                .action("dataset left out")
                .hint("leave out the columns that no comparison needs, and check the character between cells")
        }
        RegisterFact::MissingColumn { column, near, headers } => {
            let hint = match near {
                Some(near) => format!("if `{near}` is that column, call it {}", w.column(column)),
                None => format!("{}; columns found: {}", or_default("add the column", column), headers.join(", ")),
            };
            Message::new(format!("the register has no column {}", w.column(column))).action("no trial read").hint(hint)
        }
        RegisterFact::UnknownColumn { header, near } => Message::new(format!("unknown register column `{header}`"))
            .action("kept as a further column")
            .hint(format!("did you mean {}?", w.column(near))),
        RegisterFact::SplitNumber { column, written } => ambiguous::split(w, column, written),
        RegisterFact::CellBesideTable => file::beside_table(),
        RegisterFact::BlankBeyondHeader { header } => {
            Message::new(format!("the row has one cell more than the {header} of the header, a blank one"))
                .action("row read as if no name were missing in the header")
                .hint(
                    "if one is missing, add it: all cells to its right have shifted; if not, end the rows where the header ends",
                )
        }
        RegisterFact::ColumnWithoutHeader { rows } => {
            Message::new(format!("a column without a header holds {}", plural(*rows, "value")))
                .action("column not read")
                .hint("write its header; if headers stand beside their columns, put each above its own")
        }
        RegisterFact::DuplicateColumn { column, headers, is_mapped } => {
            let place = is_mapped.then_some("`columns` under [register]");
            file::two_columns(w, headers, column, place).action("the first one is read")
        }
        RegisterFact::TwinLevels { column, level, twin, twin_line } => {
            let [shown, other] = [level, twin].map(|text| w.quoted(text));
            // Letters composed of two codes look like those of one.
            let plain = |text: &str| text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
            let how = if plain(level) == plain(twin) { "" } else { ", with different codes for their letters" };
            Message::new(format!("{shown} and {other} of line {twin_line} are two levels of {}{how}", w.column(column)))
                .action("kept apart")
                .hint("if they are one level, write it the same way in every row")
        }
        RegisterFact::DateTwoReadings { cell, dates: [day_first, month_first] } => {
            Message::new(format!("the date {} may be {day_first} or {month_first}", w.quoted(cell)))
                .action("date kept as written, and not used")
                .hint(format!("write the date as {}", w.quoted(day_first)))
        }
        RegisterFact::NotExcluded { cell } => Message::new(format!("`exclude` is {}", w.quoted(cell)))
            .action("trial not excluded")
            .hint("leave the cell blank; a reason, such as `lid open`, excludes a trial"),
        RegisterFact::HeaderUnit { column, error } => {
            let message = Message::new(format!("column {}: {}", w.column(column), unit_error::text(w, error)));
            Message { hint: unit_error::hint(w, error), ..message.action("trials with a value in it left out") }
        }
        _ => return None,
    })
}

/// What to do, or the line that saves it, where all rows can share the value of a column.
fn or_default(instruction: &str, column: &str) -> String {
    let example = match column {
        "kind" => "burn",
        "water" => "120 L",
        "vessel" => "drum",
        _ => return instruction.to_owned(),
    };
    format!("{instruction}, or write `{column} = \"{example}\"` under [defaults] in dataset.toml")
}

/// Facts about the moisture of the fuel.
fn moisture(w: &Wording<'_>, fact: &RegisterFact) -> Option<Message> {
    let percent = |moisture: f64| number(w, moisture, Some(Kind::Fraction));
    let (text, action, hint) = match fact {
        RegisterFact::NoMoistureBasis => (
            "`fuel_moisture` is given without its basis".into(),
            "it counts as anything from dry to wet basis",
            "write `wet` (water over total mass) or `dry` (water over dry mass, as pin meters show) in `moisture_basis`",
        ),
        RegisterFact::MoistureAboveOne { value } => (
            format!("`fuel_moisture` without a unit is a fraction, but is {}", number(w, *value, None)),
            "trial left out",
            "write `fuel_moisture [%]` in the header",
        ),
        RegisterFact::MoistureAsFraction { moisture } => (
            format!("`fuel_moisture` reads {}, but may be {}", percent(*moisture), percent(100.0 * moisture)),
            "value kept",
            "if it is a fraction, leave `[%]` out of the header",
        ),
        RegisterFact::MoistureBasis { cell } => {
            (format!("unknown moisture basis `{cell}`"), "trial left out", "write `wet` or `dry`")
        }
        RegisterFact::NoWood { moisture } => (
            format!("`fuel_moisture` is {} on wet basis, which leaves no wood", percent(*moisture)),
            "trial left out",
            "correct the number, or write `dry` if it is water over dry mass, as pin meters show",
        ),
        RegisterFact::TooWet { moisture } => (
            format!("`fuel_moisture` is {}; wood holds at most 400 % of its dry mass", percent(*moisture)),
            "trial left out",
            "correct the number or its unit",
        ),
        _ => return None,
    };
    Some(Message::new(text).action(action).hint(hint))
}

/// Facts about numbers that need a second look.
fn implausible(w: &Wording<'_>, fact: &RegisterFact) -> Option<Message> {
    Some(match fact {
        RegisterFact::Implausible { column, value, kind, range, other: None } => {
            let (value, range) = (number(w, *value, Some(*kind)), range_words(w, *range, Some(*kind)));
            Message::new(format!("{} is {value}; usual values are {range}", w.column(column)))
                .action("value kept")
                .hint("check the number and its unit")
        }
        RegisterFact::Implausible { column, value, kind, other: Some(other), .. } => {
            let [value, other] = [value, other].map(|v| number(w, *v, Some(*kind)));
            let text = format!("{} reads {value}, but may be {other}", w.column(column));
            Message::new(text).action("trial left out").hint("write the number without a thousands separator")
        }
        RegisterFact::WaterInVessel { water_m3, vessel_m3, refused } => {
            let [water, vessel] = [water_m3, vessel_m3].map(|v| number(w, *v, Some(Kind::Volume)));
            Message::new(format!("`water` is {water}, but its vessel holds {vessel}"))
                .action(if *refused { "trial left out" } else { "value kept" })
                .hint("correct `water` and its unit, or `volume` of the vessel in dataset.toml")
        }
        _ => return None,
    })
}

/// Facts about other cells; each leaves its trial out.
fn cell(w: &Wording<'_>, fact: &RegisterFact) -> Message {
    match fact {
        RegisterFact::TooManyCells { cells, header } => Message::new(format!(
            "the row has {cells} cells, the header {header}"
        ))
        .hint(
            "write a point for a decimal comma, or separate the cells by semicolons; put a text with commas in quotes; \
             if every row has as many cells, add the name that the header lacks",
        ),
        RegisterFact::Blank { column } => {
            Message::new(format!("{} is blank", w.column(column))).hint(or_default("fill the cell", column))
        }
        RegisterFact::NotANumber { column, cell } => {
            Message::new(format!("{} is not a number: `{cell}`", w.column(column)))
                .hint("correct the cell or leave it blank")
        }
        RegisterFact::TwoReadings { column, cell, readings } => {
            ambiguous::number(w, column, cell, readings, "register")
        }
        RegisterFact::Unit { column, cell, error } => {
            let text = format!("{}: {}", w.column(column), unit_error::quantity(w, error, cell));
            Message { hint: unit_error::quantity_hint(w, error), ..Message::new(text) }
        }
        RegisterFact::WaterUnit { cell } => {
            Message::new(format!("`water` has no unit: {cell}")).hint("write `water [L]` or `water [kg]` in the header")
        }
        RegisterFact::Negative { column, cell } => {
            Message::new(format!("{} is negative: {cell}", w.column(column))).hint("correct the sign")
        }
        RegisterFact::NoWater { cell } => {
            Message::new(format!("`water` must be more than zero, but is {cell}")).hint("correct the cell")
        }
        RegisterFact::OutOfRange { column, value, kind, range } => {
            let (value, range) = (number(w, *value, Some(*kind)), range_words(w, *range, Some(*kind)));
            Message::new(format!("{} is {value}; it must be {range}", w.column(column)))
                .hint("correct the number or its unit")
        }
        RegisterFact::LeftoverAboveFuel { left_kg, given_kg } => {
            let (left, given) = (w.mass(*left_kg), w.mass(*given_kg));
            Message::new(format!("`leftover_fuel` is {left}, but only {given} were put on the fire"))
                .hint("correct `leftover_fuel`, `fuel_mass` or `kindling_mass`; burnt wood goes under `leftover_char`")
        }
        RegisterFact::TrialKind { cell } => {
            Message::new(format!("unknown kind of trial `{cell}`")).hint(suggestion(cell, &words(&TRIAL_KINDS)))
        }
        RegisterFact::UnknownId { kind, id, known } => unknown_id(*kind, id, known),
        RegisterFact::DuplicateTrial { trial, line } => {
            Message::new(format!("duplicate trial `{trial}`, first used on line {line}"))
                .hint("give each trial its own id")
        }
        _ => Message::default(),
    }
}

/// The word for an entry of a kind, and the table of dataset.toml that holds the entries.
pub(super) const fn entry_and_table(kind: ApparatusKind) -> (&'static str, &'static str) {
    match kind {
        ApparatusKind::Stove => ("stove", "stoves"),
        ApparatusKind::Fuel => ("fuel", "fuels"),
        ApparatusKind::Exchanger => ("exchanger", "exchangers"),
        ApparatusKind::Vessel => ("vessel", "vessels"),
        ApparatusKind::Instrument => ("instrument", "instruments"),
    }
}

pub(super) fn unknown_id(kind: ApparatusKind, id: &str, known: &[String]) -> Message {
    let (word, table) = entry_and_table(kind);
    let hint = match nearest(id, known.iter().map(String::as_str)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("describe it in dataset.toml under `[{table}.{}]`, with its `name`", key(id)),
    };
    Message::new(format!("dataset.toml has no {word} `{id}`")).hint(hint)
}

#[cfg(test)]
mod tests;
