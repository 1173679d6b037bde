//! Paths in the results.
//!
//! On the terminal a path is what the user can type; in the results it is as seen from the pipeline file's folder, so that the same
//! inputs give the same bytes wherever the checkout lies and whatever folder the command was run in.

use calefact_analysis::result::Analysis;
use calefact_data::Finding;
use calefact_report::relative;
use rayon::prelude::*;
use std::path::{Path, PathBuf};

/// Turns every path of an analysis; the pipeline file's folder is `base`.
pub(super) fn turn(analysis: &mut Analysis, base: &Path) {
    let place = |path: &Path| PathBuf::from(relative(path, base));
    let of_finding = |f: &mut Finding| f.file = f.file.take().map(|p| place(&p));
    analysis.findings.iter_mut().for_each(of_finding);
    analysis.trials.par_iter_mut().for_each(|trial| {
        trial.row.log = place(&trial.row.log);
        trial.findings.iter_mut().for_each(of_finding);
    });
}
