//! A folder of results in the making: a temporary folder beside the target that takes its place as a whole. What goes into it is
//! the business of [`crate::Stage`], [`crate::PlanFolder`] and [`crate::write_book`].

use crate::ReportError;
use crate::folder::{files, keep_foreign, occupied};
use crate::manifest::{self, ToolInfo};
use calefact_data::InputFile;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A folder in the making. Dropping it unfinished leaves the target as it was.
#[derive(Debug)]
pub(crate) struct Staging {
    out: PathBuf,
    temporary: TempDir,
}

impl Staging {
    /// Creates the temporary folder beside `out`.
    ///
    /// # Errors
    /// If it cannot be created, or if `out` exists and holds anything but earlier results.
    pub(crate) fn begin(out: &Path) -> Result<Self, ReportError> {
        // A link is followed: its place stays a link. A slash at the end would hide that it is one.
        let out: PathBuf = out.components().collect();
        let out = if out.is_symlink() { fs::canonicalize(&out).unwrap_or(out) } else { out };
        let out = out.as_path();
        if occupied(out)? && manifest::listed(out).is_none() {
            return Err(ReportError::NotAReport { path: out.to_path_buf() });
        }
        let parent = match out.parent() {
            Some(p) if !p.as_os_str().is_empty() => p,
            _ => Path::new("."),
        };
        fs::create_dir_all(parent).map_err(ReportError::io("create", parent))?;
        let temporary = tempfile::Builder::new()
            .prefix(".calefact-")
            .tempdir_in(parent)
            .map_err(ReportError::io("create a temporary folder in", parent))?;
        let staging = Self { out: out.to_path_buf(), temporary };
        let dir = staging.dir();
        fs::create_dir(&dir).map_err(ReportError::io("create", &dir))?;
        Ok(staging)
    }

    /// Where the new files go.
    pub(crate) fn dir(&self) -> PathBuf {
        self.temporary.path().join("new")
    }

    /// Writes the manifest over all that is there, its name under `kind`, and swaps the folder in. Gives the path of the folder.
    ///
    /// # Errors
    /// As [`Self::publish`], or if a file cannot be read or written.
    pub(crate) fn close(
        self,
        (kind, name): (&str, &str),
        tool: &ToolInfo,
        (inputs, base): (&[InputFile], &Path),
    ) -> Result<PathBuf, ReportError> {
        let dir = self.dir();
        let outputs = manifest::hash_all(&files(&dir)?, &dir)?;
        manifest::write_files(&dir, (kind, name), tool, (&manifest::inputs(inputs, base), &outputs))?;
        self.publish()
    }

    /// Swaps the new folder in and gives its path; the old one goes with the temporary folder, but for files that are none of the
    /// earlier results.
    ///
    /// # Errors
    /// If it cannot be moved; the target is then as it was. Where only the reader's own files could not be moved, the new
    /// results are in place and the earlier ones are kept.
    pub(crate) fn publish(self) -> Result<PathBuf, ReportError> {
        let old = self.temporary.path().join("old");
        let had_old = self.out.exists();
        if had_old {
            fs::rename(&self.out, &old).map_err(ReportError::io("move aside", &self.out))?;
        }
        if let Err(error) = fs::rename(self.dir(), &self.out) {
            let restored = !had_old || fs::rename(&old, &self.out).is_ok();
            debug_assert!(restored, "the old results stay in the temporary folder");
            return Err(ReportError::io("move into place", &self.out)(error));
        }
        if had_old && let Err(error) = keep_foreign(&old, &self.out) {
            let kept = self.temporary.keep().join("old");
            return Err(ReportError::NotMoved { kept, cause: Box::new(error) });
        }
        Ok(self.out)
    }
}
