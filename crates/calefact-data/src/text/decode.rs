//! From the bytes of a file to UTF-8 text.

use super::binary;
use crate::Finding;
use crate::fact::{File, TableFile};
use chardetng::{EncodingDetector, Iso2022JpDetection, Utf8Detection};
use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
use std::borrow::Cow;

/// Text of a file, with the encoding that was guessed where nothing said so.
pub(crate) struct Decoded<'b> {
    /// The text as UTF-8 bytes, without a byte order mark.
    pub(crate) text: Cow<'b, [u8]>,
    /// Name of the encoding if it had to be guessed.
    pub(crate) guessed: Option<&'static str>,
}

/// Decodes a file: by its byte order mark, else the stated encoding, else UTF-8 if it is valid, else a guess (UTF-16
/// by its zero bytes, then by chardetng; where that finds no Western encoding, Windows-1252).
///
/// # Errors
/// A finding where the file does not hold text; `table` is what it was to hold.
pub(crate) fn decode<'b>(
    bytes: &'b [u8],
    stated: Option<&'static Encoding>,
    table: TableFile,
) -> Result<Decoded<'b>, Box<Finding>> {
    let mut decoded = decoded(bytes, stated);
    end_lines(&mut decoded.text);
    let format = binary::format(bytes);
    if format.is_some() || binary::has_control_characters(&decoded.text) {
        return Err(Finding::error(File::NotText { table, format }).into());
    }
    Ok(decoded)
}

/// The bytes of a file as text in the encoding that they show; what no encoding explains is replaced.
pub(crate) fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(&decoded(bytes, None).text).into_owned()
}

/// A text whose lines end in a carriage return alone, as some spreadsheets still write them, gets line feeds.
fn end_lines(text: &mut Cow<'_, [u8]>) {
    if memchr::memchr(b'\n', text).is_some() || memchr::memchr(b'\r', text).is_none() {
        return;
    }
    for byte in text.to_mut() {
        if *byte == b'\r' {
            *byte = b'\n';
        }
    }
}

fn decoded<'b>(bytes: &'b [u8], stated: Option<&'static Encoding>) -> Decoded<'b> {
    let marked = Encoding::for_bom(bytes);
    let (encoding, skip) = marked.map_or((stated, 0), |(e, n)| (Some(e), n));
    let bytes = &bytes[skip..];
    if encoding.is_none_or(|e| e == UTF_8) && std::str::from_utf8(bytes).is_ok() && !has_zero(bytes) {
        return Decoded { text: Cow::Borrowed(bytes), guessed: None };
    }
    let used = encoding.unwrap_or_else(|| guess(bytes));
    let (text, _) = used.decode_without_bom_handling(bytes);
    Decoded { text: Cow::Owned(text.into_owned().into_bytes()), guessed: encoding.is_none().then(|| used.name()) }
}

/// A note naming the guessed encoding.
pub(crate) fn guess_note(name: &'static str) -> Finding {
    Finding::note(File::EncodingGuessed(name))
}

fn has_zero(bytes: &[u8]) -> bool {
    memchr::memchr(0, &bytes[..bytes.len().min(4096)]).is_some()
}

fn guess(bytes: &[u8]) -> &'static Encoding {
    let head = &bytes[..bytes.len().min(4096)];
    let zeros = |odd: usize| head.iter().skip(odd).step_by(2).filter(|b| **b == 0).count();
    if zeros(0) + zeros(1) > head.len() / 4 {
        return if zeros(1) >= zeros(0) { UTF_16LE } else { UTF_16BE };
    }
    let mut detector = EncodingDetector::new(Iso2022JpDetection::Deny);
    detector.feed(bytes, true);
    let found = detector.guess(None, Utf8Detection::Deny);
    // A degree sign alone is too little for the detector, which then names some Asian or Cyrillic set.
    if found.is_single_byte() && found.name().starts_with("windows-125") && !short_of_letters(bytes) {
        found
    } else {
        WINDOWS_1252
    }
}

/// Whether the text has so few bytes beyond ASCII that a guess by language is worthless.
fn short_of_letters(bytes: &[u8]) -> bool {
    bytes.iter().filter(|b| **b >= 0x80).take(20).count() < 20
}

#[cfg(test)]
mod tests {
    use super::decode;
    use crate::fact::TableFile;

    fn read(bytes: &[u8]) -> (String, Option<&'static str>) {
        let d = decode(bytes, None, TableFile::Log).expect("text");
        (String::from_utf8_lossy(&d.text).into_owned(), d.guessed)
    }

    #[test]
    fn byte_order_marks_decide() {
        assert_eq!(read(b"\xEF\xBB\xBFa\xC2\xB0"), ("a\u{b0}".into(), None));
        assert_eq!(read(b"\xFF\xFEa\0\xB0\0"), ("a\u{b0}".into(), None));
        assert_eq!(read(b"\xFE\xFF\0a\0\xB0"), ("a\u{b0}".into(), None));
    }

    #[test]
    fn lines_that_end_in_a_carriage_return_alone_are_lines() {
        assert_eq!(read(b"a,b\r0,1\r").0, "a,b\n0,1\n");
        assert_eq!(read(b"a,b\r\n0,1\r\n").0, "a,b\r\n0,1\r\n");
    }

    #[test]
    fn without_a_mark_the_guess_is_named() {
        assert_eq!(read(b"Barrel \xB0F"), ("Barrel \u{b0}F".into(), Some("windows-1252")));
        assert_eq!(read(b"a\0,\0b\0"), ("a,b".into(), Some("UTF-16LE")));
        assert_eq!(read("Barrel \u{b0}F".as_bytes()), ("Barrel \u{b0}F".into(), None));
    }
}
