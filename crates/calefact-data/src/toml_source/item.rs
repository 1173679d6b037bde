//! A value of a TOML file, read as its shape says.

use super::Shape;
use super::context::Context;
use super::spelling::key_path;
use super::value::{Value, read};
use crate::Fact;
use crate::apparatus::Stated;
use toml::Spanned;
use toml::de::DeValue;

/// A value, the path of its key and its place. The getters give `None` for a value that does not fit; the check of the
/// file has reported it.
pub struct Item<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) path: String,
    pub(super) shape: Shape,
    pub(super) value: &'a Spanned<DeValue<'a>>,
}

impl<'a> Item<'a> {
    pub(super) fn new(context: &'a Context<'a>, path: String, shape: Shape, value: &'a Spanned<DeValue<'a>>) -> Self {
        Self { context, path, shape, value }
    }

    pub(super) fn read(&self) -> Option<Value<'a>> {
        read(self.shape, self.value.get_ref()).ok()
    }

    /// A text.
    pub fn text(&self) -> Option<&'a str> {
        match self.read()? {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// A number; a quantity in SI.
    pub fn number(&self) -> Option<f64> {
        match self.read()? {
            Value::Number(value) => Some(value),
            _ => None,
        }
    }

    /// A quantity and, where it is given in the same text, its uncertainty.
    pub fn stated(&self) -> Option<Stated> {
        match self.read()? {
            Value::Stated(value) => Some(value),
            _ => None,
        }
    }

    /// A whole number.
    pub fn integer(&self) -> Option<i64> {
        match self.read()? {
            Value::Integer(value) => Some(value),
            _ => None,
        }
    }

    /// `true` or `false`.
    pub fn boolean(&self) -> Option<bool> {
        match self.read()? {
            Value::Boolean(value) => Some(value),
            _ => None,
        }
    }

    /// The value that a word stands for.
    pub fn word<T: Clone>(&self, words: &[(&str, T)]) -> Option<T> {
        let text = self.text()?;
        words.iter().find(|(word, _)| *word == text).map(|(_, value)| value.clone())
    }

    /// The entries of a table whose keys are ids or names, in the order of the file.
    pub fn entries(&self) -> Vec<(String, Item<'a>)> {
        let (Some(Value::Table(table)), Shape::ById(each) | Shape::ByName(_, each)) =
            (self.read(), self.shape.chosen(self.value.get_ref()))
        else {
            return Vec::new();
        };
        let entry = |(id, value): (&Spanned<toml::de::DeString<'a>>, &'a Spanned<DeValue<'a>>)| {
            let id = id.get_ref();
            (id.to_string(), Item::new(self.context, key_path(&self.path, id), *each, value))
        };
        let mut entries: Vec<_> = table.iter().map(entry).collect();
        entries.sort_by_key(|(_, item)| item.value.span().start);
        entries
    }

    /// The items of an array.
    pub fn items(&self) -> Vec<Item<'a>> {
        let (Some(Value::Array(array)), Shape::List(each) | Shape::NonEmpty(each, _)) =
            (self.read(), self.shape.chosen(self.value.get_ref()))
        else {
            return Vec::new();
        };
        let item = |(i, value)| Item::new(self.context, format!("{}[{i}]", self.path), *each, value);
        array.iter().enumerate().map(item).collect()
    }

    /// The items of an array; of another value, that value alone.
    pub fn each(self) -> Vec<Self> {
        if matches!(self.value.get_ref(), DeValue::Array(_)) { self.items() } else { vec![self] }
    }

    /// Reports an error at this value.
    pub fn report(&self, fact: impl Into<Fact>) {
        self.context.report(self.value.span(), fact);
    }
}
