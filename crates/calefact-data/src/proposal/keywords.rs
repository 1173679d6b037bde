//! Words of headers, English and German, and the columns they speak of. Common practice, no source. Chosen so that a word
//! that names two columns decides for neither.

use crate::Channel;

/// A rule: a header with one of some words, and with one of others where there are any, is a column.
pub(super) struct Rule<C> {
    pub(super) column: C,
    any: &'static [&'static str],
    and: &'static [&'static str],
}

const fn rule<C>(column: C, any: &'static [&'static str], and: &'static [&'static str]) -> Rule<C> {
    Rule { column, any, and }
}

const FLUE: &[&str] =
    &["flue", "stack", "chimney", "exhaust", "smoke", "stovepipe", "pipe", "fumes", "rauchgas", "abgas", "rauchrohr"];
const COIL: &[&str] = &["coil", "exchanger", "helix", "hx", "wärmetauscher"];
const BEFORE: &[&str] = &["before", "in", "inlet", "pre", "bottom", "vor", "ein", "1", "lower"];
const AFTER: &[&str] = &["after", "out", "outlet", "post", "top", "nach", "aus", "2", "upper"];
const WOOD: &[&str] = &["wood", "fuel", "firewood", "holz", "brennstoff"];

/// Columns of a log, the special before the general.
pub(super) const LOG: &[Rule<Channel>] = &[
    rule(Channel::Flow, &["flow", "lpm", "durchfluss"], &[]),
    rule(Channel::FlueO2, &["o2", "oxygen", "sauerstoff"], &[]),
    rule(Channel::FlueCo2, &["co2"], &[]),
    rule(Channel::FlueCo, &["co"], &[]),
    rule(Channel::Power, &["power", "watt", "watts", "leistung"], &[]),
    rule(Channel::FlueAfter, FLUE, AFTER),
    rule(Channel::FlueBefore, FLUE, BEFORE),
    rule(Channel::FlueAfter, FLUE, &[]),
    rule(Channel::CoilOut, COIL, AFTER),
    rule(Channel::CoilIn, COIL, BEFORE),
    rule(Channel::Casing, &["casing", "housing", "jacket", "gehäuse"], &[]),
    rule(
        Channel::Ambient,
        &["ambient", "air", "room", "outside", "outdoor", "shed", "luft", "raum", "aussen", "außen"],
        &[],
    ),
    rule(
        Channel::Tank,
        &[
            "tank", "barrel", "drum", "water", "pot", "kettle", "vessel", "tub", "bucket", "fass", "wasser", "kessel",
            "topf",
        ],
        &[],
    ),
    rule(Channel::FuelAdded, WOOD, &[]),
];

/// Columns of a table of trials; numbers and words are told apart by the cells.
pub(super) const TABLE: &[Rule<&str>] = &[
    rule("fuel_moisture", &["moisture", "mc", "feuchte"], &[]),
    rule("kindling_mass", &["kindling", "anzündholz"], &[]),
    rule("leftover_char", &["char", "charcoal", "coals", "kohle"], &[]),
    rule("leftover_fuel", &["leftover", "left", "unburnt", "unburned", "remaining", "rest"], &[]),
    rule("ambient", &["ambient", "air", "outside", "outdoor", "luft"], &[]),
    rule("water", &["water", "wasser"], &[]),
    rule("fuel_mass", WOOD, &[]),
    rule("fuel", &["species", "wood", "fuel", "firewood", "holz", "holzart"], &[]),
    rule("stove", &["stove", "ofen"], &[]),
    rule("exchanger", COIL, &[]),
    rule("vessel", &["vessel", "tank", "barrel", "drum", "fass", "kessel"], &[]),
    rule("date", &["date", "day", "datum"], &[]),
    rule("operator", &["operator", "who"], &[]),
    rule("note", &["note", "notes", "remark", "remarks", "comment", "comments", "bemerkung"], &[]),
    rule("kind", &["kind"], &[]),
    rule("trial", &["trial", "burn", "test", "run", "versuch", "no", "nr", "number"], &[]),
];

/// Words for a time since the start.
pub(super) const ELAPSED: &[&str] = &[
    "elapsed", "duration", "dauer", "min", "mins", "minute", "minutes", "sec", "secs", "second", "seconds", "hour",
    "hours", "hrs", "minuten", "sekunden", "stunden", "s", "h", "t",
];
/// Words for a clock.
pub(super) const CLOCK: &[&str] =
    &["clock", "time", "timestamp", "datetime", "date", "uhrzeit", "zeit", "datum", "zeitstempel"];
/// Words for the id of a trial in a log.
pub(super) const TRIAL: &[&str] = &["trial", "burn", "test", "run", "versuch"];
/// Words for what happened.
pub(super) const EVENT: &[&str] = &["event", "events", "ereignis"];
/// Words for remarks.
pub(super) const NOTE: &[&str] = &["note", "notes", "remark", "remarks", "comment", "comments", "bemerkung"];

/// The words of a header, lower case: `Flue T2 [°C]` is `flue`, `t`, `2`, `c`.
pub(super) fn words(header: &str) -> Vec<String> {
    let mut words: Vec<String> = vec![String::new()];
    let mut last_digit = None;
    for c in header.to_lowercase().chars() {
        let is_digit = c.is_ascii_digit();
        let gas = matches!(words.last().map(String::as_str), Some("o" | "co")) && c == '2';
        if !c.is_alphanumeric() || (last_digit.is_some_and(|was: bool| was != is_digit) && !gas) {
            words.push(String::new());
        }
        if c.is_alphanumeric() {
            words.last_mut().into_iter().for_each(|word| word.push(c));
        }
        last_digit = c.is_alphanumeric().then_some(is_digit);
    }
    words.retain(|word| !word.is_empty());
    words
}

/// The first of some words that a header has.
pub(super) fn word_of(words: &[String], known: &[&'static str]) -> Option<&'static str> {
    known.iter().find(|known| words.iter().any(|word| word == *known)).copied()
}

/// The rules that fit the words of a header, in their order, with the word that tells.
pub(super) fn fitting<'r, C>(words: &[String], rules: &'r [Rule<C>]) -> impl Iterator<Item = (&'r C, &'static str)> {
    rules.iter().filter_map(move |rule| {
        let word = word_of(words, rule.any)?;
        (rule.and.is_empty() || word_of(words, rule.and).is_some()).then_some((&rule.column, word))
    })
}

#[cfg(test)]
mod tests {
    use super::{LOG, fitting, words};
    use crate::Channel;

    #[test]
    fn headers_as_people_write_them() {
        let first = |header: &str| fitting(&words(header), LOG).next().map(|(channel, _)| *channel);
        for (header, want) in [
            ("Barrel \u{b0}F", Some(Channel::Tank)),
            ("water temp", Some(Channel::Tank)),
            ("Water flow (L/min)", Some(Channel::Flow)),
            ("Outside air", Some(Channel::Ambient)),
            ("Stack temp", Some(Channel::FlueAfter)),
            ("T_flue_in", Some(Channel::FlueBefore)),
            ("Flue2", Some(Channel::FlueAfter)),
            ("CO2 %", Some(Channel::FlueCo2)),
            ("coil outlet", Some(Channel::CoilOut)),
            ("T3", None),
            ("battery V", None),
        ] {
            assert_eq!(first(header), want, "{header}");
        }
        assert_eq!(words("Flue T2 [\u{b0}C]"), ["flue", "t", "2", "c"]);
    }
}
