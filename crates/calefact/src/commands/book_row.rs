//! A row of another book: each cell read and checked, none trusted.

use calefact_analysis::book::season;
use calefact_analysis::fact::CellFault;
use calefact_analysis::result::{BookEntry, BookLine, BookMeasure, CombinationIds, Period, Spread, Work};
use calefact_analysis::settings::ReferenceJob;
use calefact_stats::Interval;
use csv::StringRecord;
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

/// Characters that a name may have.
const LONGEST: usize = 300;
/// Largest number that a figure may be: seconds of a year.
const LARGEST: f64 = 4e7;
/// Burns that a combination may have.
const MOST_BURNS: usize = 20_000;

/// A cell that is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct BadCell {
    /// Its column; none of a row of another length.
    pub(super) column: Option<&'static str>,
    /// Its fault.
    pub(super) fault: CellFault,
}

/// A row with the places of its columns.
#[derive(Clone, Copy)]
pub(super) struct Row<'r> {
    /// The cells.
    pub(super) record: &'r StringRecord,
    /// Columns with their places.
    pub(super) places: &'r [(&'static str, usize)],
}

impl Row<'_> {
    /// The entry of the row, with its one line.
    pub(super) fn read(self) -> Result<BookEntry, BadCell> {
        let burns = self.burns()?;
        let measure = self.measure()?;
        let unit = self.text("unit")?;
        let line = BookLine {
            work: self.work()?,
            measure,
            n: self.count("n", 1..=burns.len())?,
            spread: self.spread()?,
            is_outside: self.word("outside", &["false", "true"])? == 1,
        };
        let currency = unit.filter(|unit| measure == BookMeasure::Cost && unit != "1");
        Ok(BookEntry {
            rig: self.text("rig")?.ok_or(bad("rig", CellFault::Blank))?,
            combination: CombinationIds {
                stove: self.text("stove")?,
                fuel: self.text("fuel")?,
                exchanger: self.text("exchanger")?,
            },
            name: self.text("name")?,
            period: self.period(burns.len())?,
            burns,
            currency,
            lines: vec![line],
        })
    }

    fn cell(&self, column: &'static str) -> &str {
        let place = self.places.iter().find(|(name, _)| *name == column).map(|(_, place)| *place);
        place.and_then(|place| self.record.get(place)).unwrap_or_default().trim()
    }

    /// A text that is safe to show and to write into a table again; none where it is blank.
    fn text(&self, column: &'static str) -> Result<Option<String>, BadCell> {
        let text = self.cell(column);
        if text.starts_with(['=', '+', '-', '@']) {
            return Err(bad(column, CellFault::Formula));
        }
        if text.chars().count() > LONGEST || text.chars().any(char::is_control) {
            return Err(bad(column, CellFault::Text));
        }
        Ok((!text.is_empty()).then(|| text.to_owned()))
    }

    /// A number within limits; none where it is blank.
    fn maybe(&self, column: &'static str, limits: RangeInclusive<f64>) -> Result<Option<f64>, BadCell> {
        match self.cell(column) {
            "" => Ok(None),
            text => {
                let number = text.parse::<f64>().ok().filter(|x| limits.contains(x));
                number.map(Some).ok_or(bad(column, CellFault::Number))
            }
        }
    }

    fn number(&self, column: &'static str, limits: RangeInclusive<f64>) -> Result<f64, BadCell> {
        self.maybe(column, limits)?.ok_or(bad(column, CellFault::Blank))
    }

    fn count(&self, column: &'static str, limits: RangeInclusive<usize>) -> Result<usize, BadCell> {
        let number = self.cell(column).parse::<usize>().ok().filter(|n| limits.contains(n));
        number.ok_or(bad(column, CellFault::Number))
    }

    /// Place of the word among those of the column.
    fn word(&self, column: &'static str, words: &[&str]) -> Result<usize, BadCell> {
        let text = self.cell(column);
        words.iter().position(|word| *word == text).ok_or(bad(column, CellFault::Word))
    }

    fn measure(&self) -> Result<BookMeasure, BadCell> {
        let place = self.word("quantity", &BookMeasure::ALL.map(BookMeasure::id))?;
        Ok(BookMeasure::ALL[place])
    }

    fn work(&self) -> Result<Work, BadCell> {
        let Some(name) = self.text("job")? else { return Ok(Work::Heat) };
        let degrees = |column| self.number(column, -60.0..=100.0);
        let task = ReferenceJob {
            water_m3: self.number("water", f64::MIN_POSITIVE..=100.0)?,
            from: degrees("from")?,
            to: degrees("to")?,
            ambient: degrees("ambient")?,
            fuel_moisture: self.maybe("fuel_moisture", 0.0..=1.0)?,
        };
        Ok(Work::Job { name, task })
    }

    fn spread(&self) -> Result<Spread, BadCell> {
        let limits = f64::MIN_POSITIVE..=LARGEST;
        let value = self.number("value", limits.clone())?;
        let confidence = self.number("level", 0.5..=0.9999)?;
        let interval = |lower: &'static str, upper: &'static str, ends: (f64, f64)| {
            let interval = Interval { lower: ends.0, upper: ends.1, confidence };
            let column = if ends.0 > value { lower } else { upper };
            if interval.contains(value) { Ok(interval) } else { Err(bad(column, CellFault::Interval)) }
        };
        // An upper end without bound is a blank cell.
        let upper = |column| Ok(self.maybe(column, limits.clone())?.unwrap_or(f64::INFINITY));
        let mean = (self.number("lower", limits.clone())?, upper("upper")?);
        let next = self.maybe("predict_lower", limits.clone())?.map(|lower| Ok((lower, upper("predict_upper")?)));
        Ok(Spread {
            value,
            mean: interval("lower", "upper", mean)?,
            next: next.transpose()?.map(|ends| interval("predict_lower", "predict_upper", ends)).transpose()?,
        })
    }

    fn period(&self, burns: usize) -> Result<Period, BadCell> {
        let year = |text: &str| text.parse::<i16>().ok().filter(|year| (1899..2200).contains(year));
        let seasons: Option<BTreeSet<i16>> = self.cell("seasons").split_whitespace().map(year).collect();
        let last = match self.cell("last") {
            "" => None,
            text => Some(season(text).ok_or(bad("last", CellFault::Word))?.1),
        };
        let seasons = seasons.filter(|all| all.len() <= burns).ok_or(bad("seasons", CellFault::Word))?;
        Ok(Period { seasons, last, undated: self.count("undated", 0..=burns)? })
    }

    fn burns(&self) -> Result<BTreeSet<u64>, BadCell> {
        let mark = |text: &str| u64::from_str_radix(text, 16).ok().filter(|_| text.len() == 16);
        let marks: Option<BTreeSet<u64>> = self.cell("burns").split_whitespace().map(mark).collect();
        let marks = marks.filter(|marks| (1..=MOST_BURNS).contains(&marks.len()));
        marks.ok_or(bad("burns", CellFault::Word))
    }
}

const fn bad(column: &'static str, fault: CellFault) -> BadCell {
    BadCell { column: Some(column), fault }
}
