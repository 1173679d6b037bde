//! The header of a log: the channel and unit of each column.

use super::elapsed::{self, ElapsedForm};
use crate::fact::{Fact, Log};
use crate::layout::LogSettings;
use crate::text::cells::quoted;
use crate::text::header::{canonical, same_name, split_unit};
use crate::text::sniff::number_part;
use crate::{Channel, Finding, Severity, nearest};
use calefact_units::{Kind, Unit, UnitError};

/// How the time column is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum TimeForm {
    /// Elapsed time.
    Elapsed(ElapsedForm),
    /// Time of the clock.
    Clock,
    /// The header says `time` and no more: the cells below decide.
    Open,
}

/// A column of numbers.
#[derive(Debug, Clone, Copy)]
pub(super) struct ValueColumn {
    pub(super) index: usize,
    pub(super) channel: Channel,
    /// Unit stated in the file or in `dataset.toml`, else SI.
    pub(super) unit: Unit,
}

/// A column of numbers that states no unit.
#[derive(Debug, Clone)]
pub(super) struct WithoutUnit {
    pub(super) index: usize,
    /// Header as written.
    pub(super) header: String,
    /// Kind of quantity it holds.
    pub(super) kind: Kind,
}

/// A column of text.
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
    /// The clock, whether it gives the time or only checks `elapsed`.
    pub(super) clock: Option<usize>,
    /// Date that belongs to the clock.
    pub(super) date: Option<usize>,
    pub(super) trial: Option<usize>,
    pub(super) values: Vec<ValueColumn>,
    /// Columns that cannot do without a unit and have none so far, with their headers; a row of units may give it.
    pub(super) unitless: Vec<(ValueColumn, String)>,
    /// Columns whose numbers are taken in SI since no unit is stated; a row of units may state it.
    pub(super) assumed: Vec<WithoutUnit>,
    pub(super) words: Vec<(usize, Words)>,
    /// Line of the header.
    pub(super) line: u64,
    /// The cells of the header; none of a row that was only tried as one.
    pub(super) headers: Vec<String>,
    /// Number of cells in the header.
    pub(super) width: usize,
    /// Header cells recognised.
    pub(super) recognised: usize,
    /// Header cells ignored.
    ignored: usize,
    /// Whether an ignored header comes with the name that may be meant; finding it takes time.
    with_hints: bool,
    /// Findings on the header.
    pub(super) findings: Vec<Finding>,
}

impl Columns {
    /// Whether time and tank are both there.
    pub(super) fn is_complete(&self) -> bool {
        self.time.is_some() && self.values.iter().any(|v| v.channel == Channel::Tank)
    }
}

impl Columns {
    /// Place of the column of a channel, with a unit or without.
    fn of_channel(&self, channel: Channel) -> Option<usize> {
        let mut all = self.values.iter().chain(self.unitless.iter().map(|(value, _)| value));
        all.find(|v| v.channel == channel).map(|v| v.index)
    }

    /// The time column, where its header says what it is.
    fn stated_time(&self) -> Option<(usize, TimeForm)> {
        self.time.filter(|(_, form)| *form != TimeForm::Open)
    }

    /// Settles a column `time` by the cells below: times of the clock, or elapsed time with a row of units. Hours, minutes and
    /// seconds from zero on are the same time either way; a midnight of two parts is left to the reading of its cell. The first
    /// cell, where it is a number without a unit.
    pub(super) fn settle_time<'c>(&mut self, mut cells: impl Iterator<Item = &'c str>) -> Result<(), String> {
        let Some((index, TimeForm::Open)) = self.time else { return Ok(()) };
        let cell = cells.find(|c| !c.is_empty()).unwrap_or_default();
        if is_short_number(cell) {
            return Err(cell.to_owned());
        }
        let is_midnight = cell.starts_with('0') && cell.trim_start_matches('0').starts_with(':');
        let is_elapsed = elapsed::form(Some(cell)).is_ok() || is_midnight;
        self.clock = self.clock.or((!is_elapsed).then_some(index));
        let elapsed = TimeForm::Elapsed(ElapsedForm::Number(Unit::si(Kind::Time)));
        self.time = Some((index, if is_elapsed { elapsed } else { TimeForm::Clock }));
        Ok(())
    }
}

/// A number too small to be a date of a spreadsheet or a count of seconds since 1970.
fn is_short_number(cell: &str) -> bool {
    cell.replacen(',', ".", 1).parse::<f64>().is_ok_and(|number| number < 20_000.0)
}

/// Resolves the cells of a header on a line.
pub(super) fn resolve(cells: &[String], line: u64, settings: &LogSettings) -> Columns {
    fill(Columns { width: cells.len(), line, with_hints: true, ..Columns::default() }, cells, settings)
}

/// The same for a row that may be no header, without hints.
pub(super) fn try_row(cells: &[String], line: u64, settings: &LogSettings) -> Columns {
    fill(Columns { width: cells.len(), line, ..Columns::default() }, cells, settings)
}

fn fill(mut columns: Columns, cells: &[String], settings: &LogSettings) -> Columns {
    let line = columns.line;
    for index in (0..cells.len()).filter(|i| !cells[*i].is_empty()) {
        match settle(&mut columns, index, HeaderRow { cells, settings }) {
            Ok(()) => columns.recognised += 1,
            Err(fact) if is_one_of_many(&fact, &mut columns.ignored) => repeat(&mut columns.findings, line),
            Err(fact) => {
                // A known column whose unit is not known is recognised, too.
                columns.recognised += usize::from(fact.severity() == Severity::Error);
                columns.findings.push(Finding::from(*fact).at("", Some(line), Some(index as u64 + 1)));
            }
        }
    }
    columns
}

/// Ignored columns that have a finding of their own; those beyond are counted with the last of these.
const IGNORED: usize = 20;

fn is_one_of_many(fact: &Log, ignored: &mut usize) -> bool {
    let is_ignored = matches!(fact, Log::ColumnIgnored { .. });
    *ignored += usize::from(is_ignored);
    is_ignored && *ignored > IGNORED
}

/// Counts another ignored column with the last one that has a finding.
fn repeat(findings: &mut [Finding], line: u64) {
    let last = findings.iter_mut().rfind(|f| matches!(f.fact, Fact::Log(Log::ColumnIgnored { .. })));
    if let Some(last) = last {
        last.repeat(line);
    }
}

/// The cells of a header and what `dataset.toml` says of them.
#[derive(Clone, Copy)]
struct HeaderRow<'a> {
    cells: &'a [String],
    settings: &'a LogSettings,
}

fn settle(columns: &mut Columns, index: usize, row: HeaderRow<'_>) -> Result<(), Box<Log>> {
    let (cell, settings) = (&row.cells[index], row.settings);
    let (name, own_unit) = split_unit(cell);
    if settings.trial_columns.iter().any(|h| same_name(h, name) || same_name(h, cell)) {
        return row.first(&mut columns.trial, index, "trial");
    }
    let mapped = settings.columns.find(cell);
    let wanted = mapped.map_or_else(|| canonical(name), |m| m.name.clone());
    // A header mapped as a whole has no unit of its own, whatever stands in its brackets.
    let own_unit = own_unit.filter(|_| settings.columns.find_whole(cell).is_none());
    let unit = own_unit.or(mapped.and_then(|m| m.unit.as_deref()));
    match wanted.as_str() {
        "trial" if settings.trial_columns.is_empty() => row.first(&mut columns.trial, index, "trial")?,
        "clock" => {
            row.first(&mut columns.clock, index, "clock")?;
            columns.time = columns.stated_time().or(Some((index, TimeForm::Clock)));
        }
        "date" => row.first(&mut columns.date, index, "date")?,
        "time" if unit.is_none() => columns.time = columns.time.or(Some((index, TimeForm::Open))),
        "time" if columns.stated_time().is_some() => return Err(unknown(cell, "time", true).into()),
        "elapsed" | "time" => {
            if let Some((first, TimeForm::Elapsed(_))) = columns.time {
                return Err(row.double([first, index], "elapsed").into());
            }
            if unit.is_none() {
                columns.assumed.push(WithoutUnit { index, header: quoted(cell).into(), kind: Kind::Time });
            }
            let form = elapsed::form(unit).map_err(|e| unreadable_unit(cell, e))?;
            columns.time = Some((index, TimeForm::Elapsed(form)));
        }
        "event" => columns.words.push((index, Words::Event)),
        "note" => columns.words.push((index, Words::Note)),
        other => return row.value(columns, index, other, unit),
    }
    Ok(())
}

impl HeaderRow<'_> {
    /// Takes a column that a log can have once.
    fn first(self, column: &mut Option<usize>, index: usize, name: &'static str) -> Result<(), Box<Log>> {
        match column.replace(index) {
            None => Ok(()),
            Some(first) => Err(self.double([first, index], name).into()),
        }
    }

    /// Two columns that stand for one.
    fn double(self, indices: [usize; 2], column: &'static str) -> Log {
        let is_given = |index: &usize| self.settings.columns.find(&self.cells[*index]).is_some();
        let is_mapped = match column {
            "trial" => !self.settings.trial_columns.is_empty(),
            _ => indices.iter().any(is_given),
        };
        Log::DuplicateColumn { headers: indices.map(|index| quoted(&self.cells[index]).into()), column, is_mapped }
    }

    /// Takes a column of numbers.
    fn value(self, columns: &mut Columns, index: usize, name: &str, unit: Option<&str>) -> Result<(), Box<Log>> {
        let cell = &self.cells[index];
        let channel = Channel::from_name(name)
            .ok_or_else(|| unknown(cell, name, columns.with_hints && columns.ignored < IGNORED))?;
        if let Some(first) = columns.of_channel(channel) {
            return Err(self.double([first, index], channel.name()).into());
        }
        if let Some(text) = unit {
            let unit = parse_unit(channel, text).map_err(|e| unreadable_unit(cell, e))?;
            columns.values.push(ValueColumn { index, channel, unit });
            return Ok(());
        }
        let (kind, header) = (channel.kind(), quoted(cell).into());
        let value = ValueColumn { index, channel, unit: Unit::si(kind) };
        if channel.may_lack_unit() {
            columns.assumed.push(WithoutUnit { index, header, kind });
            columns.values.push(value);
        } else {
            columns.unitless.push((value, header));
        }
        Ok(())
    }
}

fn unreadable_unit(cell: &str, error: UnitError) -> Log {
    Log::UnitUnreadable { header: quoted(cell).into(), error }
}

/// The unit a person wrote for a channel; a flow may be a volume flow.
pub(super) fn parse_unit(channel: Channel, text: &str) -> Result<Unit, UnitError> {
    let unit = Unit::parse(text, channel.kind());
    if channel == Channel::Flow { unit.or_else(|_| Unit::parse(text, Kind::VolumeFlow)) } else { unit }
}

/// The unit that a cell states behind its number.
pub(super) fn cell_unit(channel: Channel, cell: &[u8]) -> Option<Unit> {
    let text = std::str::from_utf8(cell).ok()?.trim();
    let number = number_part(text);
    let unit = text[number.len()..].trim();
    if number.is_empty() || unit.is_empty() { None } else { parse_unit(channel, unit).ok() }
}

fn unknown(cell: &str, name: &str, is_told: bool) -> Log {
    let known = Channel::ALL.into_iter().map(Channel::name).chain(["elapsed", "clock"]);
    Log::ColumnIgnored { header: quoted(cell).into(), nearest: nearest::nearest(name, known.filter(|_| is_told)) }
}
