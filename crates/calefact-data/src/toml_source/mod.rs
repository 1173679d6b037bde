//! The one way TOML is read: against a description of its keys, with every problem collected at its place.
//!
//! [`read_file`] checks the whole file against the description: what is missing, unknown, of the wrong type or outside its
//! range becomes a [`Finding`] with file, line, column and an excerpt, and all problems of a file are shown together. Then
//! the reader takes the values that fit. No derive of serde is involved: positions and the facts of the findings are the
//! point.
//!
//! ```
//! use calefact_data::toml_source::{self, Key, Range, Shape, TEXT};
//! use calefact_units::Kind;
//! const SITE: &[Key] = &[
//!     Key::optional("name", TEXT, "name of the place"),
//!     Key::optional("altitude", Shape::Quantity(Kind::Length, Range::Any), "height above sea level"),
//! ];
//! const KEYS: &[Key] = &[Key::optional("site", Shape::Table(SITE), "where the trials were made")];
//! let text = "[site]\nname = \"Hill\"\naltitud = \"420 m\"\n";
//! let (name, findings) =
//!     toml_source::read_text("dataset.toml".as_ref(), text, KEYS, |root| root.table("site").map(|s| s.string("name")));
//! assert_eq!(name, Some(Some("Hill".to_string())));
//! assert_eq!(findings[0].code(), "unknown-key");
//! assert_eq!((findings[0].line, findings[0].column), (Some(3), Some(1)));
//! ```

mod check;
mod context;
mod encoding;
mod item;
mod place;
mod quantity;
mod shape;
pub mod spelling;
mod table;
mod text_form;
mod value;

pub use item::Item;
pub(crate) use quantity::{PLUS_MINUS, parse_width};
pub use shape::{Form, Key, Range, Shape, TEXT, words};
pub use table::Table;
pub use text_form::TextForm;
pub(crate) use text_form::{delimiter, parse_water};

use crate::fact::Toml;
use crate::{Finding, InputFile, file};
use context::Context;
use place::Place;
use std::path::Path;
use toml::de::DeTable;

/// Reads a TOML file, and gives the bytes it had by their hash. `None` if it cannot be opened, is not UTF-8 (nor UTF-16
/// with its mark), or is not TOML; the findings say which.
pub fn read_file<T>(
    path: &Path,
    keys: &'static [Key],
    build: impl FnOnce(&Table<'_>) -> T,
) -> (Option<(T, InputFile)>, Vec<Finding>) {
    match file::read(path) {
        Ok(bytes) => {
            let file = InputFile::new(path, &bytes);
            let (value, findings) = read_bytes(path, bytes, keys, build);
            (value.map(|value| (value, file)), findings)
        }
        Err(failure) => (None, vec![file::unreadable(path, failure)]),
    }
}

/// Reads the bytes of a TOML file as [`read_file`] does; `path` is only named in findings.
pub(crate) fn read_bytes<T>(
    path: &Path,
    bytes: Vec<u8>,
    keys: &'static [Key],
    build: impl FnOnce(&Table<'_>) -> T,
) -> (Option<T>, Vec<Finding>) {
    match encoding::text(path, bytes) {
        Ok(text) => read_text(path, &text, keys, build),
        Err(finding) => (None, vec![*finding]),
    }
}

/// Reads TOML text; `path` is only named in findings. `None` if the text is not TOML. Findings are in the order of
/// their places.
pub fn read_text<T>(
    path: &Path,
    text: &str,
    keys: &'static [Key],
    build: impl FnOnce(&Table<'_>) -> T,
) -> (Option<T>, Vec<Finding>) {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let place = Place::new(path, text);
    let (root, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        let finding = |e: &toml::de::Error| {
            place.finding(Toml::Syntax { problem: e.message().to_owned() }, e.span().unwrap_or(0..0))
        };
        return (None, errors.iter().map(finding).collect());
    }
    let context = Context::new(place);
    check::table(&context, "", root.span(), keys, root.get_ref());
    let value = build(&Table::new(&context, root.get_ref(), keys, String::new(), root.span()));
    (Some(value), context.findings())
}

#[cfg(test)]
mod tests;
