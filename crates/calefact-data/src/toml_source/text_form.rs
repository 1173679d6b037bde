//! Texts that must be written in a certain form.

use crate::Water;
use calefact_units::{Kind, UnitError, parse_quantity};
use encoding_rs::Encoding;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde::Serialize;

/// Form of a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum TextForm {
    /// Any text.
    Any,
    /// A number and a unit whose kind another key decides.
    Width,
    /// Name of a folder: letters, digits, `-`, `_` and `.`, not first.
    FolderName,
    /// One character that is neither letter nor digit, or the word `tab`.
    Delimiter,
    /// Name of an encoding as the WHATWG Encoding Standard lists them.
    Encoding,
    /// Name of a time zone in the IANA database.
    TimeZone,
    /// Water, by volume or by mass: `120 L`, `120 kg`.
    Water,
    /// A date as ISO 8601 writes it: `2026-03-28`.
    Date,
}

impl TextForm {
    /// Whether a text has the form.
    pub(super) fn fits(self, text: &str) -> bool {
        match self {
            Self::Any | Self::Width => true,
            Self::FolderName => {
                let fits = |c: char| c.is_alphanumeric() || "-_.".contains(c);
                !text.is_empty() && text.chars().all(fits) && !text.starts_with('.')
            }
            Self::Delimiter => delimiter(text).is_some(),
            Self::Encoding => Encoding::for_label(text.as_bytes()).is_some(),
            Self::TimeZone => TimeZone::get(text).is_ok(),
            Self::Water => parse_water(text).is_ok(),
            Self::Date => text.parse::<Date>().is_ok(),
        }
    }
}

/// Water with its unit, of volume or of mass.
///
/// # Errors
/// The error of the unit as one of volume.
pub(crate) fn parse_water(text: &str) -> Result<Water, UnitError> {
    match parse_quantity(text, Kind::Volume) {
        Ok(m3) => Ok(Water::Volume(m3)),
        Err(error) => parse_quantity(text, Kind::Mass).map(Water::Mass).map_err(|_| error),
    }
}

/// The byte of a delimiter as written.
pub(crate) fn delimiter(text: &str) -> Option<u8> {
    match text.as_bytes() {
        b"tab" => Some(b'\t'),
        [byte] if byte.is_ascii() && !byte.is_ascii_alphanumeric() => Some(*byte),
        _ => None,
    }
}
