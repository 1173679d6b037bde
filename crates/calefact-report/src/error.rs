//! What can go wrong while writing, with the place and what to do about it.

use std::io;
use std::path::{Path, PathBuf};

/// Why a report could not be written.
#[derive(Debug, thiserror::Error)]
pub enum ReportError {
    /// A file or folder could not be written, read or moved.
    #[error("cannot {doing} {}: {source}. {}", path.display(), advice(source))]
    Io {
        /// The action: "write", "create", "read", "move into place".
        doing: &'static str,
        /// File or folder concerned.
        path: PathBuf,
        /// Cause given by the system.
        source: io::Error,
    },
    /// The target exists and was not written by this tool, so it is not replaced.
    #[error(
        "{} holds files that are not a report of this tool (no manifest.json of its making). Name another output folder, or empty this one",
        path.display()
    )]
    NotAReport {
        /// The folder.
        path: PathBuf,
    },
    /// Another run writes into the target.
    #[error(
        "another run is writing into {}. Wait until it has ended, or name another output folder (its working folder is {})",
        out.display(),
        working.display()
    )]
    InUse {
        /// The target.
        out: PathBuf,
        /// The folder that the other run holds.
        working: PathBuf,
    },
    /// The target is the top of a disk, which cannot be replaced.
    #[error("{} is the top of a disk or a mounted folder and cannot be replaced. Name a folder inside it", path.display())]
    OwnDisk {
        /// The folder.
        path: PathBuf,
    },
    /// The target exists and is no page of burn sheets, so it is not replaced.
    #[error("{} exists and is no page of burn sheets. Name another file", path.display())]
    NotASheet {
        /// The file.
        path: PathBuf,
    },
    /// The report is in place, but files that are not of the earlier one could not be moved into it.
    #[error("the report is written, but your own files beside the earlier one could not be moved: {cause}. They are kept in {}, and the next run tries again", kept.display())]
    NotMoved {
        /// Where the earlier report, and what could not be moved, lies now.
        kept: PathBuf,
        /// What went wrong.
        cause: Box<ReportError>,
    },
    /// Parquet was asked of a build without it.
    #[error("this build writes no Parquet. Build with `--features parquet`, or leave Parquet out of the formats")]
    NoParquet,
    /// A Parquet file could not be encoded or written.
    #[error("cannot write {}: {message}. Check the free space of the disk, or leave Parquet out of the formats", path.display())]
    Parquet {
        /// File concerned.
        path: PathBuf,
        /// What the encoder said.
        message: String,
    },
    /// A workbook could not be written.
    #[error("cannot write {}: {message}. Check the free space of the disk, or leave \"xlsx\" out of the formats", path.display())]
    Workbook {
        /// File concerned.
        path: PathBuf,
        /// Its cause.
        message: String,
    },
    /// A chart or a page could not be drawn.
    #[error("cannot draw {what}: {message}. This is a fault of the program; please report it")]
    Draw {
        /// Chart or page.
        what: String,
        /// What the drawing library said.
        message: String,
    },
    /// The writer of the readings stopped before its end.
    #[error(
        "the readings writer stopped before its end. Run again; if it happens again, leave the readings table out of the formats"
    )]
    WriterStopped,
}

impl ReportError {
    /// Ties a system error to a path, for `map_err`.
    pub fn io(doing: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_path_buf();
        move |source| Self::Io { doing, path, source }
    }

    /// Ties an error of the writer of workbooks to a path, for `map_err`.
    pub(crate) fn workbook<E: std::fmt::Display>(path: &Path) -> impl FnOnce(E) -> Self {
        let path = path.to_path_buf();
        move |error| Self::Workbook { path, message: error.to_string() }
    }

    #[cfg(feature = "parquet")]
    /// Ties an error of the Parquet encoder to a path, for `map_err`.
    pub(crate) fn parquet<E: std::fmt::Display>(path: &Path) -> impl FnOnce(E) -> Self {
        let path = path.to_path_buf();
        move |error| Self::Parquet { path, message: error.to_string() }
    }
}

/// Hint on a system error.
fn advice(error: &io::Error) -> &'static str {
    match error.kind() {
        io::ErrorKind::PermissionDenied => "Choose an output folder you may write to, or change its permissions",
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => "The disk is full: free some space and run again",
        io::ErrorKind::FileTooLarge => {
            "The system limits the size of files (`ulimit -f`): raise the limit and run again"
        }
        io::ErrorKind::ReadOnlyFilesystem => "That disk is read-only: choose another output folder",
        io::ErrorKind::NotFound => "Check that the path exists",
        io::ErrorKind::NotADirectory => "A part of the path is a file, not a folder: choose another output folder",
        _ => "Check the path and the free space of the disk, then run again",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_disk_says_so() {
        let error = ReportError::io("write", Path::new("out/a.csv"))(io::ErrorKind::StorageFull.into());
        let text = error.to_string();
        assert!(text.starts_with("cannot write out/a.csv: "), "{text}");
        assert!(text.ends_with("free some space and run again"), "{text}");
    }
}
