//! From what was read to [`Readings`], with the checks that need the whole trial.

use super::series::Series;
use super::{LogTrial, Wanted};
use crate::readings::{Channel, Readings};
use crate::text::cells::quoted;
use crate::{Finding, Severity};

/// Fewer readings than this cannot be a trial: a start, an end, and one to check them.
const FEWEST: usize = 3;

/// Closes all series of a log, in the order of the wanted trials.
pub(super) fn trials(
    series: Vec<Series<'_>>,
    header: &[Finding],
    strangers: &[(String, u64)],
    wanted: &[Wanted<'_>],
) -> Vec<LogTrial> {
    let mut out: Vec<LogTrial> = series.into_iter().zip(wanted).map(|(s, w)| trial(s, header, strangers, w)).collect();
    if let Some(first) = out.iter_mut().find(|_| !strangers.is_empty()) {
        let ids: Vec<String> = strangers.iter().map(|(id, _)| format!("`{id}`")).collect();
        let finding = Finding::warning_text(
            "trial-unregistered",
            format!("the log holds trials that the register lacks: {}", ids.join(", ")),
        );
        let finding = finding.action("their rows left out").hint("add a row for each to the register");
        first.findings.push(finding.at("", strangers.first().map(|s| s.1), None));
    }
    out
}

fn trial(series: Series<'_>, header: &[Finding], strangers: &[(String, u64)], wanted: &Wanted<'_>) -> LogTrial {
    let mut findings = header.to_vec();
    if series.rows == 0 && !strangers.is_empty() {
        findings.push(absent(wanted.trial, strangers));
    }
    if series.clock.lacks_date() {
        findings.push(no_date(wanted.date));
    }
    let n = series.times.len();
    let start = series.times.first().copied().unwrap_or(0.0);
    let channels = Channel::ALL.into_iter().zip(series.values).filter_map(|(c, v)| {
        let mut v = v?;
        v.resize(n, f64::NAN);
        Some((c, v))
    });
    let readings = Readings {
        elapsed_s: series.times.iter().map(|t| t - start).collect(),
        channels: channels.collect(),
        flags: series.flags,
        events: series.events,
        notes: series.notes,
    };
    findings.extend(series.problems.into_findings());
    let is_stopped = |findings: &[Finding]| findings.iter().any(|f| f.severity == Severity::Error);
    let numbers = readings.channel(Channel::Tank).map_or(0, |tank| tank.iter().filter(|t| !t.is_nan()).count());
    if numbers < FEWEST && !is_stopped(&findings) {
        findings.push(too_few(numbers, n));
    }
    let stopped = is_stopped(&findings);
    LogTrial { readings: (!stopped).then_some(readings), findings }
}

/// Rows without a number in `tank` tell nothing of the water.
fn too_few(numbers: usize, rows: usize) -> Finding {
    let count = if numbers == 1 { "1 reading".into() } else { format!("{numbers} readings") };
    let of = if numbers == rows { String::new() } else { format!(" with a number in `tank` ({rows} rows)") };
    Finding::error_text("too-few-readings", format!("the log has {count}{of}; a trial needs at least {FEWEST}"))
        .action("trial left out")
}

fn absent(id: &str, strangers: &[(String, u64)]) -> Finding {
    let ids: Vec<String> = strangers.iter().take(8).map(|(s, _)| format!("`{s}`")).collect();
    Finding::error_text("trial-not-in-log", format!("the log has no row of trial `{id}`; it holds {}", ids.join(", ")))
        .action("trial left out")
}

fn no_date(written: Option<&str>) -> Finding {
    let message = match written {
        Some(date) => format!("`time_zone` is stated but the date `{}` of the register cannot be read", quoted(date)),
        None => "`time_zone` is stated but neither register nor [logs] gives the date of the first reading".into(),
    };
    Finding::warning_text("date-missing", message)
        .action("times taken as they stand, without changes of clocks")
        .hint("write the date as 2026-03-28 in the register's `date` column")
}
