//! The zip archive that a workbook is: checked before anything is read from it, so that a small file cannot fill the memory.

use crate::fact::WorkbookFailure;
use std::io::{self, BufReader, Cursor, Read as _};
use std::sync::Arc;
use zip::ZipArchive;
use zip::read::ZipFile;
use zip::result::ZipError;

/// The bytes of a workbook, shared by all who read it.
pub(super) type Shared = Cursor<Arc<[u8]>>;

/// Unpacked, no more than this is read of a workbook, MiB: a sheet of a million readings has some 400.
pub(super) const MOST_MIB: u64 = 512;
/// Parts that stay in memory as a whole, such as the table of texts, may be this large together, MiB.
const MOST_KEPT_MIB: u64 = 64;
/// More parts than any workbook has.
const MOST_PARTS: usize = 20_000;
/// Parts that are read bit by bit, or not at all. The others stay in memory.
const PASSING: [&str; 6] =
    ["xl/worksheets/", "xl/media/", "xl/pivotcache/", "xl/drawings/", "pictures/", "content.xml"];

/// How files begin that hold an old or an encrypted workbook: the compound file of [MS-CFB].
const COMPOUND: &[u8] = b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1";
/// Name of the stream that holds an encrypted workbook ([MS-OFFCRYPTO] 1.3.1), in UTF-16.
const ENCRYPTED: &[u8] = b"E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0";

/// A checked archive.
pub(super) struct Archive {
    zip: ZipArchive<Shared>,
}

impl Archive {
    /// Opens an archive without a look at its parts, which [`Archive::check`] has.
    pub(super) fn open(bytes: Arc<[u8]>) -> Result<Self, WorkbookFailure> {
        if bytes.starts_with(COMPOUND) {
            let is_encrypted = memchr::memmem::find(&bytes, ENCRYPTED).is_some();
            return Err(if is_encrypted { WorkbookFailure::Encrypted } else { WorkbookFailure::OldFormat });
        }
        if !bytes.starts_with(b"PK") {
            return Err(WorkbookFailure::NotAWorkbook);
        }
        let zip = ZipArchive::new(Cursor::new(bytes)).map_err(|_| WorkbookFailure::Damaged)?;
        Ok(Self { zip })
    }

    /// Unpacks every part into nothing, so that sizes are known by what comes out and not by what the archive says; whole parts
    /// are known by their checksums.
    pub(super) fn check(&mut self) -> Result<(), WorkbookFailure> {
        if self.zip.len() > MOST_PARTS {
            return Err(WorkbookFailure::Damaged);
        }
        let (mut all, mut kept) = (0, 0);
        for index in 0..self.zip.len() {
            let mut part = self.zip.by_index(index).map_err(|e| failure(&e))?;
            let name = part.name().map_err(|_| WorkbookFailure::Damaged)?.to_lowercase();
            let room = (MOST_MIB << 20) - all;
            if part.size() > room {
                return Err(WorkbookFailure::TooLarge(MOST_MIB));
            }
            let size = io::copy(&mut part.by_ref().take(room + 1), &mut io::sink());
            let size = size.map_err(|_| WorkbookFailure::Damaged)?;
            all += size;
            kept += if PASSING.iter().any(|start| name.starts_with(start)) { 0 } else { size };
            if size > room || kept > MOST_KEPT_MIB << 20 {
                return Err(WorkbookFailure::TooLarge(if size > room { MOST_MIB } else { MOST_KEPT_MIB }));
            }
        }
        Ok(())
    }

    /// Whether the archive has a part.
    pub(super) fn has(&self, name: &str) -> bool {
        self.zip.index_for_name(name).is_some()
    }

    /// A part, to be read.
    pub(super) fn part(&mut self, name: &str) -> Result<BufReader<ZipFile<'_, Shared>>, WorkbookFailure> {
        self.zip.by_name(name).map(BufReader::new).map_err(|e| failure(&e))
    }

    /// A small part as text.
    pub(super) fn text(&mut self, name: &str) -> Result<String, WorkbookFailure> {
        let mut text = String::new();
        self.part(name)?.read_to_string(&mut text).map_err(|_| WorkbookFailure::Damaged)?;
        Ok(text)
    }
}

fn failure(error: &ZipError) -> WorkbookFailure {
    match error {
        ZipError::UnsupportedArchive(ZipError::PASSWORD_REQUIRED) => WorkbookFailure::Encrypted,
        _ => WorkbookFailure::Damaged,
    }
}
