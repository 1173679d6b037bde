//! How a log was read, for a person to see.

use super::clock::Clock;
use super::columns::{Columns, TimeForm, Words};
use super::elapsed::ElapsedForm;
use crate::read_as::{ReadAs, ReadColumn};
use crate::text::cells::quoted;
use std::sync::Arc;

/// Columns that are told of.
const MOST: usize = 100;

/// The columns under the last header.
pub(super) fn columns(columns: &Columns) -> Arc<[ReadColumn]> {
    let filled = columns.headers.iter().enumerate().take(MOST).filter(|(_, header)| !header.is_empty());
    let column = |(index, header): (usize, &String)| {
        let (column, unit) = role(columns, index).unzip();
        ReadColumn { header: quoted(header).into(), column, unit: unit.flatten() }
    };
    filled.map(column).collect()
}

/// The canonical column at a place and its unit.
fn role(columns: &Columns, index: usize) -> Option<(&'static str, Option<&'static str>)> {
    if let Some((_, form)) = columns.time.filter(|(at, _)| *at == index) {
        return Some(match form {
            TimeForm::Elapsed(ElapsedForm::Number(unit)) => ("elapsed", Some(unit.symbol)),
            TimeForm::Elapsed(ElapsedForm::HoursMinutes) => ("elapsed", Some("h:mm")),
            TimeForm::Elapsed(ElapsedForm::MinutesSeconds) => ("elapsed", Some("m:ss")),
            TimeForm::Clock | TimeForm::Open => ("clock", None),
        });
    }
    if let Some(value) = columns.values.iter().find(|v| v.index == index) {
        return Some((value.channel.name(), Some(value.unit.symbol)));
    }
    if let Some((_, words)) = columns.words.iter().find(|(at, _)| *at == index) {
        return Some((if *words == Words::Event { "event" } else { "note" }, None));
    }
    let others = [(columns.clock, "clock"), (columns.date, "date"), (columns.trial, "trial")];
    others.into_iter().find(|(at, _)| *at == Some(index)).map(|(_, name)| (name, None))
}

/// The columns, and the clock at the first and the last of some times.
pub(super) fn read_as(columns: &Arc<[ReadColumn]>, clock: &Clock<'_>, times: &[f64]) -> ReadAs {
    let span = times.first().zip(times.last());
    let clock = span.and_then(|(first, last)| Some([clock.shown(*first)?, clock.shown(*last)?]));
    ReadAs { columns: columns.clone(), clock }
}
