//! Files that do not hold text: the usual one is a spreadsheet saved under the name of a CSV file.

use crate::fact::BinaryFormat;

/// How such files begin.
const FORMATS: [(&[u8], BinaryFormat); 4] = [
    (b"PK\x03\x04", BinaryFormat::Zip),
    (b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", BinaryFormat::OldSpreadsheet),
    (b"%PDF-", BinaryFormat::Pdf),
    (b"\x1F\x8B", BinaryFormat::Gzip),
];
/// Number of bytes looked at.
const LOOKED_AT: usize = 4096;
/// A text has fewer control characters than one in this many bytes.
const ONE_IN: usize = 50;

/// The format a file begins with.
pub(super) fn format(bytes: &[u8]) -> Option<BinaryFormat> {
    FORMATS.iter().find(|(start, _)| bytes.starts_with(start)).map(|(_, format)| *format)
}

/// Whether decoded text has control characters that text does not have. Tabs, ends of line and of page, escapes and the
/// end-of-file mark of old systems occur in text.
pub(super) fn has_control_characters(text: &[u8]) -> bool {
    let head = &text[..text.len().min(LOOKED_AT)];
    let is_control = |b: &&u8| **b < 0x20 && !matches!(**b, b'\t' | b'\n' | b'\r' | 0x0B | 0x0C | 0x1A | 0x1B);
    head.iter().filter(is_control).count() * ONE_IN > head.len()
}
