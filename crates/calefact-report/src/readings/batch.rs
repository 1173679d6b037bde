//! Some rows of the readings table, column by column.

use crate::columns::Table;
use calefact_data::readings::Remark;
use calefact_data::{Channel, Readings};
use std::iter::repeat_n;
use std::ops::Range;

/// Rows of a batch, and so of a Parquet row group.
pub(super) const BATCH_ROWS: usize = 1 << 15;

/// Meaning of the flag of a reading.
const FLAG: &str = "0 good; sum of 1 a cell was blank, 2 a cell was unreadable and taken as blank, 4 outside the window, 8 a value is shown but left out as a fault of the logger";

/// Rows of one or more trials.
#[derive(Debug, Default)]
pub(crate) struct Batch {
    /// Trial id and its number of rows.
    pub(super) trials: Vec<(String, usize)>,
    /// Time since the first reading, s.
    pub(super) elapsed: Vec<f64>,
    /// Channels in the order of [`Channel::ALL`]: NaN where a trial did not log one, empty where none did.
    pub(super) channels: [Vec<f64>; Channel::ALL.len()],
    /// Flag bits.
    pub(super) flags: Vec<u8>,
    /// `event` cells, by row of the batch.
    pub(super) events: Vec<(usize, String)>,
    /// `note` cells, by row of the batch.
    pub(super) notes: Vec<(usize, String)>,
}

impl Batch {
    /// Number of rows.
    pub(super) fn len(&self) -> usize {
        self.elapsed.len()
    }

    /// The rows as a table.
    pub(crate) fn table(&self) -> Table<'_> {
        let trials = self.trials.iter().flat_map(|(id, rows)| repeat_n(id.as_str(), *rows));
        let mut table = Table::new("readings").text("trial", "trial id", trials).numbers(
            "elapsed_s",
            "s",
            "time since the first reading",
            &self.elapsed,
        );
        for (channel, values) in Channel::ALL.into_iter().zip(&self.channels) {
            let (name, unit, meaning) = (channel.name(), channel.kind().si_symbol(), channel.meaning());
            table = if values.is_empty() {
                table.missing(name, unit, meaning, self.len())
            } else {
                table.numbers(name, unit, meaning, values)
            };
        }
        let remarks =
            [("event", "event written in the log", &self.events), ("note", "note written in the log", &self.notes)];
        for (name, meaning, remarks) in remarks {
            table = if remarks.is_empty() {
                table.missing_text(name, meaning, self.len())
            } else {
                table.maybe(name, meaning, self.by_row(remarks))
            };
        }
        table.count("flag", FLAG, self.flags.iter().map(|flag| Some(u64::from(*flag))))
    }

    /// The remark of each row, where it has one.
    fn by_row<'b>(&self, remarks: &'b [(usize, String)]) -> impl Iterator<Item = Option<&'b str>> + use<'b> {
        let mut left = remarks.iter().peekable();
        (0..self.len()).map(move |row| left.next_if(|(at, _)| *at == row).map(|(_, text)| text.as_str()))
    }

    /// Adds rows of a trial.
    pub(super) fn add(&mut self, trial: &str, readings: &Readings, rows: Range<usize>) {
        let before = self.len();
        let after = before + rows.len();
        self.trials.push((trial.to_owned(), rows.len()));
        self.elapsed.extend_from_slice(&readings.elapsed_s[rows.clone()]);
        for (column, channel) in self.channels.iter_mut().zip(Channel::ALL) {
            if let Some(values) = readings.channel(channel) {
                column.reserve_exact(BATCH_ROWS.saturating_sub(column.len()));
                column.resize(before, f64::NAN);
                column.extend_from_slice(&values[rows.clone()]);
                show_left_out(&mut column[before..], &rows, readings.left_out.get(&channel));
            } else if !column.is_empty() {
                column.resize(after, f64::NAN);
            }
        }
        self.flags.extend(readings.flags.get(rows.clone()).unwrap_or_default());
        self.flags.resize(after, 0);
        remarks(&mut self.events, &readings.events, &rows, before);
        remarks(&mut self.notes, &readings.notes, &rows, before);
    }
}

/// Shows the values that the analysis leaves out: a table of readings holds what the log holds.
fn show_left_out(column: &mut [f64], rows: &Range<usize>, left_out: Option<&Vec<(usize, f64)>>) {
    for (row, value) in left_out.into_iter().flatten().filter(|(row, _)| rows.contains(row)) {
        column[row - rows.start] = *value;
    }
}

/// Moves remarks of the rows to their place in the batch; a second remark on a reading is joined to the first.
fn remarks(to: &mut Vec<(usize, String)>, from: &[Remark], rows: &Range<usize>, before: usize) {
    for remark in from.iter().filter(|r| rows.contains(&r.row)) {
        let row = before + remark.row - rows.start;
        match to.last_mut() {
            Some((last, text)) if *last == row => {
                text.push_str("; ");
                text.push_str(&remark.text);
            }
            _ => to.push((row, remark.text.clone())),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn a_trial_split_over_two_batches_keeps_its_remarks_and_blanks() {
        let readings = fixture::readings();
        let (mut first, mut second) = (Batch::default(), Batch::default());
        first.add("a", &readings, 0..1);
        second.add("z", &readings, 4..5);
        second.add("a", &readings, 1..5);
        assert!(first.events.is_empty());
        assert_eq!(second.events, [(1, "stoked, \"damper\" open".to_owned())]);
        assert_eq!(second.trials, [("z".to_owned(), 1), ("a".to_owned(), 4)]);
        assert_eq!(second.flags, [4, 0, 1, 0, 4]);
        assert!(second.channels.iter().all(|c| c.len() == 5 || c.is_empty()));
        assert!(second.channels[1].is_empty(), "a channel that was not logged");
    }
}
