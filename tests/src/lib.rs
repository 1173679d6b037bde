//! What the end-to-end checks share: where the reference data are, the command in a folder of its own, a tiny dataset.
//!
//! The checks themselves are in `tests/`, one folder or file a topic.

mod dataset;
mod folder;

pub use dataset::TinyDataset;
pub use folder::Workspace;

use std::path::{Path, PathBuf};

/// The root of the cargo workspace.
pub fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// A file or folder of the reference data, which are read in place: under `CALEFACT_REFERENCE` if set, else under `shared`
/// beside the workspace root. `None` if it is not there; the caller then returns early, and the log says so.
///
/// # Panics
/// If it is not there while `CALEFACT_CI` is set: a check that must run has nothing to run on.
pub fn reference(rel_path: &str) -> Option<PathBuf> {
    let base = std::env::var_os("CALEFACT_REFERENCE").map_or_else(|| root().join("../shared"), PathBuf::from);
    let path = base.join(rel_path);
    if path.exists() {
        return Some(path);
    }
    assert!(std::env::var_os("CALEFACT_CI").is_none(), "reference data missing: {}", path.display());
    say_skipped(&path);
    None
}

#[expect(clippy::print_stderr, reason = "a skipped check must be seen in the log")]
fn say_skipped(path: &Path) {
    eprintln!("SKIPPED: no reference data at {}", path.display());
}
