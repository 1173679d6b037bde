//! The one way files are opened: only regular files are read, so that a pipe or a device cannot hold the program up.

use crate::Finding;
use crate::fact::{File, ReadFailure};
use std::path::Path;

/// Larger files are not read, bytes: a log of ten million rows has less than half as many.
const MOST_BYTES: u64 = 2 << 30;

/// Reads a whole file.
///
/// # Errors
/// The reason the file cannot be read; a folder, a pipe, a device or a file beyond [`MOST_BYTES`] cannot.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>, ReadFailure> {
    let about = std::fs::metadata(path)?;
    let kind = about.file_type();
    if kind.is_dir() {
        return Err(ReadFailure::Folder);
    }
    if !kind.is_file() {
        return Err(ReadFailure::NotAFile);
    }
    if about.len() > MOST_BYTES {
        return Err(ReadFailure::TooLarge);
    }
    Ok(std::fs::read(path)?)
}

/// The finding on a file that cannot be read.
pub(crate) fn unreadable(path: &Path, failure: ReadFailure) -> Finding {
    Finding::error(File::Unreadable(failure)).at(path, None, None)
}

#[cfg(test)]
mod tests {
    use super::{MOST_BYTES, read};
    use crate::fact::ReadFailure;

    #[test]
    fn folders_and_missing_files_are_not_read() {
        let folder = tempfile::tempdir().expect("a folder");
        assert_eq!(read(folder.path()), Err(ReadFailure::Folder));
        assert_eq!(read(&folder.path().join("none.csv")), Err(ReadFailure::NotFound));
    }

    /// The file takes no room: it is one hole.
    #[test]
    fn an_endless_file_is_not_read() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("hole.csv");
        let file = std::fs::File::create(&path).expect("a file");
        file.set_len(MOST_BYTES + 1).expect("its length");
        assert_eq!(read(&path), Err(ReadFailure::TooLarge));
    }

    #[cfg(unix)]
    #[test]
    fn a_device_is_not_read() {
        assert_eq!(read("/dev/null".as_ref()), Err(ReadFailure::NotAFile));
    }
}
