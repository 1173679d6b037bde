//! Folders of reports on disk: what is in them, and what of it is not the report's.

use crate::{ReportError, manifest};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Moves what an old report does not list, which is its reader's own, into the new one. Links are moved, never followed.
pub(crate) fn keep_foreign(old: &Path, new: &Path) -> Result<(), ReportError> {
    let listed = manifest::listed(old).unwrap_or_default();
    keep_in(old, new, "", &listed)
}

/// The same for the folder that the report lists under `prefix`, empty or ended by a slash.
fn keep_in(old: &Path, new: &Path, prefix: &str, listed: &BTreeSet<String>) -> Result<(), ReportError> {
    for entry in fs::read_dir(old).map_err(ReportError::io("read", old))? {
        let entry = entry.map_err(ReportError::io("read", old))?;
        let (from, to) = (entry.path(), new.join(entry.file_name()));
        // What is no text is no name of ours.
        let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
        let is_folder = entry.file_type().is_ok_and(|t| t.is_dir());
        let within = format!("{name}/");
        if is_folder && (to.is_dir() || listed.iter().any(|l| l.starts_with(&within))) {
            fs::create_dir_all(&to).map_err(ReportError::io("create", &to))?;
            keep_in(&from, &to, &within, listed)?;
        } else if !listed.contains(&name) {
            fs::rename(&from, free(&to)).map_err(ReportError::io("move", &from))?;
        }
    }
    Ok(())
}

/// The path itself, or where the new report has taken it, one beside it.
fn free(path: &Path) -> PathBuf {
    let taken = |p: &Path| p.symlink_metadata().is_ok();
    let mut free = path.to_path_buf();
    let mut number = 0;
    while taken(&free) {
        number += 1;
        let mut name = path.file_name().unwrap_or_default().to_owned();
        name.push(format!(".kept-{number}"));
        free = path.with_file_name(name);
    }
    free
}

/// Whether a path exists and is anything but an empty folder.
pub(crate) fn occupied(out: &Path) -> Result<bool, ReportError> {
    if !out.exists() {
        return Ok(false);
    }
    let mut entries = fs::read_dir(out).map_err(ReportError::io("read", out))?;
    Ok(entries.next().is_some())
}

/// All files under a folder, sorted; a link is a file.
pub(crate) fn files(dir: &Path) -> Result<Vec<PathBuf>, ReportError> {
    let mut found = Vec::new();
    for entry in fs::read_dir(dir).map_err(ReportError::io("read", dir))? {
        let entry = entry.map_err(ReportError::io("read", dir))?;
        if entry.file_type().is_ok_and(|t| t.is_dir()) {
            found.extend(files(&entry.path())?);
        } else {
            found.push(entry.path());
        }
    }
    found.sort();
    Ok(found)
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;

    #[test]
    fn links_are_moved_and_not_followed_and_every_name_is_kept() {
        let dir = tempfile::tempdir().unwrap();
        let at = |name: &str| dir.path().join(name);
        for folder in ["data", "old", "old/tables", "old/empty", "new", "new/tables"] {
            fs::create_dir(at(folder)).unwrap();
        }
        fs::write(at("data/log.csv"), "theirs").unwrap();
        fs::write(
            at("old/manifest.json"),
            r#"{"tool":{"name":"calefact"},"inputs":[],"outputs":[{"path":"tables/a.csv"}]}"#,
        )
        .unwrap();
        fs::write(at("old/tables/a.csv"), "ours").unwrap();
        fs::write(at("old/tables/b.csv"), "own").unwrap();
        fs::write(at("new/tables/b.csv"), "new").unwrap();
        symlink(at("data"), at("old/link")).unwrap();
        symlink(".", at("old/loop")).unwrap();
        for bytes in [b"caf\xe9", b"caf\xe8"] {
            fs::write(at("old").join(OsStr::from_bytes(bytes)), bytes).unwrap();
        }
        keep_foreign(&at("old"), &at("new")).unwrap();
        assert_eq!(fs::read_to_string(at("data/log.csv")).unwrap(), "theirs", "what a link leads to stays");
        assert!(at("new/link").is_symlink() && at("new/loop").is_symlink() && at("new/empty").is_dir());
        assert!(!at("new/tables/a.csv").exists(), "a file of the old report goes");
        assert_eq!(fs::read_to_string(at("new/tables/b.csv")).unwrap(), "new");
        assert_eq!(fs::read_to_string(at("new/tables/b.csv.kept-1")).unwrap(), "own");
        for bytes in [b"caf\xe9", b"caf\xe8"] {
            assert_eq!(fs::read(at("new").join(OsStr::from_bytes(bytes))).unwrap(), bytes);
        }
    }
}
