//! What dry wood is made of.

use serde::Serialize;

/// Composition of dry matter as mass fractions.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Composition {
    /// Carbon.
    pub c: f64,
    /// Hydrogen.
    pub h: f64,
    /// Oxygen.
    pub o: f64,
    /// Nitrogen.
    pub n: f64,
    /// Sulfur.
    pub s: f64,
    /// Ash.
    pub ash: f64,
}
