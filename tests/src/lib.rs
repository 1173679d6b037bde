//! Helpers of the end-to-end and published checks. The checks themselves live in `tests/`.

use std::path::{Path, PathBuf};

/// Path of a file of published reference data, which is kept outside the project.
///
/// Looked for under the environment variable `CALEFACT_REFERENCE`, else in `../shared` beside the workspace root. When
/// the data are absent the check is skipped with a message; with `CALEFACT_CI` set it fails instead.
///
/// # Panics
/// When the file is absent and `CALEFACT_CI` is set.
#[expect(clippy::print_stderr, reason = "a skipped check must be seen")]
pub fn reference(rel_path: &str) -> Option<PathBuf> {
    let root = std::env::var_os("CALEFACT_REFERENCE").map_or_else(beside_workspace, PathBuf::from);
    let path = root.join(rel_path);
    if path.exists() {
        return Some(path);
    }
    assert!(std::env::var_os("CALEFACT_CI").is_none(), "reference data missing: {}", path.display());
    eprintln!("SKIPPED: no reference data at {}", path.display());
    None
}

fn beside_workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared")
}
