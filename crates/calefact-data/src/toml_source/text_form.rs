//! Texts that must be written in a certain form.

use crate::Water;
use calefact_units::{Kind, UnitError, parse_quantity};
use encoding_rs::Encoding;
use jiff::civil::{Date, DateTime, Time};
use jiff::fmt::strtime;
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
    /// Pattern of a clock time, as strptime takes it: `%d.%m.%Y %H:%M`.
    ClockFormat,
    /// Name of a time zone in the IANA database.
    TimeZone,
    /// Water, by volume or by mass: `120 L`, `120 kg`.
    Water,
    /// A date as ISO 8601 writes it: `2026-03-28`.
    Date,
    /// An ORCID: four groups of four digits, of which the last one checks the others.
    Orcid,
    /// Address of a page on the web.
    Url,
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
            Self::ClockFormat => is_clock_format(text),
            Self::TimeZone => TimeZone::get(text).is_ok(),
            Self::Water => parse_water(text).is_ok(),
            Self::Date => text.parse::<Date>().is_ok(),
            Self::Orcid => is_orcid(text),
            Self::Url => {
                let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
                rest.is_some_and(|rest| {
                    !rest.is_empty() && !text.contains(|c: char| c.is_whitespace() || c.is_control())
                })
            }
        }
    }
}

/// Whether a pattern writes a time of the day and reads it again.
fn is_clock_format(pattern: &str) -> bool {
    let moment = DateTime::constant(2026, 3, 28, 14, 5, 9, 0);
    let time_of = |written: String| {
        let whole = DateTime::strptime(pattern, &written).map(DateTime::time);
        whole.or_else(|_| Time::strptime(pattern, &written)).ok()
    };
    let written = TimeZone::UTC.to_zoned_datetime(moment).ok().and_then(|zoned| strtime::format(pattern, &zoned).ok());
    written.and_then(time_of).is_some_and(|time| time.hour() == moment.hour())
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

/// Whether a text is an ORCID whose last digit is right: ISO 7064, MOD 11-2.
fn is_orcid(text: &str) -> bool {
    let groups: Vec<&str> = text.split('-').collect();
    let digits: String = groups.concat();
    let Some((digits, check)) = digits.split_at_checked(15) else { return false };
    if groups.len() != 4 || groups.iter().any(|g| g.len() != 4) || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return false;
    }
    let sum = digits.bytes().fold(0, |sum, b| (sum + u32::from(b - b'0')) * 2);
    let wanted = (12 - sum % 11) % 11;
    if wanted == 10 { check == "X" } else { check == wanted.to_string() }
}

/// The byte of a delimiter as written.
pub(crate) fn delimiter(text: &str) -> Option<u8> {
    match text.as_bytes() {
        b"tab" => Some(b'\t'),
        [byte] if byte.is_ascii() && !byte.is_ascii_alphanumeric() => Some(*byte),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::TextForm;

    /// The first is the example of the ORCID documentation ("Structure of the ORCID identifier"), the second ends in 10.
    #[test]
    fn the_last_digit_of_an_orcid_checks_the_others() {
        assert!(TextForm::Orcid.fits("0000-0002-1825-0097") && TextForm::Orcid.fits("0000-0002-1694-233X"));
        for wrong in [
            "0000-0002-1825-0098",
            "0000000218250097",
            "0000-0002-1825-009",
            "https://orcid.org/0000-0002-1825-0097",
            "",
        ] {
            assert!(!TextForm::Orcid.fits(wrong), "{wrong}");
        }
        assert!(
            TextForm::Url.fits("https://example.org/a")
                && !TextForm::Url.fits("example.org")
                && !TextForm::Url.fits("https://a b")
        );
    }
}
