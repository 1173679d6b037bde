//! The header of a log: which column is what, in which unit.

use super::assumed::Assumed;
use super::elapsed::{self, ElapsedForm};
use crate::dataset_file::LogSettings;
use crate::readings::Channel;
use crate::text::header::{canonical, same_name, split_unit};
use crate::text::units;
use crate::{Finding, Severity, nearest};
use calefact_units::{Kind, Unit, UnitError};

/// How the time column is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum TimeForm {
    /// Elapsed time.
    Elapsed(ElapsedForm),
    /// Time of the clock.
    Clock,
}

/// A column of numbers.
#[derive(Debug, Clone, Copy)]
pub(super) struct ValueColumn {
    pub(super) index: usize,
    pub(super) channel: Channel,
    /// Unit stated in the file or in `dataset.toml`, else SI.
    pub(super) unit: Unit,
}

/// A column of words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Words {
    /// `event`
    Event,
    /// `note`
    Note,
}

/// The columns of a log.
#[derive(Debug, Clone, Default)]
pub(super) struct Columns {
    pub(super) time: Option<(usize, TimeForm)>,
    pub(super) trial: Option<usize>,
    pub(super) values: Vec<ValueColumn>,
    /// Columns that cannot do without a unit and have none so far; a row of units may give it.
    pub(super) unitless: Vec<(ValueColumn, String)>,
    /// Columns whose numbers are taken in SI since no unit is stated; a row of units may state it.
    pub(super) assumed: Vec<Assumed>,
    pub(super) words: Vec<(usize, Words)>,
    /// Line of the header.
    pub(super) line: u64,
    /// Number of cells in the header.
    pub(super) width: usize,
    /// Header cells recognised.
    pub(super) recognised: usize,
    /// What the header gave cause to say.
    pub(super) findings: Vec<Finding>,
}

impl Columns {
    /// Whether time and tank are both there.
    pub(super) fn is_complete(&self) -> bool {
        self.time.is_some() && self.values.iter().any(|v| v.channel == Channel::Tank)
    }
}

/// Resolves the cells of a header on a line.
pub(super) fn resolve(cells: &[String], line: u64, settings: &LogSettings) -> Columns {
    let mut columns = Columns { width: cells.len(), line, ..Columns::default() };
    for (index, cell) in cells.iter().enumerate().filter(|(_, c)| !c.is_empty()) {
        match settle(&mut columns, index, cell, settings) {
            Ok(()) => columns.recognised += 1,
            Err(finding) => {
                let finding = finding.at("", Some(line), Some(index as u64 + 1));
                let stops = finding.severity == Severity::Error;
                // A known column with a unit that is not known is recognised, too.
                columns.recognised += usize::from(stops);
                columns.findings.push(if stops { finding.action("trial left out") } else { finding });
            }
        }
    }
    columns
}

fn settle(columns: &mut Columns, index: usize, cell: &str, settings: &LogSettings) -> Result<(), Box<Finding>> {
    let (name, own_unit) = split_unit(cell);
    let is_header = |h: &str| same_name(h, name) || same_name(h, cell);
    if settings.trial_column.as_deref().is_some_and(is_header) {
        columns.trial = Some(index);
        return Ok(());
    }
    let mapped = settings.columns.iter().find(|m| is_header(&m.header));
    let wanted = mapped.map_or_else(|| canonical(name), |m| m.name.clone());
    // A header mapped as a whole has no unit of its own, whatever stands in its brackets.
    let own_unit = own_unit.filter(|_| mapped.is_none_or(|m| !same_name(&m.header, cell)));
    let unit = own_unit.or(mapped.and_then(|m| m.unit.as_deref()));
    match wanted.as_str() {
        "trial" if settings.trial_column.is_none() => columns.trial = Some(index),
        "clock" if !matches!(columns.time, Some((_, TimeForm::Elapsed(_)))) => {
            columns.time = Some((index, TimeForm::Clock));
        }
        "clock" => {}
        "elapsed" => {
            if unit.is_none() {
                columns.assumed.push(Assumed::new(index, cell, Kind::Time));
            }
            let form = elapsed::form(unit).map_err(|e| unread(cell, &e))?;
            columns.time = Some((index, TimeForm::Elapsed(form)));
        }
        "event" => columns.words.push((index, Words::Event)),
        "note" => columns.words.push((index, Words::Note)),
        other => {
            let value = value(index, cell, other, unit, columns)?;
            if unit.is_none() && !goes_without(value.channel) {
                columns.unitless.push((value, cell.to_string()));
                return Ok(());
            }
            if unit.is_none() {
                columns.assumed.push(Assumed::new(index, cell, value.channel.kind()));
            }
            columns.values.push(value);
        }
    }
    Ok(())
}

fn value(
    index: usize,
    cell: &str,
    name: &str,
    unit: Option<&str>,
    columns: &Columns,
) -> Result<ValueColumn, Box<Finding>> {
    let channel = Channel::from_name(name).ok_or_else(|| unknown(cell, name))?;
    if columns.values.iter().any(|v| v.channel == channel) {
        return Err(Finding::error_text("duplicate-column", format!("`{cell}` is a second column for `{name}`")).into());
    }
    let kind = channel.kind();
    let unit = match unit {
        Some(text) => unit_of(channel, text).map_err(|e| unread(cell, &e))?,
        None => Unit::si(kind),
    };
    Ok(ValueColumn { index, channel, unit })
}

/// The finding on a column whose unit could not be read.
fn unread(cell: &str, error: &UnitError) -> Finding {
    let finding = Finding::error_text(units::code(error), format!("column `{cell}`: {error}"));
    units::hint(error).into_iter().fold(finding, Finding::hint)
}

/// The unit a person wrote for a channel; a flow may be a volume flow.
pub(super) fn unit_of(channel: Channel, text: &str) -> Result<Unit, UnitError> {
    let unit = Unit::parse(text, channel.kind());
    if channel == Channel::Flow { unit.or_else(|_| Unit::parse(text, Kind::VolumeFlow)) } else { unit }
}

/// Whether SI may be taken where no unit is stated: not for flow (kg/s is as unlikely as L/min is likely) nor for gas.
fn goes_without(channel: Channel) -> bool {
    channel != Channel::Flow && channel.kind() != Kind::Fraction
}

/// The finding for a column that has no unit and cannot do without.
pub(super) fn missing_unit(channel: Channel, cell: &str) -> Finding {
    let example = if channel == Channel::Flow { "L/min" } else { "%" };
    Finding::error_text("missing-unit", format!("the column `{cell}` has no unit"))
        .action("trial left out")
        .hint(format!("write `{cell} [{example}]` in the header, or give the unit under [columns] in dataset.toml"))
}

fn unknown(cell: &str, name: &str) -> Finding {
    let known = Channel::ALL.iter().map(|c| c.name()).chain(["elapsed", "clock"]);
    let message = format!("the column `{cell}` is none a log is read for");
    match nearest::nearest(name, known) {
        Some(near) => Finding::warning_text("column-ignored", message)
            .action("column left out")
            .hint(format!("if it is `{near}`, map it under [columns] in dataset.toml")),
        None => Finding::note_text("column-ignored", message).action("column left out"),
    }
}
