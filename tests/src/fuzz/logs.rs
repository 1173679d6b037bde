//! Logs of loggers: text of any form, read through datasets that describe it in several ways.

use super::findings::assert_sound;
use super::input::{choice, is_read_twice};
use crate::{TinyDataset, Workspace};
use calefact_data::{Dataset, ReadTrial, Readings};
use std::cell::RefCell;
use std::path::Path;

/// Ways to describe the logs.
const STYLES: [&str; 4] = [
    "",
    "[logs]\ndecimal = \"comma\"\nclock_format = \"%d.%m.%Y %H:%M\"\ntime_zone = \"Europe/Oslo\"\n",
    "[logs]\ntrial_column = \"run\"\ndate = \"2026-03-29\"\n",
    "[logs]\nmissing = [\"none\"]\ntime_zone = \"America/New_York\"\n[columns]\nclock = \"When\"\nflow = { header = \"Durchfluss\", unit = \"L/min\" }\n\
     tank = { header = \"Barrel\", unit = \"degF\", instrument = \"probe\" }\n",
];
/// The log of all rows.
const LOG: &str = "logs/a.csv";
/// Inputs for which a dataset is kept open: it remembers the hash of every file that it reads.
const KEPT: usize = 1000;

thread_local! {
    static RIGS: Vec<RefCell<Rig>> = STYLES.into_iter().map(|style| RefCell::new(Rig::new(style))).collect();
}

pub(super) fn check(bytes: &[u8]) {
    let (style, bytes) = choice(bytes, STYLES.len());
    RIGS.with(|rigs| {
        let mut rig = rigs[style].borrow_mut();
        let trials = rig.read(bytes);
        rig.assert_sound(&trials, bytes);
        if is_read_twice(bytes) {
            assert_same(&trials, &rig.read(bytes));
        }
    });
}

/// A dataset on disk whose rows have one log.
pub(super) struct Rig {
    folder: Workspace,
    dataset: Dataset,
    read: usize,
}

impl Rig {
    /// A dataset with a style of its logs: a burn, or two where the log says whose a reading is.
    pub(super) fn new(style: &str) -> Self {
        let mut data = TinyDataset::new().with("logs/b1.csv", LOG).with("logs/b2.csv", LOG);
        data.apparatus += style;
        let rows = if style.contains("trial_column") { 3 } else { 2 };
        data.register = data.register.lines().take(rows).map(|row| row.to_owned() + "\n").collect();
        let folder = Workspace::new();
        data.write(&folder);
        let dataset = opened(&folder.join("data"));
        Self { folder, dataset, read: 0 }
    }

    /// Reads bytes as the log.
    pub(super) fn read(&mut self, bytes: &[u8]) -> Vec<ReadTrial> {
        self.read += 1;
        if self.read.is_multiple_of(KEPT) {
            self.dataset = opened(&self.folder.join("data"));
        }
        self.folder.write(&format!("data/{LOG}"), bytes);
        self.dataset.batches().iter().flat_map(|batch| self.dataset.read(batch)).collect()
    }

    fn assert_sound(&self, trials: &[ReadTrial], bytes: &[u8]) {
        assert_eq!(trials.len(), self.dataset.rows.len());
        let log = self.folder.join(&format!("data/{LOG}"));
        for trial in trials {
            assert_sound(&trial.findings, &[(&log, bytes)]);
            match &trial.readings {
                Some(readings) => assert_whole(readings),
                None => assert!(!trial.findings.is_empty(), "left out without a word"),
            }
        }
    }
}

fn opened(folder: &Path) -> Dataset {
    let (dataset, findings) = Dataset::open_anywhere(folder);
    assert!(findings.is_empty(), "{findings:?}");
    dataset.expect("a dataset")
}

/// Asserts that readings are a table whose time rises and whose values are possible.
pub(super) fn assert_whole(readings: &Readings) {
    let rows = readings.len();
    assert!(readings.elapsed_s.iter().all(|t| t.is_finite()), "{:?}", readings.elapsed_s);
    assert!(readings.elapsed_s.windows(2).all(|w| w[0] < w[1]), "{:?}", readings.elapsed_s);
    assert_eq!(readings.flags.len(), rows);
    for (channel, values) in &readings.channels {
        assert_eq!(values.len(), rows, "{channel:?}");
        let possible = &channel.limit().possible;
        assert!(values.iter().all(|v| v.is_nan() || possible.contains(v)), "{channel:?}: {values:?}");
    }
    assert!(readings.events.iter().chain(&readings.notes).all(|remark| remark.row < rows));
}

/// Asserts that the same was read twice.
pub(super) fn assert_same(first: &[ReadTrial], second: &[ReadTrial]) {
    assert_eq!(first.len(), second.len());
    for (a, b) in first.iter().zip(second) {
        assert_eq!(a.findings, b.findings, "read twice");
        assert_eq!(a.readings.as_ref().map(bits), b.readings.as_ref().map(bits), "read twice");
    }
}

/// The numbers of readings, bit by bit: a blank is equal to a blank.
fn bits(readings: &Readings) -> Vec<u64> {
    let values = readings.channels.values().flatten();
    readings.elapsed_s.iter().chain(values).map(|v| if v.is_nan() { u64::MAX } else { v.to_bits() }).collect()
}
