//! The working folder of a run: a hidden folder beside the target, locked as long as its run lives. A run that is ended removes
//! its own; what a killed run left, the next run removes. What goes into the folder is the business of [`crate::Staging`].

use crate::folder::keep_foreign;
use crate::{ReportError, manifest};
use same_file::Handle;
use std::collections::BTreeMap;
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// How the name of a working folder begins; the name of the target follows.
const PREFIX: &str = ".calefact-";

/// The file that is locked.
const LOCK: &str = "lock";

/// Attempts at something that another run or thread may hinder for a moment.
const ATTEMPTS: usize = 100;

/// Time between two of them.
const PAUSE: Duration = Duration::from_millis(5);

/// The working folders of this process and their targets. Who swaps or removes a folder holds the list.
static OPEN: Mutex<BTreeMap<PathBuf, PathBuf>> = Mutex::new(BTreeMap::new());

/// A working folder. Dropping it removes it.
#[derive(Debug)]
pub(crate) struct WorkingFolder {
    path: PathBuf,
    is_kept: bool,
    _lock: File,
}

impl WorkingFolder {
    /// Takes the working folder of a target, and removes what killed runs left beside it.
    ///
    /// # Errors
    /// If it cannot be created, if another run holds it, or if something in a left one belongs to the reader and cannot be moved
    /// back.
    pub(crate) fn take(out: &Path) -> Result<Self, ReportError> {
        let parent = out.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
        fs::create_dir_all(parent).map_err(ReportError::io("create", parent))?;
        let path = parent.join(name(out));
        // Listed as soon as it is there, so that a signal finds it.
        let mut open = open();
        let lock = hold(&path, out)?;
        open.insert(path.clone(), out.to_path_buf());
        drop(open);
        let folder = Self { path, is_kept: false, _lock: lock };
        clear_left(parent, &folder.path);
        empty(&folder.path, out)?;
        Ok(folder)
    }

    /// Where the new files go. After the swap the earlier ones are there, where the system exchanges folders.
    pub(crate) fn new_files(&self) -> PathBuf {
        new_files(&self.path)
    }

    /// Where earlier files are moved to, where the system cannot exchange folders.
    pub(crate) fn old_files(&self) -> PathBuf {
        old_files(&self.path)
    }

    /// Leaves the folder as it is: the reader's own files are in it.
    pub(crate) fn keep(&mut self) {
        self.is_kept = true;
    }
}

impl Drop for WorkingFolder {
    fn drop(&mut self) {
        let mut open = open();
        let out = open.remove(&self.path).filter(|_| !self.is_kept);
        // What cannot be removed is left to the next run: the result of this one does not depend on it.
        let _ = out.map(|out| remove(&self.path, &out));
    }
}

/// The list of working folders. While it is held no folder is swapped in or removed.
pub(crate) fn open() -> MutexGuard<'static, BTreeMap<PathBuf, PathBuf>> {
    OPEN.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Removes the working folders of this process, which is about to end, and gives their number. Nothing is swapped in after that:
/// a thread that would do so waits for the end.
pub fn abandon() -> usize {
    let open = open();
    for (path, out) in open.iter() {
        // Other threads may still write into the folder. What is left after all attempts goes with the next run.
        let _ = (0..ATTEMPTS).find(|_| remove(path, out).inspect_err(|_| std::thread::sleep(PAUSE)).is_ok());
    }
    let number = open.len();
    std::mem::forget(open);
    number
}

fn name(out: &Path) -> std::ffi::OsString {
    let mut name = std::ffi::OsString::from(PREFIX);
    name.push(out.file_name().unwrap_or_default());
    name
}

fn new_files(working: &Path) -> PathBuf {
    working.join("new")
}

fn old_files(working: &Path) -> PathBuf {
    working.join("old")
}

/// Creates the folder, or takes the one that a dead run left, and locks it.
fn hold(path: &Path, out: &Path) -> Result<File, ReportError> {
    let in_use = || ReportError::InUse { out: out.to_path_buf(), working: path.to_path_buf() };
    for _ in 0..ATTEMPTS {
        match fs::create_dir(path) {
            Err(e) if e.kind() != ErrorKind::AlreadyExists => {
                return Err(ReportError::io("create a working folder", path)(e));
            }
            _ if !is_folder(path) => return Err(in_use()),
            _ => {}
        }
        match locked(path, true) {
            Ok(Some(lock)) => return Ok(lock),
            // Its run has ended in this moment.
            Ok(None) => {}
            Err(TryLockError::Error(e)) if e.kind() == ErrorKind::NotFound => {}
            Err(TryLockError::WouldBlock) => return Err(in_use()),
            Err(TryLockError::Error(e)) => return Err(ReportError::io("lock", path)(e)),
        }
    }
    Err(in_use())
}

/// A folder and no link to one: a link could lead to anything.
fn is_folder(path: &Path) -> bool {
    path.symlink_metadata().is_ok_and(|m| m.is_dir())
}

/// The locked file of a working folder; none where the file has been removed meanwhile.
fn locked(path: &Path, create: bool) -> Result<Option<File>, TryLockError> {
    let at = path.join(LOCK);
    let file = File::options().write(true).create(create).truncate(false).open(&at).map_err(TryLockError::Error)?;
    match file.try_lock() {
        // A disk that knows no locks: two runs at once are then the reader's own affair.
        Err(TryLockError::Error(e)) if create && e.kind() == ErrorKind::Unsupported => return Ok(Some(file)),
        other => other?,
    }
    let is_there = || -> io::Result<bool> { Ok(Handle::from_file(file.try_clone()?)? == Handle::from_path(&at)?) };
    Ok(is_there().unwrap_or(false).then_some(file))
}

/// Removes the working folders of dead runs into other targets of the same parent.
fn clear_left(parent: &Path, own: &Path) {
    for entry in fs::read_dir(parent).into_iter().flatten().flatten() {
        let (path, name) = (entry.path(), entry.file_name());
        let target = name.to_str().and_then(|name| name.strip_prefix(PREFIX)).filter(|target| !target.is_empty());
        let Some(target) = target.filter(|_| path != own && is_folder(&path)) else { continue };
        if let Ok(Some(_lock)) = locked(&path, false) {
            // What cannot be removed is in nobody's way.
            let _ = remove(&path, &parent.join(target));
        }
    }
}

fn remove(path: &Path, out: &Path) -> Result<(), ReportError> {
    empty(path, out)?;
    let failed = || ReportError::io("remove", path);
    gone(fs::remove_file(path.join(LOCK))).map_err(failed())?;
    gone(fs::remove_dir(path)).map_err(failed())
}

/// Empties a working folder, wherever its run stopped: an earlier report that was moved aside goes back, and so do the reader's
/// own files in one that was swapped out. A report without manifest was never whole, so that nothing in it is the reader's.
fn empty(path: &Path, out: &Path) -> Result<(), ReportError> {
    let old = old_files(path);
    if is_folder(&old) && !out.exists() {
        fs::rename(&old, out).map_err(ReportError::io("move back", out))?;
    }
    for report in [old, new_files(path)] {
        if out.is_dir() && manifest::listed(&report).is_some() {
            keep_foreign(&report, out)?;
        }
        gone(fs::remove_dir_all(&report)).map_err(ReportError::io("remove", &report))?;
    }
    Ok(())
}

/// The same for something that may have been removed before.
fn gone(removed: io::Result<()>) -> io::Result<()> {
    removed.or_else(|e| if e.kind() == ErrorKind::NotFound { Ok(()) } else { Err(e) })
}

#[cfg(test)]
mod tests;
