//! The book of fuel use in words: whose burns, from when, what work, what it takes; and what is wrong with another book.

use super::forecast::{SpreadWords, combination_of, task_words};
use super::{Message, Wording, list, plural};
use calefact_analysis::fact::{BookFact, CellFault};
use calefact_analysis::result::{BookEntry, BookMeasure, CombinationIds, Period, RigsLine, Spread, Work};

/// Meaning of a season.
pub const SEASON: &str = "A season is a heating year, July to June";

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &BookFact) -> Message {
    match fact {
        BookFact::CountedOnce { rig, combinations } => Message::new(format!(
            "{} of rig {} have burns that are in the book already",
            plural(*combinations, "combination"),
            w.quoted(rig)
        ))
        .action("counted once: the rows of this table are left out"),
        BookFact::SameRig { rig } => {
            Message::new(format!("further burns of rig {}, which is in the book already", w.quoted(rig)))
                .action("taken as burns of the same rig, by their number")
                .hint("if it is another rig, give its pipeline another name and run it again")
        }
        BookFact::NoBurns => Message::new("no burn has wood, time or cost for its heat, so there is no book")
            .hint("record at least one burn with water, vessel, wood and tank temperature"),
        BookFact::NoPrice => Message::new("no fuel has a price, so the book has no costs")
            .hint("state the price of the fuel in dataset.toml"),
        BookFact::Undated { undated, burns } => Message::new(format!(
            "{undated} of {} have no date, so their seasons are not known",
            plural(*burns, "burn")
        ))
        .hint("write dates as 2025-03-31 into the column `date` of the register"),
        _ => refused(w, fact),
    }
}

/// The message on a table or row that cannot be read.
fn refused(w: &Wording<'_>, fact: &BookFact) -> Message {
    let again = "run the other pipeline again with this version of the program";
    let table = |text: String| Message::new(text).action("table left out");
    match fact {
        BookFact::NoTable => table("no book.csv in this folder or in its folder tables".into())
            .hint("name a folder that `calefact run` or `calefact book` has written"),
        BookFact::Unreadable { reason } => table(format!("the table cannot be read: {reason}")),
        BookFact::TooLarge { most } => table(format!("the table is larger than {} MB", most / 1_000_000)),
        BookFact::NotText => table("not a text file; expected CSV in UTF-8".into()).hint(again),
        BookFact::NoColumns { columns } => {
            let names: Vec<String> = columns.iter().map(|c| w.quoted(c)).collect();
            table(format!("columns are missing: {}", list(&names))).hint(again)
        }
        BookFact::OtherVersion { found } => {
            table(format!("this program cannot read a book of version {}", w.quoted(found))).hint(again)
        }
        BookFact::BadRow { column, fault } => {
            let cell =
                column.map_or_else(|| "the row".to_owned(), |column| format!("the cell under {}", w.quoted(column)));
            Message::new(format!("{cell} {}", fault_words(*fault))).action("row left out")
        }
        _ => Message::default(),
    }
}

const fn fault_words(fault: CellFault) -> &'static str {
    match fault {
        CellFault::Length => "has more or fewer cells than the header",
        CellFault::Blank => "is blank",
        CellFault::Formula => "begins like a formula of a spreadsheet",
        CellFault::Text => "has control characters or is too long",
        CellFault::Number => "is not a number, or not one that can be",
        CellFault::Word => "is not a word that this column has",
        CellFault::Interval => "does not hold the value in its interval",
    }
}

/// "Rocket stove, Spruce slabwood, Double coil": by the names of the reader's own data, else as the other book has it.
pub fn entry_name(w: &Wording<'_>, entry: &BookEntry) -> String {
    entry.name.clone().unwrap_or_else(|| combination_name(w, &entry.combination))
}

/// The same of ids.
pub fn combination_name(w: &Wording<'_>, ids: &CombinationIds) -> String {
    combination_of(w, [&ids.stove, &ids.fuel, &ids.exchanger])
}

/// "9 burns, 2 seasons (2023/24 and 2024/25), last 2025-03-07".
pub fn behind(entry: &BookEntry) -> String {
    let Period { seasons, last, undated } = &entry.period;
    let burns = plural(entry.burns.len(), "burn");
    if seasons.is_empty() {
        return format!("{burns}, seasons not known");
    }
    let years: Vec<String> = seasons.iter().map(|year| format!("{year}/{:02}", (year + 1) % 100)).collect();
    let undated = if *undated > 0 { format!(", {undated} without a date") } else { String::new() };
    let last = last.as_ref().map(|day| format!(", last {day}")).unwrap_or_default();
    format!("{burns}, {} ({}){undated}{last}", plural(seasons.len(), "season"), list(&years))
}

/// Name of work, and what it is.
pub fn work(w: &Wording<'_>, work: &Work) -> (String, String) {
    match work {
        Work::Heat => (w.typography.join("1", "kWh"), "of heat into the vessel".into()),
        Work::Job { name, task } => (name.clone(), task_words(w, task)),
    }
}

/// A figure with its intervals; costs in the currency of the entry.
pub fn figure(w: &Wording<'_>, measure: BookMeasure, currency: Option<&str>, spread: &Spread) -> SpreadWords {
    match measure {
        BookMeasure::Wood => w.wood_spread(spread),
        BookMeasure::Time => w.time_spread(spread),
        BookMeasure::Cost => Wording { currency, ..*w }.cost_spread(spread),
    }
}

/// "2 rigs, 13 burns: 0.62 kg (95 % interval 0.5 to 0.8 kg); rigs scatter by 12 %; a new rig 0.4 to 0.9 kg".
pub fn rigs(w: &Wording<'_>, line: &RigsLine) -> String {
    let spread = Spread { value: line.value, mean: line.mean, next: Some(line.new_rig.unwrap_or(line.mean)) };
    let words = figure(w, line.measure, line.currency.as_deref(), &spread);
    let new_rig = if line.new_rig.is_some() {
        format!("a new rig lies within {}", words.next)
    } else {
        "two rigs are too few to say where a third would lie".to_owned()
    };
    format!(
        "{}, {}: {} ({} interval of the mean rig {}); rigs scatter by {}; {new_rig}",
        plural(line.rigs, "rig"),
        plural(line.burns, "burn"),
        words.value,
        w.confidence(line.mean.confidence),
        words.mean,
        w.percent(line.between)
    )
}

/// The last line of the command: "18 combinations of 1 rig".
pub fn summary(entries: &[BookEntry]) -> String {
    let rigs: std::collections::BTreeSet<&str> = entries.iter().map(|e| e.rig.as_str()).collect();
    format!("{} of {}", plural(entries.len(), "combination"), plural(rigs.len(), "rig"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn burns_and_seasons_behind_an_entry() {
        let period = Period { seasons: BTreeSet::from([1999, 2000]), last: Some("2001-02-03".into()), undated: 1 };
        let mut entry = BookEntry {
            rig: "r".into(),
            combination: CombinationIds::default(),
            name: None,
            burns: BTreeSet::from([1, 2, 3]),
            period,
            currency: None,
            lines: Vec::new(),
        };
        let words = "3 burns, 2 seasons (1999/00 and 2000/01), 1 without a date, last 2001-02-03";
        assert_eq!(behind(&entry), words);
        entry.period = Period { undated: 3, ..Period::default() };
        assert_eq!(behind(&entry), "3 burns, seasons not known");
        assert_eq!(entry_name(&Wording::plain(), &entry), "all burns");
        assert_eq!(summary(&[entry]), "1 combination of 1 rig");
    }

    #[test]
    fn every_refusal_has_a_line() {
        let w = Wording::plain();
        let row = BookFact::BadRow { column: Some("value"), fault: CellFault::Formula };
        assert_eq!(message(&w, &row).text, "the cell under `value` begins like a formula of a spreadsheet");
        let facts = [
            BookFact::NoTable,
            BookFact::Unreadable { reason: "x".into() },
            BookFact::TooLarge { most: 4_000_000 },
            BookFact::NotText,
            BookFact::NoColumns { columns: vec!["rig"] },
            BookFact::OtherVersion { found: "2".into() },
        ];
        assert!(facts.iter().all(|fact| !message(&w, fact).text.is_empty()));
    }
}
