//! What a value of the apparatus can be at all: a slip of sign or unit is an error at its place, and the value is left empty.

use crate::toml_source::Item;
use calefact_units::Kind;

/// The values a key can have.
#[derive(Debug, Clone, Copy)]
pub(super) enum Limits {
    /// More than zero.
    Positive,
    /// Zero or more.
    NotNegative,
    /// From one SI value to another, and the range in the words of a message.
    Between(f64, f64, &'static str),
}

/// Net calorific values of anything a stove burns lie well inside, J/kg.
pub(super) const CALORIFIC: Limits = Limits::Between(1e6, 60e6, "1 to 60 MJ/kg");

impl Limits {
    /// The value, if it can be.
    pub(super) fn keep(self, item: &Item<'_>, value: f64) -> Option<f64> {
        let (fits, words) = match self {
            Self::Positive => (value > 0.0, "must be more than zero"),
            Self::NotNegative => (value >= 0.0, "cannot be less than zero"),
            Self::Between(low, high, words) => ((low..=high).contains(&value), words),
        };
        if fits && value.is_finite() {
            return Some(value);
        }
        let rule = if matches!(self, Self::Between(..)) { format!("lies outside {words}") } else { words.into() };
        item.error("bad-value", &format!("`{}` {rule}", item.path()), "correct the number or its unit");
        None
    }

    /// A quantity that can be.
    pub(super) fn quantity(self, item: &Item<'_>, kind: Kind) -> Option<f64> {
        item.quantity(kind).and_then(|value| self.keep(item, value))
    }

    /// A plain number that can be.
    pub(super) fn number(self, item: &Item<'_>) -> Option<f64> {
        item.number().and_then(|value| self.keep(item, value))
    }
}
