//! Results that can hardly be right, and the slips that would explain them. The limits are not here.

use crate::Quantity;
use serde::Serialize;

/// A result beyond a limit of common practice.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ImplausibleResult {
    /// Which quantity.
    pub quantity: Quantity,
    /// It comes to this, in its unit.
    pub value: f64,
    /// The limit that it passes.
    pub limit: f64,
}

impl ImplausibleResult {
    /// Whether the result is too high; too low otherwise.
    pub fn is_above(&self) -> bool {
        self.value > self.limit
    }
}

/// A slip of unit or decimal mark in a column.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Slip {
    /// The column.
    pub column: &'static str,
    /// The numbers of the column times this factor would make the results plausible.
    pub factor: f64,
}

impl Slip {
    /// The column, if it is one of the register.
    pub fn register_column(&self) -> Option<&'static str> {
        (self.column != "elapsed").then_some(self.column)
    }
}
