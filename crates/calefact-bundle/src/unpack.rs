//! Unpacking an archive that nobody vouches for: every name is checked and every size bounded before and while bytes are written.
//! Nothing in it is run.

use crate::entry_names::EntryNames;
use crate::limits::{FREE_BYTES, MOST_BYTES, MOST_DIRECTORY, MOST_FILES, MOST_RATIO};
use calefact_analysis::fact::{BundleFact, BundleLimit, NameFault};
use std::collections::BTreeSet;
use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::path::Path;
use zip::ZipArchive;
use zip::result::ZipError;

/// Unpacks an archive into an empty folder and gives the names of its files.
///
/// # Errors
/// The first thing that is unsafe or broken; what was unpacked until then is the caller's to remove.
pub(crate) fn unpack(archive: &Path, into: &Path) -> Result<BTreeSet<String>, Vec<BundleFact>> {
    let mut file = File::open(archive).map_err(|e| vec![unreadable(&e)])?;
    let size = file.metadata().map_err(|e| vec![unreadable(&e)])?.len();
    check_end(&mut file, size).map_err(|fact| vec![fact])?;
    let mut zip = ZipArchive::new(file).map_err(|e| vec![broken(&e)])?;
    if zip.len() as u64 > MOST_FILES {
        return Err(vec![BundleFact::TooLarge(BundleLimit::Files(MOST_FILES))]);
    }
    let names = names(&mut zip, size)?;
    for (index, name) in names.iter().enumerate() {
        if let Some(name) = name {
            entry(&mut zip, index, &into.join(name)).map_err(|fact| vec![fact])?;
        }
    }
    Ok(names.into_iter().flatten().collect())
}

/// Checks the end of the archive, which says how many entries there are, before a list of entries is made. An archive of more than 4 GiB
/// or 65 534 entries (zip64), or with a comment, is none that `seal` writes.
fn check_end(file: &mut File, size: u64) -> Result<(), BundleFact> {
    let mut end = [0; 42];
    let there = end.len().min(usize::try_from(size).unwrap_or(usize::MAX));
    let back = i64::try_from(there).unwrap_or_default();
    let read = file.seek(SeekFrom::End(-back)).and_then(|_| file.read_exact(&mut end[42 - there..]));
    read.and_then(|()| file.rewind()).map_err(|e| unreadable(&e))?;
    let (before, last) = end.split_at(20);
    if !last.starts_with(b"PK\x05\x06") || last[20..] != [0, 0] {
        return Err(BundleFact::Unreadable { reason: "it does not end as a zip archive does".into() });
    }
    let entries = u64::from(u16::from_le_bytes([last[10], last[11]]));
    let directory = u32::from_le_bytes([last[12], last[13], last[14], last[15]]);
    if entries > MOST_FILES || directory > MOST_DIRECTORY || before.starts_with(b"PK\x06\x07") {
        return Err(BundleFact::TooLarge(BundleLimit::Files(MOST_FILES)));
    }
    Ok(())
}

/// The names of all entries, none for a folder; all faults of names, and of sizes as the archive states them.
fn names(zip: &mut ZipArchive<File>, size: u64) -> Result<Vec<Option<String>>, Vec<BundleFact>> {
    let (mut all, mut names, mut faults, mut stated) = (EntryNames::default(), Vec::new(), Vec::new(), 0_u64);
    if zip.has_duplicate_names() {
        faults.push(BundleFact::Unsafe { name: String::new(), fault: NameFault::Twice });
    }
    for index in 0..zip.len() {
        let entry = zip.by_index_raw(index).map_err(|e| vec![broken(&e)])?;
        let name = String::from_utf8_lossy(entry.name_raw()).into_owned();
        stated = stated.saturating_add(entry.size());
        let bare = if entry.is_dir() { name.trim_end_matches('/') } else { &name };
        let checked = match crate::name_fault(bare) {
            Some(fault) => Err(fault),
            None if entry.encrypted() => Err(NameFault::Encrypted),
            None if is_special(entry.unix_mode(), entry.is_dir()) => Err(NameFault::NotAFile),
            None if entry.is_dir() => Ok(None),
            None => all.add(&name).map(|()| Some(name.clone())),
        };
        match checked {
            Ok(name) => names.push(name),
            Err(fault) => faults.push(BundleFact::Unsafe { name, fault }),
        }
    }
    faults.extend(too_large(stated, size).map(BundleFact::TooLarge));
    if faults.is_empty() { Ok(names) } else { Err(faults) }
}

/// Whether an entry is a link, a pipe or a device, by the file type of its Unix mode (`S_IFMT`).
fn is_special(mode: Option<u32>, is_folder: bool) -> bool {
    let wanted = if is_folder { 0o040_000 } else { 0o100_000 };
    mode.map(|mode| mode & 0o170_000).is_some_and(|kind| kind != 0 && kind != wanted)
}

fn too_large(bytes: u64, archive: u64) -> Option<BundleLimit> {
    if bytes > MOST_BYTES {
        return Some(BundleLimit::Bytes(MOST_BYTES));
    }
    (bytes > FREE_BYTES && bytes / archive.max(1) >= MOST_RATIO).then_some(BundleLimit::Ratio(MOST_RATIO))
}

/// Unpacks an entry, of no more bytes than it states. The zip crate holds to that, too; here it does not depend on the crate.
fn entry(zip: &mut ZipArchive<File>, index: usize, to: &Path) -> Result<(), BundleFact> {
    let from = zip.by_index(index).map_err(|e| broken(&e))?;
    let stated = from.size();
    let mut file = to.parent().map_or(Ok(()), std::fs::create_dir_all).and_then(|()| File::create_new(to));
    let file = file.as_mut().map_err(|e| unreadable(e))?;
    let written = io::copy(&mut from.take(stated.saturating_add(1)), file).map_err(|e| unreadable(&e))?;
    if written > stated { Err(BundleFact::TooLarge(BundleLimit::Stated)) } else { Ok(()) }
}

fn unreadable(error: &io::Error) -> BundleFact {
    BundleFact::Unreadable { reason: error.to_string() }
}

fn broken(error: &ZipError) -> BundleFact {
    BundleFact::Unreadable { reason: error.to_string() }
}
