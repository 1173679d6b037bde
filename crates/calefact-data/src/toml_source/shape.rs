//! The description of a TOML file: its keys, what each holds and what it means.
//!
//! One description serves the reader, the check for unknown keys and missing ones, and the JSON Schema.

use super::TextForm;
use calefact_units::Kind;
use serde::Serialize;

/// A key of a table.
#[derive(Debug, Clone, Copy)]
pub struct Key {
    /// Name.
    pub name: &'static str,
    /// Its shape.
    pub shape: Shape,
    /// Whether the table must have it.
    pub required: bool,
    /// Value where it is absent, as TOML.
    pub default: Option<&'static str>,
    /// Its meaning.
    pub meaning: &'static str,
}

impl Key {
    /// A key that may be absent.
    pub const fn optional(name: &'static str, shape: Shape, meaning: &'static str) -> Self {
        Self { name, shape, required: false, default: None, meaning }
    }

    /// A key that must be there.
    pub const fn required(name: &'static str, shape: Shape, meaning: &'static str) -> Self {
        Self { required: true, ..Self::optional(name, shape, meaning) }
    }

    /// The same key with the value that stands for its absence.
    #[must_use]
    pub const fn with_default(self, default: &'static str) -> Self {
        Self { default: Some(default), ..self }
    }
}

/// A text.
pub const TEXT: Shape = Shape::Text(TextForm::Any);

/// Shape of a key's value.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// A text of a form.
    Text(TextForm),
    /// One of some words.
    Word(fn() -> Vec<&'static str>),
    /// A number in a range.
    Number(Range),
    /// A whole number in a range.
    Integer(Range),
    /// `true` or `false`.
    Boolean,
    /// A text with a number and a unit, such as `"160 L"`; the range is in SI.
    Quantity(Kind, Range),
    /// The same, and perhaps its standard uncertainty: `"19.1 MJ/kg +- 0.3 MJ/kg"`.
    Stated(Kind, Range),
    /// A standard uncertainty, such as `"0.3 MJ/kg"`.
    Width(Kind),
    /// An array.
    List(&'static Shape),
    /// An array with at least one item, and the code of the finding where it has none.
    NonEmpty(&'static Shape, &'static str),
    /// A table with these keys.
    Table(&'static [Key]),
    /// A table whose keys are ids that the user chooses.
    ById(&'static Shape),
    /// A table whose keys are some of these names.
    ByName(fn() -> Vec<&'static str>, &'static Shape),
    /// Either of two shapes that differ in type.
    Either(&'static Shape, &'static Shape),
}

/// The words of a list of words and what each stands for.
pub fn words<T>(list: &[(&'static str, T)]) -> Vec<&'static str> {
    list.iter().map(|(word, _)| *word).collect()
}

/// Values a number can have. Infinity and what is not a number are in no range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Range {
    /// Any number.
    Any,
    /// More than zero.
    Positive,
    /// Zero or more.
    NotNegative,
    /// From the first to the second.
    Within(f64, f64),
    /// From the first to below the second.
    Below(f64, f64),
    /// Above the first and below the second.
    Between(f64, f64),
}

impl Range {
    /// Whether a number is in the range.
    pub fn holds(self, value: f64) -> bool {
        value.is_finite()
            && match self {
                Self::Any => true,
                Self::Positive => value > 0.0,
                Self::NotNegative => value >= 0.0,
                Self::Within(low, high) => (low..=high).contains(&value),
                Self::Below(low, high) => (low..high).contains(&value),
                Self::Between(low, high) => value > low && value < high,
            }
    }
}

/// Type of a value, as a message names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// A text in quotes.
    Text,
    /// A whole number.
    Integer,
    /// A number.
    Number,
    /// `true` or `false`.
    Boolean,
    /// A date.
    Date,
    /// An array.
    Array,
    /// A table.
    Table,
    /// A text with a number and a unit; its kind where that is fixed.
    Quantity(Option<Kind>),
}

impl Shape {
    /// The types of value that fit.
    pub(super) fn forms(self) -> Vec<Form> {
        vec![match self {
            Self::Text(TextForm::Width) => Form::Quantity(None),
            Self::Text(_) | Self::Word(_) => Form::Text,
            Self::Number(_) => Form::Number,
            Self::Integer(_) => Form::Integer,
            Self::Boolean => Form::Boolean,
            Self::Quantity(kind, _) | Self::Stated(kind, _) | Self::Width(kind) => Form::Quantity(Some(kind)),
            Self::List(_) | Self::NonEmpty(..) => Form::Array,
            Self::Table(_) | Self::ById(_) | Self::ByName(..) => Form::Table,
            Self::Either(first, second) => return [first.forms(), second.forms()].concat(),
        }]
    }
}
