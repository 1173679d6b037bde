//! Packing a folder as a zip archive of the same bytes on any machine: fixed times, permissions, system and order.

use std::collections::BTreeSet;
use std::fs::File;
use std::io::{self, Seek, Write};
use std::path::Path;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, System, ZipWriter};

/// Packs the named files below a folder, in the order of their names.
///
/// # Errors
/// If a file cannot be read, or the archive cannot be written.
pub fn pack<W: Write + Seek>(root: &Path, files: &BTreeSet<String>, to: W) -> io::Result<W> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(6))
        .last_modified_time(DateTime::DEFAULT)
        .unix_permissions(0o644)
        .system(System::Unix);
    let mut archive = ZipWriter::new(to);
    for name in files {
        archive.start_file(name.as_str(), options)?;
        io::copy(&mut File::open(root.join(name))?, &mut archive)?;
    }
    Ok(archive.finish()?)
}

/// Where an archive first differs from the one that [`pack`] makes of the same files; none where it does not.
///
/// # Errors
/// If a file cannot be read, or there is no room for the other archive.
pub fn first_difference(root: &Path, files: &BTreeSet<String>, archive: &Path) -> io::Result<Option<u64>> {
    let packed = pack(root, files, tempfile::tempfile()?)?;
    let mut packed = io::BufReader::new(rewound(packed)?);
    let mut archive = io::BufReader::new(File::open(archive)?);
    let mut at = 0;
    loop {
        let (a, b) = (next(&mut packed)?, next(&mut archive)?);
        match (a, b) {
            (None, None) => return Ok(None),
            (a, b) if a == b => at += 1,
            _ => return Ok(Some(at)),
        }
    }
}

fn rewound(mut file: File) -> io::Result<File> {
    file.rewind()?;
    Ok(file)
}

fn next(reader: &mut impl io::BufRead) -> io::Result<Option<u8>> {
    let byte = reader.fill_buf()?.first().copied();
    reader.consume(usize::from(byte.is_some()));
    Ok(byte)
}
