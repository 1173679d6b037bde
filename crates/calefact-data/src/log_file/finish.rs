//! From what was read to [`Readings`], with the checks that need the whole trial.

use super::series::Series;
use super::trial::{LogTrial, Wanted};
use super::{read_as, skipped_hour};
use crate::fact::{Fact, Ids, Log};
use crate::text::cells::quoted;
use crate::{Channel, Finding, ReadColumn, Readings, Severity};
use calefact_units::{Kind, Unit};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Fewer readings than this cannot be a trial: a start and an end.
const FEWEST: usize = 2;

/// Closes all series of a log, in the order of the wanted trials; `unregistered` are the ids of others, with the line of the first.
pub(super) fn trials(
    series: Vec<Series<'_>>,
    header: &[Finding],
    unregistered: Option<(Ids, u64)>,
    wanted: &[Wanted<'_>],
    (tank, columns): (Option<Unit>, &Arc<[ReadColumn]>),
) -> Vec<LogTrial> {
    let mut out: Vec<LogTrial> = series
        .into_iter()
        .zip(wanted)
        .map(|(s, w)| trial(s, header, unregistered.as_ref(), w, (tank, columns)))
        .collect();
    if let (Some(first), Some((ids, line))) = (out.first_mut(), unregistered) {
        first.findings.push(Finding::from(Log::TrialUnregistered(ids)).at("", Some(line), None));
    }
    out
}

fn trial(
    mut series: Series<'_>,
    header: &[Finding],
    unregistered: Option<&(Ids, u64)>,
    wanted: &Wanted<'_>,
    (tank, columns): (Option<Unit>, &Arc<[ReadColumn]>),
) -> LogTrial {
    let mut findings = header.to_vec();
    if let Some((ids, _)) = unregistered.filter(|_| series.rows == 0) {
        findings.push(Log::TrialNotInLog(ids.clone()).into());
    }
    if series.clock.lacks_date() {
        findings.push(Log::DateMissing(wanted.date.map(|d| quoted(d).into())).into());
    }
    if let Some((from_s, to_s)) = series.clock.is_unzoned().then(|| skipped_hour::find(&series.times)).flatten() {
        findings.push(Log::HourSkipped { from_s, to_s }.into());
    }
    findings.extend(std::mem::take(&mut series.problems).into_findings());
    findings.extend(series.stepped_back());
    let read_as = read_as::read_as(columns, &series.clock, &series.times);
    let readings = readings(series);
    findings.extend(tank.and_then(|unit| other_unit(&readings, wanted, unit)).map(Finding::from));
    let is_stopped = |findings: &[Finding]| findings.iter().any(|f| f.severity == Severity::Error);
    let count = readings.channel(Channel::Tank).map_or(0, |tank| tank.iter().filter(|t| !t.is_nan()).count());
    if count < FEWEST && !is_stopped(&findings) {
        let line = raise_cause(&mut findings);
        let few = Log::TooFewReadings { readings: count, rows: readings.len(), needed: FEWEST };
        findings.push(Finding::from(few).at("", line, None));
    }
    let stopped = is_stopped(&findings);
    LogTrial { readings: (!stopped).then_some(readings), findings, read_as }
}

/// Makes an error of what left out rows by their time, since no trial is left, and gives its last line: what follows from it comes
/// after it.
fn raise_cause(findings: &mut [Finding]) -> Option<u64> {
    let is_cause = |f: &&mut Finding| {
        f.severity == Severity::Warning && matches!(f.fact, Fact::Log(Log::TimeUnreadable(_) | Log::TimeAmbiguous(_)))
    };
    let cause = findings.iter_mut().find(is_cause)?;
    cause.severity = Severity::Error;
    cause.repeats.map(|r| r.last_line).max(cause.line)
}

/// A start of the tank further from the air than this needs a second look, K.
const FAR_K: f64 = 25.0;
/// A start nearer to the air than this is what a fresh filling has, K.
const NEAR_K: f64 = 4.0;

/// The tank of a burn that would start near the air if its numbers were in the other unit of temperature.
fn other_unit(readings: &Readings, wanted: &Wanted<'_>, unit: Unit) -> Option<Log> {
    let first = |channel| readings.channel(channel)?.iter().copied().find(|t: &f64| !t.is_nan());
    let (start, air) = (first(Channel::Tank)?, first(Channel::Ambient).or(wanted.air)?);
    let other = Unit::parse(if unit.symbol == "degF" { "degC" } else { "degF" }, Kind::Temperature).ok()?;
    let other_start = other.to_si(unit.from_si(start));
    let doubtful = wanted.is_burn && (start - air).abs() > FAR_K && (other_start - air).abs() < NEAR_K;
    let (unit, other) = (unit.symbol, other.symbol);
    doubtful.then_some(Log::OtherUnit { unit, other, start, other_start, air })
}

/// The readings of a series, with times from its first one on.
fn readings(series: Series<'_>) -> Readings {
    let n = series.times.len();
    let start = series.times.first().copied().unwrap_or(0.0);
    let channels = Channel::ALL.into_iter().zip(series.values).filter_map(|(channel, values)| {
        let mut values = values?;
        values.resize(n, f64::NAN);
        Some((channel, values))
    });
    Readings {
        elapsed_s: series.times.iter().map(|t| t - start).collect(),
        channels: channels.collect(),
        left_out: BTreeMap::new(),
        flags: series.flags,
        events: series.events,
        notes: series.notes,
    }
}
