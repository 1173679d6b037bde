//! A value of a TOML file, read as what the caller expects it to be.

use super::{Context, Table};
use crate::text::units;
use crate::{Finding, nearest};
use calefact_units::{Kind, UnitError, parse_quantity};
use toml::Spanned;
use toml::de::DeValue;

/// A value, its key path and its place. The typed getters report what does not fit and give `None`.
pub struct Item<'a> {
    context: &'a Context<'a>,
    path: String,
    value: &'a Spanned<DeValue<'a>>,
}

impl<'a> Item<'a> {
    pub(super) fn new(context: &'a Context<'a>, path: String, value: &'a Spanned<DeValue<'a>>) -> Self {
        Self { context, path, value }
    }

    /// Key path, such as `vessels.barrel.volume`.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Where in the file the value begins: for what has to be taken in the order of the file.
    pub(crate) fn start(&self) -> usize {
        self.value.span().start
    }

    /// The text, if this is one; says nothing otherwise.
    pub fn as_str(&self) -> Option<&'a str> {
        match self.value.get_ref() {
            DeValue::String(s) => Some(s),
            _ => None,
        }
    }

    /// Whether this is a table; says nothing otherwise.
    pub fn is_table(&self) -> bool {
        matches!(self.value.get_ref(), DeValue::Table(_))
    }

    /// Whether this is an array; says nothing otherwise.
    pub fn is_array(&self) -> bool {
        matches!(self.value.get_ref(), DeValue::Array(_))
    }

    /// A text.
    pub fn string(&self) -> Option<String> {
        self.as_str().map(str::to_string).or_else(|| self.wrong("a text in quotes"))
    }

    /// A number, with or without decimals.
    pub fn number(&self) -> Option<f64> {
        match self.value.get_ref() {
            DeValue::Integer(n) => self.integer_of(n).map(|v| v as f64),
            DeValue::Float(n) => n.as_str().parse().ok(),
            _ => self.wrong("a number"),
        }
    }

    /// A whole number.
    pub fn integer(&self) -> Option<i64> {
        match self.value.get_ref() {
            DeValue::Integer(n) => self.integer_of(n),
            _ => self.wrong("a whole number"),
        }
    }

    /// `true` or `false`.
    pub fn boolean(&self) -> Option<bool> {
        match self.value.get_ref() {
            DeValue::Boolean(b) => Some(*b),
            _ => self.wrong("true or false"),
        }
    }

    /// A quantity with its unit, such as `"160 L"`, in the SI unit of its kind.
    pub fn quantity(&self, kind: Kind) -> Option<f64> {
        let Some(text) = self.as_str() else {
            return self.wrong(&format!("a quantity such as \"{}\"", units::example(kind)));
        };
        parse_quantity(text, kind).map_err(|e| self.unit_error(&e)).ok()
    }

    /// A table.
    pub fn table(&self) -> Option<Table<'a>> {
        match self.value.get_ref() {
            DeValue::Table(t) => Some(Table::new(self.context, t, self.path.clone(), self.value.span())),
            _ => self.wrong("a table"),
        }
    }

    /// The items of an array.
    pub fn array(&self) -> Option<Vec<Item<'a>>> {
        match self.value.get_ref() {
            DeValue::Array(a) => {
                let item = |(i, v)| Item::new(self.context, format!("{}[{i}]", self.path), v);
                Some(a.iter().enumerate().map(item).collect())
            }
            _ => self.wrong("an array"),
        }
    }

    /// One of a set of words, each standing for a value.
    pub fn word<T: Clone>(&self, words: &[(&str, T)]) -> Option<T> {
        let text = self.string()?;
        let found = words.iter().find(|(w, _)| *w == text).map(|(_, v)| v.clone());
        if found.is_none() {
            let hint = nearest::hint(&text, words.iter().map(|(w, _)| *w));
            self.error("unknown-word", &format!("`{}` does not know the word `{text}`", self.path), &hint);
        }
        found
    }

    /// Reports an error at this value.
    pub fn error(&self, code: &'static str, message: &str, hint: &str) {
        let finding = self.at(code, message).action("value left empty");
        self.context.push(if hint.is_empty() { finding } else { finding.hint(hint) });
    }

    /// Reports a unit that could not be read.
    pub fn unit_error(&self, error: &UnitError) {
        let written = self.as_str().unwrap_or_default();
        self.error(units::code(error), &units::message(error, written), &units::hint(error).unwrap_or_default());
    }

    fn integer_of(&self, n: &toml::de::DeInteger<'_>) -> Option<i64> {
        let value = i64::from_str_radix(n.as_str(), n.radix()).ok();
        if value.is_none() {
            self.error("bad-value", &format!("`{}` is too large a whole number", self.path), "");
        }
        value
    }

    fn wrong<T>(&self, expected: &str) -> Option<T> {
        let found = match self.value.get_ref() {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) => "a whole number",
            DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "an array",
            DeValue::Table(_) => "a table",
        };
        self.error("wrong-type", &format!("`{}`: expected {expected}, found {found}", self.path), "");
        None
    }

    fn at(&self, code: &'static str, message: &str) -> Finding {
        self.context.place.finding(code, self.value.span(), message)
    }
}
