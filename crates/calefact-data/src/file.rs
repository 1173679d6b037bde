//! The one way files are opened: only what is a file is read, so that a pipe or a device cannot hold the program up.

use crate::Finding;
use std::io::{Error, ErrorKind, Result};
use std::path::Path;

/// Reads a whole file.
///
/// # Errors
/// As the system has it; and where the name leads to a folder, a pipe or a device.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>> {
    let kind = std::fs::metadata(path)?.file_type();
    if kind.is_file() {
        return std::fs::read(path);
    }
    let what = if kind.is_dir() { "a folder" } else { "a pipe or a device" };
    Err(Error::new(ErrorKind::InvalidInput, format!("it is not a file but {what}")))
}

/// What can be done about a file that cannot be read, if that depends on nothing but the error.
pub(crate) fn hint(error: &Error) -> Option<&'static str> {
    (error.kind() == ErrorKind::PermissionDenied).then_some("give yourself the permission to read it")
}

/// The finding on a file that cannot be read.
pub(crate) fn unreadable(path: &Path, error: &Error) -> Finding {
    let finding = Finding::error_text("file-unreadable", format!("cannot read: {error}")).at(path, None, None);
    hint(error).into_iter().fold(finding, Finding::hint)
}

#[cfg(test)]
mod tests {
    use super::{Error, ErrorKind, unreadable};

    #[test]
    fn a_file_that_one_may_not_read() {
        let finding = unreadable("d/trials.csv".as_ref(), &Error::from(ErrorKind::PermissionDenied));
        insta::assert_snapshot!(finding, @r"
        error file-unreadable: d/trials.csv
          cannot read: permission denied
          hint: give yourself the permission to read it
        ");
    }
}
