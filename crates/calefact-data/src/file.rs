//! The one way files are opened: only regular files are read, so that a pipe or a device cannot hold the program up.

use crate::Finding;
use crate::fact::{File, ReadFailure};
use std::path::Path;

/// Reads a whole file.
///
/// # Errors
/// The reason the file cannot be read; a folder, a pipe or a device cannot.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>, ReadFailure> {
    let kind = std::fs::metadata(path)?.file_type();
    if kind.is_dir() {
        return Err(ReadFailure::Folder);
    }
    if !kind.is_file() {
        return Err(ReadFailure::NotAFile);
    }
    Ok(std::fs::read(path)?)
}

/// The finding on a file that cannot be read.
pub(crate) fn unreadable(path: &Path, failure: ReadFailure) -> Finding {
    Finding::error(File::Unreadable(failure)).at(path, None, None)
}

#[cfg(test)]
mod tests {
    use super::read;
    use crate::fact::ReadFailure;

    #[test]
    fn folders_and_missing_files_are_not_read() {
        let folder = tempfile::tempdir().expect("a folder");
        assert_eq!(read(folder.path()), Err(ReadFailure::Folder));
        assert_eq!(read(&folder.path().join("none.csv")), Err(ReadFailure::NotFound));
    }

    #[cfg(unix)]
    #[test]
    fn a_device_is_not_read() {
        assert_eq!(read("/dev/null".as_ref()), Err(ReadFailure::NotAFile));
    }
}
