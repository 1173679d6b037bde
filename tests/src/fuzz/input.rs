//! How an input is taken apart: a choice before the rest, and several files as one text, where a line `=== name` stands before each.
//! Archives are made of them, stored as they are, so that a change reaches what is packed.

use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// Stands before the name of a part.
const MARK: &str = "=== ";

/// Takes the first byte of an input as a choice between `n` ways to read the rest; the digits `0`, `1`... choose in their order.
pub(super) fn choice(bytes: &[u8], n: usize) -> (usize, &[u8]) {
    bytes.split_first().map_or((0, bytes), |(first, rest)| (usize::from(first.wrapping_sub(b'0')) % n, rest))
}

/// Whether an input is one of the quarter that is read twice, to be compared.
pub(super) fn is_read_twice(bytes: &[u8]) -> bool {
    bytes.iter().fold(0_u8, |sum, byte| sum.wrapping_add(*byte)).is_multiple_of(4)
}

/// The parts of an input, by name; what is not text, or stands before the first name, is none.
pub(super) fn parts(bytes: &[u8]) -> Vec<(&str, &[u8])> {
    let mut parts: Vec<(&str, &[u8])> = Vec::new();
    let mut rest = bytes;
    let mut starts_line = true;
    let mut at = 0;
    while at < rest.len() {
        if starts_line && rest[at..].starts_with(MARK.as_bytes()) {
            let line = rest[at + MARK.len()..].split(|b| *b == b'\n').next().unwrap_or_default();
            if let Some(last) = parts.last_mut() {
                last.1 = &rest[..at];
            }
            rest = rest.get(at + MARK.len() + line.len() + 1..).unwrap_or_default();
            parts.extend(std::str::from_utf8(line).ok().map(|name| (name, rest)));
            at = 0;
            continue;
        }
        starts_line = rest[at] == b'\n';
        at += 1;
    }
    parts
}

/// The bytes of an archive: those that are one as they are, else one of the parts.
pub(super) fn archive(bytes: &[u8]) -> Vec<u8> {
    if bytes.starts_with(b"PK") {
        return bytes.to_vec();
    }
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    for (name, content) in parts(bytes) {
        // A name that the crate refuses to write is reached by bytes as they are.
        if writer.start_file(name, options).is_ok() {
            writer.write_all(content).expect("content");
        }
    }
    writer.finish().expect("an archive").into_inner()
}
