//! `book`: what a kWh of heat and each job take with each combination, rig by rig; `book_rigs`: the same over rigs.

use crate::columns::Table;
use crate::words::{Typography, Units, Wording, book};
use calefact_analysis::result::{Analysis, Book, BookEntry, BookLine, BookMeasure, CombinationIds, RigsLine, Work};
use calefact_analysis::settings::ReferenceJob;
use calefact_stats::Interval;

/// Version of the form of `book`, which other books are read in.
pub const VERSION: u64 = 1;

/// The table of an analysis.
pub(super) fn of_analysis(analysis: &Analysis) -> Table<'_> {
    table(&wording(analysis), &analysis.book)
}

/// The tables of a book: its entries and, of several rigs, the figures together.
pub(super) fn tables<'a>(book: &'a Book, analysis: &Analysis) -> Vec<Table<'a>> {
    let together = (!book.rigs.is_empty()).then(|| rigs(&book.rigs));
    [table(&wording(analysis), &book.entries)].into_iter().chain(together).collect()
}

fn wording(analysis: &Analysis) -> Wording<'_> {
    Wording::of_analysis(analysis, Units::Metric, Typography::Plain)
}

fn table<'a>(w: &Wording<'_>, entries: &'a [BookEntry]) -> Table<'a> {
    let all: Vec<(&BookEntry, &BookLine)> =
        entries.iter().flat_map(|entry| entry.lines.iter().map(move |line| (entry, line))).collect();
    let entry = |of: &dyn Fn(&BookEntry) -> String| all.iter().map(|(e, _)| of(e)).collect::<Vec<_>>().into_iter();
    let number = |of: fn(&BookLine) -> f64| all.iter().map(move |(_, line)| of(line));
    let next = |of: fn(&Interval) -> f64| all.iter().map(move |(_, l)| l.spread.next.as_ref().map_or(f64::NAN, of));
    let seasons = |e: &BookEntry| e.period.seasons.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    let burns = |e: &BookEntry| e.burns.iter().map(|mark| format!("{mark:016x}")).collect::<Vec<_>>().join(" ");
    let start = Table::new("book")
        .count("version", "version of the form of this table", all.iter().map(|_| Some(VERSION)))
        .text("rig", "rig, by the name of its pipeline", entry(&|e| e.rig.clone()))
        .text("name", "names of stove, fuel and exchanger", entry(&|e| book::entry_name(w, e)));
    let start = ids(start, all.iter().map(|(e, _)| &e.combination));
    let start = works(start, &all.iter().map(|(_, line)| &line.work)).text(
        "quantity",
        "`wood`, `time` or `cost`",
        all.iter().map(|(_, line)| line.measure.id()),
    );
    start
        .number("value", "as `unit`", "best estimate", number(|l| l.spread.value))
        .text("unit", "unit symbol of the row", units(all.iter().map(|(e, l)| (l.measure, e.currency.as_deref()))))
        .number(
            "lower",
            "as `unit`",
            "lower end of the interval for the mean of many burns",
            number(|l| l.spread.mean.lower),
        )
        .number(
            "upper",
            "as `unit`",
            "upper end of the interval for the mean of many burns",
            number(|l| l.spread.mean.upper),
        )
        .number(
            "level",
            "1",
            "coverage probability the intervals are meant to have",
            number(|l| l.spread.mean.confidence),
        )
        .number("predict_lower", "as `unit`", "lower end of the interval for one next burn", next(|i| i.lower))
        .number("predict_upper", "as `unit`", "upper end of the interval for one next burn", next(|i| i.upper))
        .count("n", "burns behind the figure", all.iter().map(|(_, line)| Some(line.n as u64)))
        .flag("outside", "whether the job lies beyond the burns", all.iter().map(|(_, line)| line.is_outside))
        .text("seasons", "seasons of the burns, July to June, each by the year in which it begins", entry(&seasons))
        .maybe("last", "date of the last burn", all.iter().map(|(e, _)| e.period.last.clone()))
        .count("undated", "burns without a date", all.iter().map(|(e, _)| Some(e.period.undated as u64)))
        .text("burns", "marks of the burns: the same burn has the same mark in every table", entry(&burns))
}

/// Stove, fuel and exchanger.
fn ids<'a>(table: Table<'a>, ids: impl Iterator<Item = &'a CombinationIds> + Clone) -> Table<'a> {
    table
        .maybe("stove", "stove; blank where none is named", ids.clone().map(|c| c.stove.as_deref()))
        .maybe("fuel", "fuel; blank where none is named", ids.clone().map(|c| c.fuel.as_deref()))
        .maybe("exchanger", "exchanger; blank where none is named", ids.map(|c| c.exchanger.as_deref()))
}

/// The job of a row.
fn works<'a>(table: Table<'a>, works: &(impl Iterator<Item = &'a Work> + Clone)) -> Table<'a> {
    let of_job = |of: fn(&ReferenceJob) -> f64| {
        works.clone().map(move |work| match work {
            Work::Heat => f64::NAN,
            Work::Job { task, .. } => of(task),
        })
    };
    let names = works.clone().map(|work| match work {
        Work::Heat => None,
        Work::Job { name, .. } => Some(name.as_str()),
    });
    table
        .maybe("job", "name of the job; blank for one kWh of heat into the vessel", names)
        .number("water", "m3", "water of the job at its start temperature", of_job(|t| t.water_m3))
        .number("from", "degC", "start temperature of the job", of_job(|t| t.from))
        .number("to", "degC", "end temperature of the job", of_job(|t| t.to))
        .number("ambient", "degC", "air temperature of the job", of_job(|t| t.ambient))
        .number(
            "fuel_moisture",
            "1",
            "moisture of the wood, where the job states it",
            of_job(|t| t.fuel_moisture.unwrap_or(f64::NAN)),
        )
}

fn units<'a>(rows: impl Iterator<Item = (BookMeasure, Option<&'a str>)>) -> impl Iterator<Item = &'a str> {
    rows.map(|(measure, currency)| match measure {
        BookMeasure::Wood => "kg",
        BookMeasure::Time => "s",
        BookMeasure::Cost => currency.unwrap_or("1"),
    })
}

/// The figures of several rigs together.
fn rigs(lines: &[RigsLine]) -> Table<'_> {
    let number = |of: fn(&RigsLine) -> f64| lines.iter().map(of);
    let new = |of: fn(&Interval) -> f64| lines.iter().map(move |l| l.new_rig.as_ref().map_or(f64::NAN, of));
    let start = ids(Table::new("book_rigs"), lines.iter().map(|l| &l.combination));
    works(start, &lines.iter().map(|l| &l.work))
        .text("quantity", "`wood`, `time` or `cost`", lines.iter().map(|l| l.measure.id()))
        .count("rigs", "rigs behind the figure", lines.iter().map(|l| Some(l.rigs as u64)))
        .count("n", "burns behind the figure", lines.iter().map(|l| Some(l.burns as u64)))
        .number("value", "as `unit`", "figure of the mean rig", number(|l| l.value))
        .text("unit", "unit symbol of the row", units(lines.iter().map(|l| (l.measure, l.currency.as_deref()))))
        .number("lower", "as `unit`", "lower end of the interval of the mean rig", number(|l| l.mean.lower))
        .number("upper", "as `unit`", "upper end of the interval of the mean rig", number(|l| l.mean.upper))
        .number("level", "1", "coverage probability the intervals are meant to have", number(|l| l.mean.confidence))
        .number("between_rigs", "1", "standard deviation between rigs, as a share of the figure", number(|l| l.between))
        .number("predict_lower", "as `unit`", "lower end of the interval for the mean of a new rig", new(|i| i.lower))
        .number("predict_upper", "as `unit`", "upper end of the interval for the mean of a new rig", new(|i| i.upper))
}
