//! A folder of results in the making: a working folder beside the target that takes its place as a whole. What goes into it is
//! the business of [`crate::Stage`], [`crate::PlanFolder`] and [`crate::write_book`]; how it is held, of [`crate::working`].

use crate::ReportError;
use crate::folder::{files, keep_foreign, occupied};
use crate::manifest::{self, ToolInfo};
use crate::working::{self, WorkingFolder};
use calefact_data::InputFile;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// A folder in the making. Dropping it unfinished leaves the target as it was.
#[derive(Debug)]
pub struct Staging {
    out: PathBuf,
    working: WorkingFolder,
}

impl Staging {
    /// Creates the working folder beside `out`.
    ///
    /// # Errors
    /// If it cannot be created, if another run writes into `out`, if `out` cannot be replaced, or if it holds anything but earlier
    /// results.
    pub fn begin(out: &Path) -> Result<Self, ReportError> {
        let out = resolved(out)?;
        // Taking the working folder may first put back what a killed run moved aside.
        let working = WorkingFolder::take(&out)?;
        if occupied(&out)? && manifest::listed(&out).is_none() {
            return Err(ReportError::NotAReport { path: out });
        }
        replaceable(&out)?;
        let dir = working.new_files();
        fs::create_dir(&dir).map_err(ReportError::io("create", &dir))?;
        Ok(Self { out, working })
    }

    /// Where the new files go.
    pub fn dir(&self) -> PathBuf {
        self.working.new_files()
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

    /// Swaps the new folder in and gives its path; the old one goes with the working folder, but for files that are none of the
    /// earlier results.
    ///
    /// # Errors
    /// If it cannot be moved; the target is then as it was. Where only the reader's own files could not be moved, the new
    /// results are in place and the earlier ones are kept until the next run moves the files.
    pub fn publish(mut self) -> Result<PathBuf, ReportError> {
        let alone = working::open();
        if let Some(earlier) = self.swap().map_err(ReportError::io("move into place", &self.out))?
            && let Err(error) = keep_foreign(&earlier, &self.out)
        {
            self.working.keep();
            return Err(ReportError::NotMoved { kept: earlier, cause: Box::new(error) });
        }
        drop(alone);
        Ok(self.out.clone())
    }

    /// Puts the new folder in its place, and gives where the earlier one lies.
    fn swap(&self) -> io::Result<Option<PathBuf>> {
        let (new, old) = (self.dir(), self.working.old_files());
        if !self.out.exists() {
            return fs::rename(new, &self.out).map(|()| None);
        }
        if exchange(&new, &self.out)? {
            return Ok(Some(new));
        }
        fs::rename(&self.out, &old)?;
        match fs::rename(new, &self.out) {
            Ok(()) => Ok(Some(old)),
            // Where this fails too, the next run moves the earlier folder back.
            Err(error) => fs::rename(old, &self.out).and(Err(error)),
        }
    }
}

/// The folder that a path stands for. A link is followed, so that its place stays a link. A slash at the end would hide that it
/// is one.
fn resolved(out: &Path) -> Result<PathBuf, ReportError> {
    let out: PathBuf = out.components().collect();
    if out.is_symlink() || (out.file_name().is_none() && out.exists()) {
        return fs::canonicalize(&out).map_err(ReportError::io("follow the link", &out));
    }
    Ok(out)
}

/// Tells before the work that a folder could not be replaced after it.
#[cfg(unix)]
fn replaceable(out: &Path) -> Result<(), ReportError> {
    use std::os::unix::fs::MetadataExt;
    let Ok(there) = out.metadata() else { return Ok(()) };
    let above = out.join("..").metadata().map_err(ReportError::io("read", out))?;
    if there.dev() != above.dev() || there.ino() == above.ino() {
        return Err(ReportError::OwnDisk { path: out.to_path_buf() });
    }
    rustix::fs::access(out, rustix::fs::Access::WRITE_OK).map_err(|e| ReportError::io("write into", out)(e.into()))
}

/// The same where the system tells nothing before.
#[cfg(not(unix))]
fn replaceable(_: &Path) -> Result<(), ReportError> {
    Ok(())
}

/// Exchanges two folders in one step; false where the system or the disk cannot.
#[cfg(any(target_vendor = "apple", target_os = "linux", target_os = "android"))]
fn exchange(a: &Path, b: &Path) -> io::Result<bool> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    match renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE) {
        Ok(()) => Ok(true),
        Err(Errno::NOSYS | Errno::INVAL | Errno::NOTSUP) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

/// The same where the system has no such step.
#[cfg(not(any(target_vendor = "apple", target_os = "linux", target_os = "android")))]
fn exchange(_: &Path, _: &Path) -> io::Result<bool> {
    Ok(false)
}
