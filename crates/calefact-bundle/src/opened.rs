//! An opened bundle: a folder as it lies, or an archive unpacked into a folder that the caller gives and removes.

use crate::entry_names::EntryNames;
use crate::limits::{MOST_BYTES, MOST_FILES};
use crate::names::{CHECKSUMS, DATASETS};
use crate::{checksums, unpack};
use calefact_analysis::fact::{BundleFact, BundleLimit, NameFault};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// An opened bundle. Its names and sizes are safe; whether its bytes are those that were sealed, [`Bundle::faults`] tells.
#[derive(Debug)]
pub struct Bundle {
    root: PathBuf,
    files: BTreeSet<String>,
    archive: Option<PathBuf>,
}

impl Bundle {
    /// Whether a path looks like that of a bundle: an archive by its name, or a folder with a list of checksums.
    pub fn is_at(path: &Path) -> bool {
        if path.is_dir() { path.join(CHECKSUMS).is_file() } else { is_archive(path) }
    }

    /// Opens a bundle; an archive is unpacked into a folder, which is created.
    ///
    /// # Errors
    /// Why it is none, or is unsafe.
    pub fn open(path: &Path, folder: &Path) -> Result<Self, Vec<BundleFact>> {
        let bundle = if path.is_dir() {
            Self { root: path.into(), files: list(path)?, archive: None }
        } else {
            let about = fs::metadata(path).map_err(|e| vec![unreadable(&e)])?;
            if !about.is_file() || about.len() > MOST_BYTES {
                return Err(vec![BundleFact::NotABundle]);
            }
            fs::create_dir(folder).map_err(|e| vec![unreadable(&e)])?;
            Self { root: folder.into(), files: unpack::unpack(path, folder)?, archive: Some(path.into()) }
        };
        if bundle.files.contains(CHECKSUMS) { Ok(bundle) } else { Err(vec![BundleFact::NotABundle]) }
    }

    /// Opens a bundle and checks every byte of it.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn open_sound(path: &Path, folder: &Path) -> Result<Self, Vec<BundleFact>> {
        let bundle = Self::open(path, folder)?;
        let faults = bundle.faults();
        if faults.is_empty() { Ok(bundle) } else { Err(faults) }
    }

    /// Files that are changed, missing or added.
    pub fn faults(&self) -> Vec<BundleFact> {
        checksums::check(&self.root, &self.files)
    }

    /// Where its files lie on disk.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// The names of its files.
    pub fn files(&self) -> &BTreeSet<String> {
        &self.files
    }

    /// The folders of its datasets, in the order of their names.
    pub fn datasets(&self) -> Vec<String> {
        let folder = |name: &String| {
            let folder = name.strip_suffix("/dataset.toml")?;
            folder.strip_prefix(DATASETS)?.starts_with('/').then(|| folder.to_owned())
        };
        self.files.iter().filter_map(folder).collect()
    }

    /// Where its archive first differs from the one that `seal` makes of the same files; none for a folder, and where it does not.
    ///
    /// # Errors
    /// If a file cannot be read, or there is no room for the other archive.
    pub fn archive_difference(&self) -> std::io::Result<Option<u64>> {
        match &self.archive {
            Some(archive) => crate::archive::first_difference(&self.root, &self.files, archive),
            None => Ok(None),
        }
    }
}

/// Whether a path names an archive.
pub fn is_archive(path: &Path) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case("zip"))
}

/// The names of all files below a folder, none of which is a link or a device.
///
/// # Errors
/// What is unsafe.
pub fn list(root: &Path) -> Result<BTreeSet<String>, Vec<BundleFact>> {
    let mut listing = Listing::default();
    listing.add(root, "").map_err(|fact| vec![fact])?;
    listing.faults.sort_by_key(|fact| format!("{fact:?}"));
    if listing.faults.is_empty() { Ok(listing.files) } else { Err(listing.faults) }
}

#[derive(Default)]
struct Listing {
    files: BTreeSet<String>,
    names: EntryNames,
    bytes: u64,
    faults: Vec<BundleFact>,
}

impl Listing {
    fn add(&mut self, folder: &Path, prefix: &str) -> Result<(), BundleFact> {
        for entry in fs::read_dir(folder).map_err(|e| unreadable(&e))? {
            let entry = entry.map_err(|e| unreadable(&e))?;
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            let about = entry.metadata().map_err(|e| unreadable(&e))?;
            if about.is_dir() && crate::name_fault(&name).is_none() {
                self.add(&entry.path(), &format!("{name}/"))?;
                continue;
            }
            let checked = if about.is_file() { self.names.add(&name) } else { Err(NameFault::NotAFile) };
            match checked {
                Ok(()) => self.files.insert(name),
                Err(fault) => {
                    self.faults.push(BundleFact::Unsafe { name, fault });
                    true
                }
            };
            self.bytes = self.bytes.saturating_add(about.len());
            self.check_size()?;
        }
        Ok(())
    }

    fn check_size(&self) -> Result<(), BundleFact> {
        let count = (self.files.len() + self.faults.len()) as u64;
        let limit = match () {
            () if count > MOST_FILES => BundleLimit::Files(MOST_FILES),
            () if self.bytes > MOST_BYTES => BundleLimit::Bytes(MOST_BYTES),
            () => return Ok(()),
        };
        Err(BundleFact::TooLarge(limit))
    }
}

fn unreadable(error: &std::io::Error) -> BundleFact {
    BundleFact::Unreadable { reason: error.to_string() }
}
