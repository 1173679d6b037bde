//! The readings of one trial while they are being read.

use super::clock::Clock;
use super::columns::{ValueColumn, Words};
use super::problems::Problems;
use crate::Finding;
use crate::readings::{Channel, Remark, flag};
use crate::text::cells::{as_text, quoted};
use crate::text::number::{Cell, NumberStyle};
use calefact_physics::water::density;
use calefact_units::Kind;

/// Liquid water, degC: a probe that reads beyond is taken at the nearer end.
const WATER_C: (f64, f64) = (0.0, 110.0);

/// One trial's columns so far.
#[derive(Debug, Clone)]
pub(super) struct Series<'a> {
    pub(super) clock: Clock<'a>,
    pub(super) times: Vec<f64>,
    /// By the number of the channel.
    pub(super) values: Vec<Option<Vec<f64>>>,
    pub(super) flags: Vec<u8>,
    pub(super) events: Vec<Remark>,
    pub(super) notes: Vec<Remark>,
    pub(super) problems: Problems,
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
            clock,
            times: Vec::with_capacity(room),
            values: vec![None; Channel::ALL.len()],
            flags: Vec::with_capacity(room),
            events: Vec::new(),
            notes: Vec::new(),
            problems: Problems::default(),
            rows: 0,
            stopped: false,
            last_line: 0,
            water: f64::NAN,
        }
    }

    /// Opens a reading at a time. `false` if it cannot be taken: its time repeats the last one or lies before it.
    pub(super) fn open(&mut self, time: f64, cell: &[u8], line: u64, column: u64) -> bool {
        let last = self.times.last().copied().unwrap_or(f64::NEG_INFINITY);
        if time > last {
            self.times.push(time);
            self.flags.push(0);
            self.last_line = line;
            return true;
        }
        let text = String::from_utf8_lossy(cell).trim().to_string();
        let before = self.last_line;
        if time < last {
            self.stopped = true;
            self.problems.add("time-backwards", line, column, || backwards(&text, last - time, before));
        } else {
            let message = format!("the time `{text}` is that of line {before} again");
            let make = || Finding::warning_text("", message).action("first reading kept, this one left out");
            self.problems.add("time-repeated", line, column, make);
        }
        false
    }

    /// Reads the number columns of the opened reading.
    pub(super) fn take(&mut self, columns: &[ValueColumn], cells: &[&[u8]], line: u64, style: &NumberStyle<'_>) {
        for column in columns {
            let cell = cells.get(column.index).copied().unwrap_or_default();
            let value = match style.read(cell) {
                Cell::Number(v) => column.unit.to_si(v),
                other => self.gap(other, column, cell, line),
            };
            self.put(column.channel, value);
            if column.channel.kind() == Kind::Temperature && !(-60.0..=1400.0).contains(&value) && !value.is_nan() {
                self.implausible(column, value, line);
            }
        }
        self.weigh_flow(columns);
    }

    /// A volume flow times the density of water at the coil's inlet, else in the tank, else as last known.
    fn weigh_flow(&mut self, columns: &[ValueColumn]) {
        let last =
            |values: &[Option<Vec<f64>>], c: Channel| values[c as usize].as_ref().and_then(|v| v.last().copied());
        let water =
            [Channel::CoilIn, Channel::Tank].into_iter().filter_map(|c| last(&self.values, c)).find(|t| !t.is_nan());
        self.water = water.unwrap_or(self.water);
        if columns.iter().any(|c| c.unit.kind == Kind::VolumeFlow)
            && let Some(flow) = self.values[Channel::Flow as usize].as_mut().and_then(|v| v.last_mut())
        {
            *flow *= density(self.water.clamp(WATER_C.0, WATER_C.1));
        }
    }

    fn put(&mut self, channel: Channel, value: f64) {
        let before = self.times.len() - 1;
        let room = self.times.capacity();
        let values = self.values[channel as usize].get_or_insert_with(|| Vec::with_capacity(room));
        // A column that was away under another header is blank in between.
        values.resize(before, f64::NAN);
        values.push(value);
    }

    fn gap(&mut self, cell: Cell, column: &ValueColumn, text: &[u8], line: u64) -> f64 {
        let at = column.index as u64 + 1;
        let name = column.channel.name();
        if cell == Cell::Unreadable {
            self.flag(flag::UNREADABLE);
            let make = || {
                let text = as_text(text);
                Finding::warning_text("", format!("`{}` in `{name}` is no number", quoted(&text)))
                    .action("cell taken as blank, reading flagged")
            };
            self.problems.add("not-a-number", line, at, make);
        } else if column.channel != Channel::FuelAdded {
            // Fuel is put on now and then; no entry is no gap.
            self.flag(flag::BLANK);
            let make = || Finding::note_text("", format!("`{name}` has no reading")).action("reading flagged");
            self.problems.add("blank-cell", line, at, make);
        }
        f64::NAN
    }

    fn implausible(&mut self, column: &ValueColumn, value: f64, line: u64) {
        let name = column.channel.name();
        let make = || {
            Finding::warning_text("", format!("`{name}` reads {value:.0} degC, beyond -60 to 1400 degC"))
                .action("value kept")
                .hint("check the unit of the column and the probe")
        };
        self.problems.add("implausible", line, column.index as u64 + 1, make);
    }

    fn flag(&mut self, bit: u8) {
        if let Some(last) = self.flags.last_mut() {
            *last |= bit;
        }
    }

    /// Keeps the words of the opened reading.
    pub(super) fn remark(&mut self, columns: &[(usize, Words)], cells: &[&[u8]]) {
        let row = self.times.len() - 1;
        for (index, words) in columns {
            let text = cells.get(*index).map(|c| String::from_utf8_lossy(c).trim().to_string()).unwrap_or_default();
            if !text.is_empty() {
                let remark = Remark { row, text };
                if *words == Words::Event { self.events.push(remark) } else { self.notes.push(remark) }
            }
        }
    }
}

fn backwards(text: &str, by: f64, before: u64) -> Finding {
    Finding::error_text("", format!("time runs backwards: `{text}` is {by} s before the reading on line {before}"))
        .action("trial left out")
        .hint("correct the time; if the clock was put back, state `time_zone` under [logs] in dataset.toml")
}
