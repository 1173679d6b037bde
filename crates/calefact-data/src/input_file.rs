//! The files that were read, with the hash of the bytes that were read: a file that changes afterwards is known by what was
//! analysed.

use sha2::{Digest as _, Sha256};
use std::collections::BTreeSet;
use std::fs::File;
use std::io::{self, Read as _};
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

    /// A file as it lies on disk, read piece by piece.
    ///
    /// # Errors
    /// If it cannot be read.
    pub fn read(path: &Path) -> io::Result<Self> {
        let mut file = File::open(path)?;
        let (mut hasher, mut buffer, mut bytes) = (Sha256::new(), vec![0; 1 << 16], 0);
        loop {
            let n = file.read(&mut buffer)?;
            if n == 0 {
                return Ok(Self { path: path.into(), bytes, sha256: hasher.finalize().into() });
            }
            hasher.update(&buffer[..n]);
            bytes += n as u64;
        }
    }

    /// The hash in hexadecimal digits.
    pub fn hex(&self) -> String {
        let digit = |nibble: u8| char::from_digit(u32::from(nibble), 16).unwrap_or('0');
        self.sha256.iter().flat_map(|b| [digit(b >> 4), digit(b & 15)]).collect()
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
