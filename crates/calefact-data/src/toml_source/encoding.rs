//! From the bytes of a TOML file to its text: UTF-8, or UTF-16 that says so by its mark, as some editors save it.

use super::place::Place;
use crate::Finding;
use crate::fact::Toml;
use encoding_rs::{Encoding, UTF_8};
use std::path::Path;

/// The text of a file.
///
/// # Errors
/// A finding at the first byte that is not UTF-8.
pub(super) fn text(path: &Path, bytes: Vec<u8>) -> Result<String, Box<Finding>> {
    if let Some((marked, length)) = Encoding::for_bom(&bytes).filter(|(marked, _)| *marked != UTF_8) {
        return Ok(marked.decode_without_bom_handling(&bytes[length..]).0.into_owned());
    }
    String::from_utf8(bytes).map_err(|error| {
        let start = error.utf8_error().valid_up_to();
        let shown = String::from_utf8_lossy(error.as_bytes()).into_owned();
        let length = char::REPLACEMENT_CHARACTER.len_utf8();
        let byte = error.as_bytes().get(start).copied().unwrap_or_default();
        Place::new(path, &shown).finding(Toml::NotUtf8 { byte }, start..start + length).into()
    })
}
