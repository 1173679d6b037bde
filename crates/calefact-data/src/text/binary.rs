//! Files that are no text at all: a spreadsheet saved under the name of a CSV file is the usual one.

use crate::Finding;

/// How such files begin, and what they are.
const KINDS: [(&[u8], &str); 4] = [
    (b"PK\x03\x04", "a zip archive, such as a spreadsheet is"),
    (b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", "a spreadsheet of the older, binary kind"),
    (b"%PDF-", "a PDF"),
    (b"\x1F\x8B", "a gzip archive"),
];
/// How much of a file is looked at.
const LOOKED_AT: usize = 4096;
/// One control character in so many bytes is no accident.
const ONE_IN: usize = 50;

/// The finding on a file that is no text, from its bytes and what they were decoded to.
pub(super) fn finding(bytes: &[u8], text: &[u8]) -> Option<Finding> {
    let known = KINDS.iter().find(|(start, _)| bytes.starts_with(start)).map(|(_, what)| *what);
    let what = known.or_else(|| is_binary(text).then_some("no text"))?;
    Some(
        Finding::error_text("file-not-text", format!("the file is {what}; a table written as text is wanted"))
            .hint("save the sheet as CSV (UTF-8) and name that file; unpack an archive first"),
    )
}

/// Whether decoded text holds control characters as text does not: tabs, ends of line and of page, escapes and the old mark
/// at the end of a file are no sign.
fn is_binary(text: &[u8]) -> bool {
    let head = &text[..text.len().min(LOOKED_AT)];
    let is_control = |b: &&u8| **b < 0x20 && !matches!(**b, b'\t' | b'\n' | b'\r' | 0x0B | 0x0C | 0x1A | 0x1B);
    head.iter().filter(is_control).count() * ONE_IN > head.len()
}
