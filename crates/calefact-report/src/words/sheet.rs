//! Words on burn sheets: what to do before and after a burn, and the instruments with their limits and steps.

use super::{Wording, burn_order, instrument};
use calefact_data::Apparatus;

/// Before the fire is lit. Common practice, no source.
pub(crate) const BEFORE: [&str; 6] = [
    "Flue clear and drawing; carbon monoxide alarm on; vent or relief valve of the coil open.",
    "Stove emptied of ash and char; damper, coil and flow set as the plan says.",
    "Scale at zero. Kindling and wood weighed apart.",
    "Moisture read in three pieces, split fresh, in the middle of the split face.",
    "Water filled in and measured; tank stirred; probes in place.",
    "First row read before the fire is lit.",
];

/// After the fire. Common practice, no source.
pub(crate) const AFTER: [&str; 5] = [
    "Wood put on during the burn stands in its row, and in the box fuel_mass as a sum.",
    "Fire out noted under event; rows go on until the tank rises no more.",
    "Wood left over weighed; char weighed cold and without ash. 0 where nothing was left, blank where it was not weighed.",
    "What went otherwise than planned stands under note.",
    "Boxes copied into trials.csv, rows into the log file of this trial.",
];

/// "5": minutes without idle digits.
pub(crate) fn minutes(w: &Wording<'_>, s: f64) -> String {
    w.typography.significant(s / 60.0, 4)
}

/// "fuel: Spruce slabwood (spruce)": the name for people with the id for the register.
pub(crate) fn level(w: &Wording<'_>, column: &str, level: &str) -> String {
    let name = burn_order::level(w, column, level);
    let id = if name == level || level.is_empty() { String::new() } else { format!(" ({level})") };
    format!("{} {name}{id}", column.replace('_', " "))
}

/// "Hanging scale (fuel_mass, kindling_mass): 0.02 kg and 0.2 % of the reading, step 0.01 kg".
pub(crate) fn instruments(w: &Wording<'_>, apparatus: &Apparatus) -> Vec<String> {
    let words = |(id, i): (&String, &calefact_data::apparatus::Instrument)| {
        let name = if i.name.is_empty() { id } else { &i.name };
        let limits = [instrument::tolerance(w, i), instrument::step(w, i)];
        let limits: Vec<String> = limits.into_iter().flatten().collect();
        let limits = if limits.is_empty() { "no tolerance stated".to_owned() } else { limits.join(", ") };
        format!("{name} ({}): {limits}", i.reads.join(", "))
    };
    apparatus.instruments.iter().map(words).collect()
}
