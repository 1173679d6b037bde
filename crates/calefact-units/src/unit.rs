//! A unit: symbol, kind, and the line that takes it to SI.

use crate::Kind;

/// A unit of one kind: SI value = factor x value + offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Canonical symbol.
    pub symbol: &'static str,
    /// Kind of quantity.
    pub kind: Kind,
    /// Factor to SI.
    pub factor: f64,
    /// Offset to SI, zero but for temperatures.
    pub offset: f64,
}

impl Unit {
    /// A value in this unit, in SI.
    pub fn to_si(&self, value: f64) -> f64 {
        value.mul_add(self.factor, self.offset)
    }

    /// An SI value, in this unit.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }
}
