//! One book from several tables: no burn twice, burns of one rig together, rigs apart.

use super::rigs;
use crate::fact::BookFact;
use crate::finding::Finding;
use crate::result::{Book, BookEntry, BookLine, BookMeasure, Period, Spread};
use calefact_stats::Interval;
use libm::{exp, log};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

/// The table of another book, as read.
#[derive(Debug, Clone, PartialEq)]
pub struct Foreign {
    /// Its file.
    pub file: PathBuf,
    /// Its entries.
    pub entries: Vec<BookEntry>,
}

/// Joins the entries of the own rig with those of other tables. An entry any of whose burns is in the book already is left
/// out, since its figures cannot be taken apart.
pub fn assemble(own: Vec<BookEntry>, others: Vec<Foreign>, level: f64) -> (Book, Vec<Finding>) {
    let mut seen: BTreeSet<u64> = own.iter().flat_map(|entry| entry.burns.iter().copied()).collect();
    let (mut entries, mut findings) = (own, Vec::new());
    for Foreign { file, entries: others } in others {
        let (mut twice, mut joined): (BTreeMap<String, usize>, BTreeSet<String>) = Default::default();
        for entry in others {
            if entry.burns.iter().any(|burn| seen.contains(burn)) {
                *twice.entry(entry.rig.clone()).or_default() += 1;
                continue;
            }
            seen.extend(&entry.burns);
            match entries.iter_mut().find(|e| e.rig == entry.rig && e.combination == entry.combination) {
                Some(known) => {
                    joined.insert(entry.rig.clone());
                    join(known, entry);
                }
                None => entries.push(entry),
            }
        }
        let twice = twice.into_iter().map(|(rig, combinations)| BookFact::CountedOnce { rig, combinations });
        let joined = joined.into_iter().map(|rig| BookFact::SameRig { rig });
        findings.extend(twice.map(|fact| Finding::warning(fact).at(&file, None, None)));
        findings.extend(joined.map(|fact| Finding::note(fact).at(&file, None, None)));
    }
    let rigs = rigs::lines(&entries, level);
    (Book { entries, rigs }, findings)
}

/// Adds further burns of the same rig.
fn join(known: &mut BookEntry, other: BookEntry) {
    known.burns.extend(&other.burns);
    known.name = known.name.take().or(other.name);
    let Period { seasons, last, undated } = other.period;
    known.period.seasons.extend(seasons);
    known.period.last = known.period.last.take().max(last);
    known.period.undated += undated;
    let same_currency = known.currency == other.currency;
    for line in other.lines {
        match known.place(&line.work, line.measure) {
            Some(place) if same_currency || line.measure != BookMeasure::Cost => {
                known.lines[place] = joined(&known.lines[place], &line);
            }
            Some(_) => {}
            None => known.lines.push(line),
        }
    }
}

/// Mean over the burns of both. The errors are taken as shared, as those of the rig's instruments are: widths, as factors, are
/// averaged.
fn joined(a: &BookLine, b: &BookLine) -> BookLine {
    let n = a.n + b.n;
    let share = |a_of: f64, b_of: f64| (a.n as f64 * a_of + b.n as f64 * b_of) / n as f64;
    let value = share(a.spread.value, b.spread.value);
    let factor = |of: fn(&Interval) -> f64, x: &Interval, y: &Interval| {
        exp(share(log(of(x) / a.spread.value), log(of(y) / b.spread.value)))
    };
    let interval = |x: Interval, y: Interval| Interval {
        lower: value * factor(|i| i.lower, &x, &y),
        upper: value * factor(|i| i.upper, &x, &y),
        confidence: x.confidence,
    };
    let (x, y) = (a.spread, b.spread);
    let spread =
        Spread { value, mean: interval(x.mean, y.mean), next: x.next.zip(y.next).map(|(x, y)| interval(x, y)) };
    BookLine { n, spread, is_outside: a.is_outside && b.is_outside, ..a.clone() }
}
