//! The files that were read, with the hash of the bytes that were read: a file that changes afterwards is known by what was
//! analysed.

use sha2::{Digest as _, Sha256};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// A file that was read.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct InputFile {
    /// The file, as it was opened.
    pub path: PathBuf,
    /// Number of bytes read.
    pub bytes: u64,
    /// SHA-256 of these bytes.
    pub sha256: [u8; 32],
}

impl InputFile {
    /// A file of which these bytes were read.
    pub fn new(path: &Path, content: &[u8]) -> Self {
        Self { path: path.into(), bytes: content.len() as u64, sha256: Sha256::digest(content).into() }
    }
}

/// The files read so far, from any thread. A file that changed between two reads is there twice.
#[derive(Debug, Clone, Default)]
pub(crate) struct FilesRead(Arc<Mutex<BTreeSet<InputFile>>>);

impl FilesRead {
    /// Adds a file.
    pub(crate) fn add(&self, path: &Path, content: &[u8]) {
        let file = InputFile::new(path, content);
        self.0.lock().unwrap_or_else(PoisonError::into_inner).insert(file);
    }

    /// The files, in the order of their paths.
    pub(crate) fn all(&self) -> Vec<InputFile> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).iter().cloned().collect()
    }
}
