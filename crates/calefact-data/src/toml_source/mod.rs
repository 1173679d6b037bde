//! The one way TOML is read: a cursor over the parsed text that collects every problem with its place.
//!
//! A reader asks a [`Table`] for the keys it knows. What is missing, of the wrong type or unknown becomes a
//! [`Finding`] with file, line, column and an excerpt; reading goes on, so that all problems of a file are shown
//! together. No derive of serde is involved: positions and the wording of the messages are the point.
//!
//! ```
//! use calefact_data::toml_source;
//! let text = "[site]\nname = \"Hill\"\naltitud = 420\n";
//! let (name, findings) = toml_source::read_text("dataset.toml".as_ref(), text, |root| {
//!     let name = root.table("site").and_then(|site| {
//!         let name = site.string("name");
//!         site.optional("altitude");
//!         site.finish();
//!         name
//!     });
//!     root.finish();
//!     name
//! });
//! assert_eq!(name, Some(Some("Hill".to_string())));
//! assert_eq!(findings[0].code(), "unknown-key");
//! assert_eq!((findings[0].line, findings[0].column), (Some(3), Some(1)));
//! ```

mod encoding;
mod item;
mod place;
mod table;

pub use item::Item;
pub use table::Table;

use crate::{Finding, file};
use place::Place;
use std::cell::RefCell;
use std::path::Path;
use toml::de::DeTable;

/// What all cursors of one file share.
struct Context<'a> {
    place: Place<'a>,
    findings: RefCell<Vec<Finding>>,
}

impl Context<'_> {
    fn push(&self, finding: Finding) {
        self.findings.borrow_mut().push(finding);
    }
}

/// Reads a TOML file. `None` if it cannot be opened, is not UTF-8 (nor UTF-16 with its mark), or is not TOML; the
/// findings say which.
pub fn read_file<T>(path: &Path, build: impl FnOnce(&Table<'_>) -> T) -> (Option<T>, Vec<Finding>) {
    let read = file::read(path).map_err(|error| file::unreadable(path, error).into());
    match read.and_then(|bytes| encoding::text(path, bytes)) {
        Ok(text) => read_text(path, &text, build),
        Err(finding) => (None, vec![*finding]),
    }
}

/// Reads TOML text; `path` is only named in findings. `None` if the text is not TOML. Findings are in the order of
/// their places.
pub fn read_text<T>(path: &Path, text: &str, build: impl FnOnce(&Table<'_>) -> T) -> (Option<T>, Vec<Finding>) {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let place = Place::new(path, text);
    let (root, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        let at = |e: &toml::de::Error| place.finding("toml-syntax", e.span().unwrap_or(0..0), e.message());
        return (None, errors.iter().map(at).collect());
    }
    let context = Context { place, findings: RefCell::default() };
    let value = build(&Table::new(&context, root.get_ref(), String::new(), root.span()));
    let mut findings = context.findings.into_inner();
    findings.sort_by_key(|f| (f.line, f.column));
    (Some(value), findings)
}

#[cfg(test)]
mod tests;
