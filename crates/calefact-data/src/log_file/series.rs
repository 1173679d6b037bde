//! The readings of one trial while they are being read.

use super::clock::Clock;
use super::clock_check::ClockCheck;
use super::columns::{ValueColumn, Words, cell_unit};
use super::overlap::Overlaps;
use super::problems::Problems;
use super::times::two_readings;
use crate::fact::Log;
use crate::readings::{Remark, flag};
use crate::text::cells::excerpt;
use crate::text::number::{Cell, NumberStyle};
use crate::text::sniff::number_part;
use crate::{Channel, Finding};
use calefact_physics::water::density;
use calefact_units::{Kind, parse_quantity};

/// Liquid water, degC: a probe that reads beyond is taken at the nearer end.
const WATER_C: (f64, f64) = (0.0, 110.0);

/// One trial's columns so far.
#[derive(Debug, Clone)]
pub(super) struct Series<'a> {
    pub(super) clock: Clock<'a>,
    clock_check: ClockCheck<'a>,
    pub(super) times: Vec<f64>,
    /// By the number of the channel.
    pub(super) values: Vec<Option<Vec<f64>>>,
    pub(super) flags: Vec<u8>,
    pub(super) events: Vec<Remark>,
    pub(super) notes: Vec<Remark>,
    pub(super) problems: Problems,
    /// Rows that step back in time.
    pub(super) overlaps: Overlaps,
    /// Rows met, good or bad.
    pub(super) rows: u64,
    /// Set by an error: the rest is not read.
    pub(super) stopped: bool,
    last_line: u64,
    water: f64,
}

impl<'a> Series<'a> {
    /// A series with room for so many readings.
    pub(super) fn new(clock: Clock<'a>, room: usize) -> Self {
        Self {
            clock_check: ClockCheck::new(clock.clone()),
            clock,
            times: Vec::with_capacity(room),
            values: vec![None; Channel::ALL.len()],
            flags: Vec::with_capacity(room),
            events: Vec::new(),
            notes: Vec::new(),
            problems: Problems::default(),
            overlaps: Overlaps::default(),
            rows: 0,
            stopped: false,
            last_line: 0,
            water: f64::NAN,
        }
    }

    /// Begins a reading at a time. `false` if it cannot be taken: its time repeats the last one or lies before it.
    pub(super) fn open(&mut self, time: f64, cell: &[u8], line: u64, column: u64) -> bool {
        let last = self.times.last().copied().unwrap_or(f64::NEG_INFINITY);
        if time > last {
            self.times.push(time);
            self.flags.push(0);
            self.last_line = line;
            self.overlaps.close();
            return true;
        }
        let (cell, previous_line) = (excerpt(cell), self.last_line);
        if time < last {
            let step = Log::TimeBackwards { cell, by_s: last - time, previous_line };
            self.overlaps.add(time, self.times.len(), (step, line, column));
        } else {
            self.problems.add(Log::TimeRepeated { cell, previous_line }, line, column);
        }
        false
    }

    /// Reads the tank of a row that is not taken, to compare it with the row that it may repeat.
    pub(super) fn compare(&mut self, columns: &[ValueColumn], cells: &[&[u8]], style: &NumberStyle<'_>) {
        let tank = columns.iter().find(|c| c.channel == Channel::Tank);
        let cell = tank.and_then(|column| Some((column, style.read(cells.get(column.index)?))));
        if let Some((column, Cell::Number(value))) = cell {
            self.overlaps.set_tank(column.unit.to_si(value));
        }
    }

    /// The finding on rows that step back in time.
    pub(super) fn stepped_back(&self) -> Option<Finding> {
        let tank = self.values[Channel::Tank as usize].as_deref().unwrap_or_default();
        self.overlaps.finding(&self.times, tank)
    }

    /// Reads the number columns of the opened reading.
    pub(super) fn take(&mut self, columns: &[ValueColumn], cells: &[&[u8]], line: u64, style: &NumberStyle<'_>) {
        for column in columns {
            let cell = cells.get(column.index).copied().unwrap_or_default();
            let read = style.read(cell);
            let value = match read {
                Cell::Number(v) => Some(column.unit.to_si(v)),
                Cell::Unreadable => with_unit(column, cell, style),
                Cell::Blank | Cell::Ambiguous => None,
            };
            let value = value.unwrap_or_else(|| {
                self.flag_gap(read, column, cell, line);
                f64::NAN
            });
            self.push(column.channel, value);
        }
        self.weigh_flow(columns);
        self.check_limits(columns, line);
    }

    /// Values of the opened reading that need a second look; those that cannot be true are left out as faults of the logger.
    fn check_limits(&mut self, columns: &[ValueColumn], line: u64) {
        for column in columns {
            let (channel, at) = (column.channel, column.index as u64 + 1);
            let Some(value) = self.last(channel).filter(|v| !channel.limit().plausible.contains(v) && !v.is_nan())
            else {
                continue;
            };
            if channel.limit().possible.contains(&value) {
                self.problems.add(Log::Implausible { channel, value }, line, at);
            } else {
                self.problems.add(Log::Impossible { channel, value }, line, at);
            }
        }
    }

    /// A volume flow times the density of water at the coil's inlet, else in the tank, else as last known.
    fn weigh_flow(&mut self, columns: &[ValueColumn]) {
        let water = [Channel::CoilIn, Channel::Tank].into_iter().filter_map(|c| self.last(c)).find(|t| !t.is_nan());
        self.water = water.unwrap_or(self.water);
        if columns.iter().any(|c| c.unit.kind == Kind::VolumeFlow)
            && let Some(flow) = self.values[Channel::Flow as usize].as_mut().and_then(|v| v.last_mut())
        {
            *flow *= density(self.water.clamp(WATER_C.0, WATER_C.1));
        }
    }

    /// The value of a channel in the opened reading.
    fn last(&self, channel: Channel) -> Option<f64> {
        self.values[channel as usize].as_ref().and_then(|v| v.last().copied())
    }

    fn push(&mut self, channel: Channel, value: f64) {
        let before = self.times.len() - 1;
        let room = self.times.capacity();
        let values = self.values[channel as usize].get_or_insert_with(|| Vec::with_capacity(room));
        // Under a header without this column its readings are blank.
        values.resize(before, f64::NAN);
        values.push(value);
    }

    /// Flags a cell without a number.
    fn flag_gap(&mut self, cell: Cell, column: &ValueColumn, text: &[u8], line: u64) {
        let (channel, at) = (column.channel, column.index as u64 + 1);
        match cell {
            Cell::Unreadable => {
                self.flag(flag::UNREADABLE);
                self.problems.add(Log::NotANumber { channel, cell: excerpt(text) }, line, at);
            }
            Cell::Ambiguous => {
                if let Some(fact) = two_readings(channel.name(), text) {
                    self.problems.add(fact, line, at);
                }
            }
            Cell::Blank | Cell::Number(_) if !channel.is_occasional() => {
                self.flag(flag::BLANK);
                self.problems.add(Log::BlankCell(channel), line, at);
            }
            Cell::Blank | Cell::Number(_) => {}
        }
    }

    fn flag(&mut self, bit: u8) {
        if let Some(last) = self.flags.last_mut() {
            *last |= bit;
        }
    }

    /// Compares the opened reading with the clock of a column, if there is one beside `elapsed`.
    pub(super) fn check_clock(&mut self, elapsed: f64, column: Option<usize>, cells: &[&[u8]], line: u64) {
        let Some((index, cell)) = column.and_then(|index| Some((index, cells.get(index)?))) else { return };
        if let Some(fact) = self.clock_check.disagreement(elapsed, cell) {
            self.stopped = true;
            self.problems.add(fact, line, index as u64 + 1);
        }
    }

    /// Keeps the text cells of the reading; words in the last column of a header go on to the end of the row.
    pub(super) fn remark(&mut self, columns: &[(usize, Words)], cells: &[&[u8]], width: usize, delimiter: u8) {
        let row = self.times.len() - 1;
        for (index, words) in columns {
            let end = if index + 1 == width { cells.len() } else { index + 1 };
            let written = cells.get(*index..end).unwrap_or_default().join(&delimiter);
            let written = String::from_utf8_lossy(&written);
            let text = written.trim_end_matches(char::from(delimiter)).trim().to_string();
            if !text.is_empty() {
                let remark = Remark { row, text };
                if *words == Words::Event { self.events.push(remark) } else { self.notes.push(remark) }
            }
        }
    }
}

/// The value, SI, of a cell that states its own unit; of a flow only of the kind of its column.
fn with_unit(column: &ValueColumn, cell: &[u8], style: &NumberStyle<'_>) -> Option<f64> {
    let text = std::str::from_utf8(cell).ok()?.trim();
    let unit = cell_unit(column.channel, cell).filter(|unit| unit.kind == column.unit.kind);
    match (style.read(number_part(text).as_bytes()), unit) {
        (Cell::Number(value), Some(unit)) => Some(unit.to_si(value)),
        // Parts, such as `2 lb 3 oz`, and common fractions.
        _ => parse_quantity(text, column.unit.kind).ok().filter(|_| column.unit.kind == Kind::Mass),
    }
}
