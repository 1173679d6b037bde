//! Files of a dataset folder on the disk; their text is made elsewhere.

use super::error::SimulateError;
use std::fs;
use std::path::Path;

/// Makes the folder and the one of its logs.
///
/// # Errors
/// A folder that holds something, or cannot be made.
pub(crate) fn prepare(out: &Path) -> Result<(), SimulateError> {
    let failed = |source| SimulateError::Write { path: out.to_path_buf(), source };
    if fs::read_dir(out).is_ok_and(|mut entries| entries.next().is_some()) {
        return Err(SimulateError::NotEmpty(out.to_path_buf()));
    }
    fs::create_dir_all(out.join("logs")).map_err(failed)
}

/// Writes a file.
///
/// # Errors
/// A file that cannot be written.
pub(crate) fn save(path: &Path, text: &str) -> Result<(), SimulateError> {
    fs::write(path, text).map_err(|source| SimulateError::Write { path: path.to_path_buf(), source })
}
