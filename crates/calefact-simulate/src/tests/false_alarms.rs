//! Sound logs of the invented rig, in which nothing is faulty: faults of loggers are found in one of a thousand at most.

use crate::dataset_folder::{self, SimulateOptions};
use calefact_data::{Dataset, Fact};
use std::num::NonZeroUsize;

/// Trials a length of log, and the lengths.
const TRIALS: usize = 250;
const ROWS: [usize; 4] = [12, 25, 80, 240];

#[test]
fn a_thousand_sound_logs_have_at_most_one_fault() {
    let mut faults = Vec::new();
    for (rows, seed) in ROWS.into_iter().zip(1..) {
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("data");
        let (trials, rows) = (NonZeroUsize::new(TRIALS), NonZeroUsize::new(rows));
        dataset_folder::write(&SimulateOptions { out: out.clone(), trials, rows, seed }).expect("written");
        let (set, _) = Dataset::open(&out);
        let set = set.expect("a dataset");
        let read = set.batches().iter().flat_map(|batch| set.read(batch)).collect::<Vec<_>>();
        assert!(read.len() >= TRIALS, "{} trials", read.len());
        faults.extend(read.into_iter().flat_map(|t| t.findings).filter(|f| matches!(f.fact, Fact::LoggerFault(_))));
    }
    assert!(faults.len() <= 1, "{faults:#?}");
}
