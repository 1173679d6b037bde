//! Folders of reports on disk: what is in them, and what of it is not the report's.

use crate::{ReportError, manifest, place};
use std::fs;
use std::path::{Path, PathBuf};

/// Moves the files that an old report does not list, which are its reader's own, into the new one.
pub(crate) fn keep_foreign(old: &Path, new: &Path) -> Result<(), ReportError> {
    let listed = manifest::listed(old).unwrap_or_default();
    for file in files(old)? {
        let name = place::relative(&file, old);
        let place = new.join(&name);
        if listed.contains(&name) || place.exists() {
            continue;
        }
        if let Some(folder) = place.parent() {
            fs::create_dir_all(folder).map_err(ReportError::io("create", folder))?;
        }
        fs::rename(&file, &place).map_err(ReportError::io("move", &file))?;
    }
    Ok(())
}

/// Whether a path exists and is anything but an empty folder.
pub(crate) fn occupied(out: &Path) -> Result<bool, ReportError> {
    if !out.exists() {
        return Ok(false);
    }
    let mut entries = fs::read_dir(out).map_err(ReportError::io("read", out))?;
    Ok(entries.next().is_some())
}

/// All files under a folder, sorted.
pub(crate) fn files(dir: &Path) -> Result<Vec<PathBuf>, ReportError> {
    let mut found = Vec::new();
    for entry in fs::read_dir(dir).map_err(ReportError::io("read", dir))? {
        let path = entry.map_err(ReportError::io("read", dir))?.path();
        if path.is_dir() {
            found.extend(files(&path)?);
        } else {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}
