//! Bundles: archives, or the parts of one, unpacked and checked as `verify` does before it runs anything.

use super::findings::assert_sound;
use super::input::archive;
use crate::Workspace;
use calefact_analysis::finding::Finding;
use calefact_bundle::{Bundle, names};
use calefact_data::Dataset;
use std::path::Path;

pub(super) fn check(bytes: &[u8]) {
    let folder = Workspace::new();
    let path = folder.write("b.zip", archive(bytes));
    let first = opened(&path, &folder.join("in"));
    let second = opened(&path, &folder.join("again"));
    assert_eq!(first.as_ref().map(Bundle::files), second.as_ref().map(Bundle::files), "opened twice");
    let beside = std::fs::read_dir(folder.path()).expect("a folder").flatten().map(|entry| entry.file_name());
    let strange: Vec<_> = beside.filter(|name| !["b.zip", "in", "again"].iter().any(|known| name == known)).collect();
    assert!(strange.is_empty(), "written outside: {strange:?}");
    if let Some(bundle) = first {
        assert!(bundle.files().iter().all(|name| bundle.root().join(name).is_file()));
        assert!(bundle.files().contains(names::CHECKSUMS));
        bundle.datasets().iter().for_each(|set| read(&path, &bundle, set));
    }
}

/// A bundle, where its names and sizes are safe; the facts on what is wrong with it are sound.
fn opened(archive: &Path, into: &Path) -> Option<Bundle> {
    let opened = Bundle::open(archive, into);
    let faults = opened.as_ref().map_or_else(Clone::clone, Bundle::faults);
    assert!(opened.is_ok() || !faults.is_empty(), "refused without a word");
    let findings: Vec<Finding> = faults.into_iter().map(|fact| Finding::error(fact).at(archive, None, None)).collect();
    assert_sound(&findings, &[(archive, &[])]);
    opened.ok()
}

/// Opens a dataset of a bundle where it lies.
fn read(archive: &Path, bundle: &Bundle, set: &str) {
    let (dataset, findings) = Dataset::open_unpacked(&archive.join(set), &bundle.root().join(set));
    assert!(dataset.is_some() || !findings.is_empty(), "refused without a word");
    if let Some(dataset) = dataset {
        let trials = dataset.batches().into_iter().take(4).flat_map(|batch| dataset.read(&batch));
        trials.for_each(|trial| assert!(trial.readings.is_some() || !trial.findings.is_empty()));
    }
}
