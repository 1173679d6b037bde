//! A table of a TOML file, read key by key.

use super::context::Context;
use super::spelling::key_path;
use super::value::Value;
use super::{Item, Key, Shape};
use crate::Fact;
use crate::apparatus::Stated;
use std::collections::BTreeMap;
use std::ops::Range;
use toml::de::DeTable;

/// A table, its keys and its place. Only keys of its description can be read.
pub struct Table<'a> {
    context: &'a Context<'a>,
    entries: &'a DeTable<'a>,
    keys: &'static [Key],
    path: String,
    span: Range<usize>,
}

impl<'a> Table<'a> {
    pub(super) fn new(
        context: &'a Context<'a>,
        entries: &'a DeTable<'a>,
        keys: &'static [Key],
        path: String,
        span: Range<usize>,
    ) -> Self {
        Self { context, entries, keys, path, span }
    }

    /// The value of a key.
    pub fn item(&self, name: &str) -> Option<Item<'a>> {
        let key = self.keys.iter().find(|k| k.name == name);
        debug_assert!(key.is_some(), "[{}] has no key `{name}`", self.path);
        let value = self.entries.get(name)?;
        Some(Item::new(self.context, key_path(&self.path, name), key?.shape, value))
    }

    /// A text.
    pub fn text(&self, name: &str) -> Option<&'a str> {
        self.item(name)?.text()
    }

    /// A text of its own; empty if absent.
    pub fn string(&self, name: &str) -> String {
        self.text(name).unwrap_or_default().to_owned()
    }

    /// A number; a quantity in SI.
    pub fn number(&self, name: &str) -> Option<f64> {
        self.item(name)?.number()
    }

    /// The numbers under all keys that have one.
    pub fn numbers(&self) -> BTreeMap<String, f64> {
        self.keys.iter().filter_map(|key| Some((key.name.to_owned(), self.number(key.name)?))).collect()
    }

    /// A whole number.
    pub fn integer(&self, name: &str) -> Option<i64> {
        self.item(name)?.integer()
    }

    /// `true` or `false`.
    pub fn boolean(&self, name: &str) -> Option<bool> {
        self.item(name)?.boolean()
    }

    /// A quantity with the uncertainty in its text, or under the key with `_uncertainty` behind its name.
    pub fn stated(&self, name: &str) -> Option<Stated> {
        let beside = self.number(&format!("{name}_uncertainty"));
        let stated = self.item(name)?.stated()?;
        Some(Stated { std_uncertainty: stated.std_uncertainty.or(beside), ..stated })
    }

    /// The value that a word stands for.
    pub fn word<T: Clone>(&self, name: &str, words: &[(&str, T)]) -> Option<T> {
        self.item(name)?.word(words)
    }

    /// A table with fixed keys.
    pub fn table(&self, name: &str) -> Option<Table<'a>> {
        self.item(name)?.table()
    }

    /// The entries of a table whose keys are ids or names, in the order of the file; empty if absent.
    pub fn entries(&self, name: &str) -> Vec<(String, Item<'a>)> {
        self.item(name).map(|item| item.entries()).unwrap_or_default()
    }

    /// The items of an array; empty if absent.
    pub fn items(&self, name: &str) -> Vec<Item<'a>> {
        self.item(name).map(|item| item.items()).unwrap_or_default()
    }

    /// The texts of an array; empty if absent.
    pub fn texts(&self, name: &str) -> Vec<String> {
        self.items(name).iter().filter_map(|item| item.text().map(str::to_owned)).collect()
    }

    /// Names of the keys that the table can have.
    pub fn keys(&self) -> Vec<&'static str> {
        self.keys.iter().map(|key| key.name).collect()
    }

    /// Path of this table in the file, such as `fuels.spruce`; empty for the file itself.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Reports an error that concerns the table as a whole.
    pub fn report(&self, fact: impl Into<Fact>) {
        self.context.report(self.span.clone(), fact);
    }
}

impl<'a> Item<'a> {
    /// A table with fixed keys.
    pub fn table(&self) -> Option<Table<'a>> {
        match (self.read()?, self.shape.chosen(self.value.get_ref())) {
            (Value::Table(entries), Shape::Table(keys)) => {
                Some(Table::new(self.context, entries, keys, self.path.clone(), self.value.span()))
            }
            _ => None,
        }
    }
}
