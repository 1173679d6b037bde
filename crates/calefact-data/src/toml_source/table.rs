//! A table of a TOML file, asked key by key.

use super::{Context, Item};
use crate::nearest;
use calefact_units::Kind;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::ops::Range;
use toml::de::DeTable;

/// A table and where it stands. Every key asked for counts as known; [`Table::finish`] reports the others.
pub struct Table<'a> {
    context: &'a Context<'a>,
    entries: &'a DeTable<'a>,
    path: String,
    span: Range<usize>,
    known: RefCell<BTreeSet<&'static str>>,
}

impl<'a> Table<'a> {
    pub(super) fn new(context: &'a Context<'a>, entries: &'a DeTable<'a>, path: String, span: Range<usize>) -> Self {
        Self { context, entries, path, span, known: RefCell::default() }
    }

    /// The value of a key that may be absent.
    pub fn optional(&self, key: &'static str) -> Option<Item<'a>> {
        self.known.borrow_mut().insert(key);
        let (_, value) = self.entries.iter().find(|(k, _)| k.get_ref() == key)?;
        Some(Item::new(self.context, self.join(key), value))
    }

    /// The value of a key that must be there; absent, it is a finding at the head of this table.
    pub fn required(&self, key: &'static str) -> Option<Item<'a>> {
        let item = self.optional(key);
        if item.is_none() {
            let whole = if self.path.is_empty() { "the file".into() } else { format!("[{}]", self.path) };
            let message = format!("{whole} lacks the key `{key}`");
            self.context.push(self.context.place.finding("missing-key", self.span.clone(), &message));
        }
        item
    }

    /// A text under an optional key.
    pub fn string(&self, key: &'static str) -> Option<String> {
        self.optional(key)?.string()
    }

    /// A text under a required key.
    pub fn required_string(&self, key: &'static str) -> Option<String> {
        self.required(key)?.string()
    }

    /// A number under an optional key.
    pub fn number(&self, key: &'static str) -> Option<f64> {
        self.optional(key)?.number()
    }

    /// A whole number under an optional key.
    pub fn integer(&self, key: &'static str) -> Option<i64> {
        self.optional(key)?.integer()
    }

    /// `true` or `false` under an optional key.
    pub fn boolean(&self, key: &'static str) -> Option<bool> {
        self.optional(key)?.boolean()
    }

    /// A quantity with its unit under an optional key, in SI.
    pub fn quantity(&self, key: &'static str, kind: Kind) -> Option<f64> {
        self.optional(key)?.quantity(kind)
    }

    /// A table under an optional key.
    pub fn table(&self, key: &'static str) -> Option<Table<'a>> {
        self.optional(key)?.table()
    }

    /// The items of an array under an optional key; empty if absent.
    pub fn array(&self, key: &'static str) -> Vec<Item<'a>> {
        self.optional(key).and_then(|item| item.array()).unwrap_or_default()
    }

    /// All entries with their keys: for tables whose keys are ids or names chosen by the user. They count as known.
    pub fn entries(&self) -> Vec<(String, Item<'a>)> {
        let entry = |(k, v)| {
            let key: &toml::Spanned<toml::de::DeString<'a>> = k;
            (key.get_ref().to_string(), Item::new(self.context, self.join(key.get_ref()), v))
        };
        self.entries.iter().map(entry).collect()
    }

    /// Reports every key that nobody asked for, naming the nearest known one.
    pub fn finish(&self) {
        let known = self.known.borrow();
        for (key, _) in self.entries.iter().filter(|(k, _)| !known.contains(k.get_ref().as_ref())) {
            let message = format!("unknown key `{}`", self.join(key.get_ref()));
            let finding = self.context.place.finding("unknown-key", key.span(), &message);
            let hint = nearest::hint(key.get_ref(), known.iter().copied());
            self.context.push(finding.hint(hint).action("key ignored"));
        }
    }

    /// Path of this table in the file, such as `fuels.spruce`; empty for the file itself.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Reports an error that concerns the table as a whole.
    pub fn error(&self, code: &'static str, message: &str, hint: &str) {
        let finding = self.context.place.finding(code, self.span.clone(), message);
        self.context.push(if hint.is_empty() { finding } else { finding.hint(hint) });
    }

    fn join(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_string() } else { format!("{}.{key}", self.path) }
    }
}
