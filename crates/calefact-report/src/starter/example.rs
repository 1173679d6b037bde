//! The example burn of a dataset without logs: invented, and marked so in every file.

use crate::words::Units;
use std::fmt::Write as _;

/// Id of the example.
pub(super) const TRIAL: &str = "example-1";

/// Id and name for a column of ids of which nothing was said.
pub(super) fn entry(column: &str) -> Option<(&'static str, &'static str)> {
    match column {
        "stove" => Some(("box-stove", "Box stove")),
        "fuel" => Some(("spruce", "Spruce, split")),
        _ => None,
    }
}

/// The cell of a column in the row of the example.
pub(super) fn cell(column: &str, units: Units) -> &'static str {
    let us = units == Units::Us;
    match column {
        "trial" => TRIAL,
        "date" => "2031-03-04",
        "water" => ["120", "32"][usize::from(us)],
        "fuel_mass" => ["5.6", "12.3"][usize::from(us)],
        "fuel_moisture" => "18",
        "leftover_fuel" => "0",
        "leftover_char" => ["0.10", "0.2"][usize::from(us)],
        "ambient" => ["9", "48"][usize::from(us)],
        "note" => "EXAMPLE of invented numbers: delete this row and example-1.csv",
        _ => "",
    }
}

/// Minutes and the tank, degC and degF.
const READINGS: [(u32, &str, &str); 5] =
    [(0, "11.0", "52"), (12, "18.5", "65"), (24, "26.5", "80"), (36, "34.0", "93"), (48, "41.0", "106")];

/// The log of the example.
pub(super) fn log(units: Units) -> String {
    let us = units == Units::Us;
    let unit = if us { "degF" } else { "degC" };
    let mut text = format!("elapsed [min],tank [{unit}],event,note\n");
    for (minutes, metric, american) in READINGS {
        let event = match minutes {
            0 => "lit,EXAMPLE of invented numbers",
            36 => "fire out,",
            _ => ",",
        };
        let _ = writeln!(text, "{minutes},{},{event}", if us { american } else { metric });
    }
    text
}
