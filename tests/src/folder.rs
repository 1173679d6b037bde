//! A folder of its own for each check, and what was written there.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A temporary folder that vanishes with the value.
pub struct Workspace {
    dir: TempDir,
}

impl Workspace {
    /// An empty folder.
    ///
    /// # Panics
    /// If none can be made.
    pub fn new() -> Self {
        Self { dir: tempfile::tempdir().expect("a temporary folder") }
    }

    /// Its path.
    pub fn path(&self) -> &Path {
        self.dir.path()
    }

    /// A path inside.
    pub fn join(&self, rel: &str) -> PathBuf {
        self.dir.path().join(rel)
    }

    /// Writes a file, with the folders above it.
    ///
    /// # Panics
    /// If it cannot be written.
    pub fn write(&self, rel: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.join(rel);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent).expect("a folder");
        }
        fs::write(&path, content).expect("a file");
        path
    }

    /// Every file under a folder: path relative to it, and bytes.
    ///
    /// # Panics
    /// If one cannot be read.
    pub fn files(&self, rel: &str) -> BTreeMap<String, Vec<u8>> {
        let mut found = BTreeMap::new();
        collect(&self.join(rel), "", &mut found);
        found
    }
}

impl Default for Workspace {
    fn default() -> Self {
        Self::new()
    }
}

fn collect(folder: &Path, prefix: &str, found: &mut BTreeMap<String, Vec<u8>>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = format!("{prefix}{}", path.file_name().unwrap_or_default().to_string_lossy());
        if path.is_dir() {
            collect(&path, &format!("{name}/"), found);
        } else {
            found.insert(name, fs::read(&path).expect("a file"));
        }
    }
}
