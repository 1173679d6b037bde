//! Sound logs, in which nothing is faulty: faults of loggers are found in one of a thousand at most.

use crate::dataset_folder::{self, SimulateOptions};
use calefact_data::{Dataset, Fact, Finding, ReadTrial};
use std::num::NonZeroUsize;
use std::path::Path;

/// Trials a length of log, and the lengths.
const TRIALS: usize = 250;
const ROWS: [usize; 4] = [12, 25, 80, 240];

/// Faults found in the logs of a dataset, and the number of its trials.
fn faults(folder: &Path) -> (Vec<Finding>, usize) {
    let set = Dataset::open(folder).0.expect("a dataset");
    let read: Vec<ReadTrial> = set.batches().iter().flat_map(|batch| set.read(batch)).collect();
    let trials = read.len();
    let findings = read.into_iter().flat_map(|t| t.findings);
    (findings.filter(|f| matches!(f.fact, Fact::LoggerFault(_))).collect(), trials)
}

#[test]
fn a_thousand_sound_logs_have_at_most_one_fault() {
    let mut found = Vec::new();
    for (rows, seed) in ROWS.into_iter().zip(1..) {
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("data");
        let (trials, rows) = (NonZeroUsize::new(TRIALS), NonZeroUsize::new(rows));
        dataset_folder::write(&SimulateOptions { out: out.clone(), trials, rows, seed }).expect("written");
        let (faults, trials) = faults(&out);
        assert!(trials >= TRIALS, "{trials} trials");
        found.extend(faults);
    }
    assert!(found.len() <= 1, "{found:#?}");
}

#[test]
fn the_datasets_of_the_repository_have_no_fault() {
    for name in ["hill-nursery", "electric-pot"] {
        let (faults, trials) = faults(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../datasets").join(name));
        assert!(trials > 5 && faults.is_empty(), "{name}: {faults:#?}");
    }
}
