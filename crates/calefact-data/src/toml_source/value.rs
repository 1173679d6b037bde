//! A value of a TOML file, read as its shape says.

use super::{Form, Range, Shape, quantity};
use crate::apparatus::Stated;
use crate::fact::Misfit;
use toml::de::{DeArray, DeInteger, DeTable, DeValue};

/// A value that fits its shape.
pub(super) enum Value<'a> {
    Text(&'a str),
    Number(f64),
    Integer(i64),
    Boolean(bool),
    Stated(Stated),
    Array(&'a DeArray<'a>),
    Table(&'a DeTable<'a>),
}

impl Shape {
    /// This shape, or of two that one which takes a value of this type.
    pub(super) fn chosen(self, value: &DeValue<'_>) -> Self {
        match self {
            Self::Either(first, _) if first.fits_type(value) => first.chosen(value),
            Self::Either(_, second) => second.chosen(value),
            other => other,
        }
    }

    fn fits_type(self, value: &DeValue<'_>) -> bool {
        let found = form(value);
        self.forms().iter().any(|f| match f {
            Form::Quantity(_) => found == Form::Text,
            Form::Number => matches!(found, Form::Number | Form::Integer),
            other => *other == found,
        })
    }
}

/// Reads a value.
pub(super) fn read<'a>(shape: Shape, value: &'a DeValue<'a>) -> Result<Value<'a>, Misfit> {
    match (shape.chosen(value), value) {
        (shape, DeValue::String(text)) if shape.fits_type(value) => read_text(shape, text),
        (Shape::Number(range), DeValue::Integer(n)) => in_range(integer(n)? as f64, range).map(Value::Number),
        (Shape::Number(range), DeValue::Float(n)) => {
            in_range(n.as_str().parse().unwrap_or(f64::NAN), range).map(Value::Number)
        }
        (Shape::Integer(range), DeValue::Integer(n)) => {
            let n = integer(n)?;
            in_range(n as f64, range).map(|_| Value::Integer(n))
        }
        (Shape::Boolean, DeValue::Boolean(b)) => Ok(Value::Boolean(*b)),
        (Shape::NonEmpty(_, code), DeValue::Array(items)) if items.is_empty() => Err(Misfit::Empty { code }),
        (Shape::List(_) | Shape::NonEmpty(..), DeValue::Array(items)) => Ok(Value::Array(items)),
        (Shape::Table(_) | Shape::ById(_) | Shape::ByName(..), DeValue::Table(table)) => Ok(Value::Table(table)),
        _ => Err(Misfit::Type { expected: shape.forms(), found: form(value) }),
    }
}

fn read_text(shape: Shape, text: &str) -> Result<Value<'_>, Misfit> {
    match shape {
        Shape::Text(form) if !form.fits(text) => Err(Misfit::Text { text: text.into(), form }),
        Shape::Word(words) => {
            let known = words();
            if known.contains(&text) { Ok(Value::Text(text)) } else { Err(Misfit::Word { word: text.into(), known }) }
        }
        Shape::Quantity(kind, range) => quantity::quantity(text, kind, range).map(Value::Number),
        Shape::Stated(kind, range) => quantity::stated(text, kind, range).map(Value::Stated),
        Shape::Width(kind) => quantity::width(text, kind).map(Value::Number),
        _ => Ok(Value::Text(text)),
    }
}

fn in_range(value: f64, range: Range) -> Result<f64, Misfit> {
    match value {
        _ if range.holds(value) => Ok(value),
        _ if !value.is_finite() => Err(Misfit::NotFinite),
        _ => Err(Misfit::Range { range, kind: None }),
    }
}

fn integer(n: &DeInteger<'_>) -> Result<i64, Misfit> {
    i64::from_str_radix(n.as_str(), n.radix()).map_err(|_| Misfit::TooLarge)
}

const fn form(value: &DeValue<'_>) -> Form {
    match value {
        DeValue::String(_) => Form::Text,
        DeValue::Integer(_) => Form::Integer,
        DeValue::Float(_) => Form::Number,
        DeValue::Boolean(_) => Form::Boolean,
        DeValue::Datetime(_) => Form::Date,
        DeValue::Array(_) => Form::Array,
        DeValue::Table(_) => Form::Table,
    }
}
