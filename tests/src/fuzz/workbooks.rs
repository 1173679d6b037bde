//! Workbooks: `.xlsx` and `.ods`, as archives or as the parts of one, read as a register with the logs beside it.

use super::findings::assert_sound;
use super::input::{archive, choice, is_read_twice};
use super::logs::{assert_same, assert_whole};
use crate::{TinyDataset, Workspace};
use calefact_data::{Dataset, ReadTrial, sheets};
use std::path::Path;

thread_local! {
    static FOLDER: Workspace = folder();
}

/// Names of the workbook.
const NAMES: [&str; 2] = ["a.xlsx", "a.ods"];

/// A dataset for each name, whose register is a workbook.
fn folder() -> Workspace {
    let folder = Workspace::new();
    for name in NAMES {
        let apparatus = TinyDataset::new().apparatus + &format!("[files]\nregister = \"{name}\"\n");
        folder.write(&format!("{name}.set/dataset.toml"), apparatus);
    }
    folder
}

pub(super) fn check(bytes: &[u8]) {
    let (name, bytes) = choice(bytes, NAMES.len());
    let bytes = archive(bytes);
    FOLDER.with(|folder| {
        let set = folder.join(&format!("{}.set", NAMES[name]));
        let book = set.join(NAMES[name]);
        folder.write(&format!("{0}.set/{0}", NAMES[name]), &bytes);
        let seen = sheets(&book);
        let trials = read(&set, &book, &bytes);
        if is_read_twice(&bytes) {
            assert_eq!(seen, sheets(&book), "looked at twice");
            assert_same(&trials, &read(&set, &book, &bytes));
        }
    });
}

fn read(set: &Path, book: &Path, bytes: &[u8]) -> Vec<ReadTrial> {
    let (dataset, findings) = Dataset::open(set);
    let toml = set.join("dataset.toml");
    let files = [(book, bytes), (toml.as_path(), &[][..])];
    assert_sound(&findings, &files);
    assert!(dataset.is_some() || !findings.is_empty(), "refused without a word");
    let Some(dataset) = dataset else { return Vec::new() };
    // A row may name any other file as its log: that file is named by the finding that there is none.
    let batches = dataset.batches().into_iter().filter(|batch| batch.path.to_string_lossy().contains('#'));
    let trials: Vec<ReadTrial> = batches.take(4).flat_map(|batch| dataset.read(&batch)).collect();
    for trial in &trials {
        assert_sound(&trial.findings, &files);
        trial.readings.iter().for_each(assert_whole);
    }
    trials
}
