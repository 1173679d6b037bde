//! A log with the proposed columns, read by the reader itself: what it gives is what the proposal tells.

use super::clock::{self, Days, Habits};
use super::facts::{ColumnProposal, LeftOut, Role, TrialProposal};
use super::head::Head;
use crate::column_maps::{ColumnMap, ColumnMaps};
use crate::layout::LogSettings;
use crate::log_file::{self, Wanted};
use crate::text::cells::{as_text, for_each_row};
use crate::{Channel, Readings, Severity, TrialKind};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;

/// Most trials of one log.
const MOST_TRIALS: usize = 2000;

/// A log whose columns are proposed.
pub(super) struct Log<'a> {
    pub(super) path: &'a Path,
    /// Name of the file without its ending, or of the sheet.
    pub(super) name: &'a str,
    pub(super) bytes: &'a [u8],
    pub(super) text: &'a [u8],
    pub(super) head: &'a Head,
    pub(super) columns: &'a [ColumnProposal],
    pub(super) clock: Option<clock::Form>,
    pub(super) habits: Habits,
}

/// The part of `dataset.toml` that makes the reader understand some columns.
pub(super) fn settings(columns: &[ColumnProposal], clock_format: Option<&str>) -> LogSettings {
    let mapped = columns.iter().filter(|c| c.mapped && c.role != Role::Trial);
    let map = |c: &ColumnProposal| ColumnMap {
        name: c.role.column().unwrap_or_default().into(),
        header: c.header.clone(),
        unit: c.unit.map(Into::into),
        instrument: None,
    };
    let mut maps = ColumnMaps::default();
    for map in mapped.map(map) {
        // Of two equal headers the reader takes the first.
        let _ = maps.add(map);
    }
    let trial = columns.iter().find(|c| c.mapped && c.role == Role::Trial);
    LogSettings {
        columns: Arc::new(maps),
        trial_columns: trial.map(|c| c.header.clone()).into_iter().collect(),
        clock_format: clock_format.map(Into::into),
        ..LogSettings::default()
    }
}

impl Log<'_> {
    /// The trials that the reader finds, or its first error.
    pub(super) fn trials(&self) -> Result<Vec<TrialProposal>, LeftOut> {
        let needed = self.clock.as_ref().filter(|form| form.needs_pattern);
        let pattern = needed.and_then(|form| form.pattern.as_deref());
        let settings = settings(self.columns, pattern);
        let index = |role| self.columns.iter().position(|c| c.role == role);
        let spans = self.spans(index(Role::Trial), index(Role::Clock));
        let ids: Vec<&str> = spans.iter().map(|span| span.trial.as_deref().unwrap_or(self.name)).collect();
        let date = self.date().map(|day| day.to_string()).filter(|_| spans.len() == 1);
        let wanted = ids.iter().map(|trial| Wanted { trial, date: date.as_deref(), ..Wanted::default() });
        let wanted: Vec<Wanted<'_>> = wanted.collect();
        let read = log_file::read(self.path, self.bytes, &settings, &wanted);
        let error = read.iter().flat_map(|trial| &trial.findings).find(|f| f.severity == Severity::Error).cloned();
        let found = read
            .iter()
            .zip(&spans)
            .zip(&ids)
            .filter_map(|((trial, span), id)| trial_of(trial.readings.as_ref()?, id, date.clone(), span));
        let trials: Vec<TrialProposal> = found.collect();
        match error {
            Some(error) if trials.is_empty() => Err(LeftOut::Finding(Box::new(error))),
            _ => Ok(trials),
        }
    }

    /// The day of the first reading, by its clock, a column of days, the name of the file or the text above the headers.
    fn date(&self) -> Option<jiff::civil::Date> {
        let of_column = || self.days()?.day(self.dates().next()?);
        let by_clock = self.clock.as_ref().and_then(|form| form.date);
        by_clock.or_else(of_column).or_else(|| clock::day_in(self.name)).or_else(|| clock::day_in(&self.head.above))
    }

    /// The days of a column of days.
    pub(super) fn days(&self) -> Option<Days> {
        let dates: Vec<&str> = self.dates().collect();
        (!dates.is_empty()).then(|| Days::new(&dates, self.habits))
    }

    fn dates(&self) -> impl Iterator<Item = &str> {
        let index = self.columns.iter().position(|c| c.role == Role::Date);
        index.into_iter().flat_map(|index| self.head.cells(index))
    }

    /// The trials of the log with their first and last clock, in the order in which they begin.
    fn spans(&self, trial: Option<usize>, clock: Option<usize>) -> Vec<Span> {
        let mut spans: Vec<Span> = Vec::new();
        for_each_row(self.text, self.head.delimiter, |line, cells| {
            if line < self.head.line {
                return ControlFlow::Continue(());
            }
            let cell =
                |index: Option<usize>| index.and_then(|i| cells.get(i)).map(|c| as_text(c)).filter(|c| !c.is_empty());
            let (id, clock) = (cell(trial), cell(clock));
            if trial.is_some() && id.is_none() {
                return ControlFlow::Continue(());
            }
            let at = spans.iter().rposition(|span| span.trial == id).unwrap_or_else(|| {
                spans.push(Span { trial: id, clock: None });
                spans.len() - 1
            });
            if let Some(clock) = clock {
                let first = spans[at].clock.take().map_or_else(|| clock.clone(), |(first, _)| first);
                spans[at].clock = Some((first, clock));
            }
            if spans.len() < MOST_TRIALS { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
        });
        spans
    }
}

/// A trial of a log as its rows show it.
struct Span {
    trial: Option<String>,
    clock: Option<(String, String)>,
}

fn trial_of(readings: &Readings, id: &str, date: Option<String>, span: &Span) -> Option<TrialProposal> {
    let tank = readings.channel(Channel::Tank)?;
    let mut known = tank.iter().copied().filter(|t| !t.is_nan());
    let start = known.next()?;
    Some(TrialProposal {
        trial: id.to_owned(),
        kind: kind(readings, tank, start),
        date,
        clock: span.clock.clone(),
        readings: readings.len(),
        length_s: readings.elapsed_s.last().copied().unwrap_or(0.0),
        tank: (start, known.next_back().unwrap_or(start)),
        row: None,
    })
}

/// A fall of the tank that is no burn, and a rise that is one, K.
const FALL_K: f64 = 1.0;

/// The kind of a trial: a tank that only cools is a standing loss; electric power and no fire, a reference heater.
fn kind(readings: &Readings, tank: &[f64], start: f64) -> TrialKind {
    let known = || tank.iter().copied().filter(|t| !t.is_nan());
    let (highest, last) = (known().fold(start, f64::max), known().next_back().unwrap_or(start));
    let has = |channel| readings.channels.contains_key(&channel);
    let fire = [Channel::FlueBefore, Channel::FlueAfter, Channel::FuelAdded].into_iter().any(has);
    match (highest < start + FALL_K && last < start - FALL_K, has(Channel::Power) && !fire) {
        (true, _) => TrialKind::StandingLoss,
        (false, true) => TrialKind::ReferenceHeater,
        (false, false) => TrialKind::Burn,
    }
}
