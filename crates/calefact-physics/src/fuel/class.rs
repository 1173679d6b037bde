//! Typical values of virgin wood, for a fuel whose own analysis is not known.
//!
//! Source: ISO 17225-1:2014, informative annex B, virgin wood without or with insignificant bark, dry basis; values
//! and ranges from memory, to be confirmed against the standard. The typical values of the broadleaf row are not
//! mutually exact: its gross value and hydrogen give 18.75 MJ/kg net where the row says 18.9.

use super::composition::Composition;
use serde::Serialize;

/// Class of wood with published typical values.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum FuelClass {
    /// Coniferous wood (softwood).
    Coniferous,
    /// Broadleaf wood (hardwood).
    Broadleaf,
}

/// A typical value with the range published beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Typical value.
    pub value: f64,
    low: f64,
    high: f64,
}

impl Span {
    /// Standard uncertainty if nothing but the range is known: its width over the square root of 12 (rectangular, GUM
    /// 4.3.7).
    pub fn standard_uncertainty(&self) -> f64 {
        (self.high - self.low) / 12.0_f64.sqrt()
    }
}

/// Typical values of a class.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typical {
    /// Net calorific value of dry matter, J/kg.
    pub net: Span,
    /// Mass fractions of dry matter as published, which need not add up to one.
    published: Composition,
}

impl Typical {
    /// The typical mass fractions, scaled so that they add up to one.
    pub fn composition(&self) -> Composition {
        let Composition { c, h, o, n, s, ash } = self.published;
        let total = c + h + o + n + s + ash;
        Composition { c: c / total, h: h / total, o: o / total, n: n / total, s: s / total, ash: ash / total }
    }
}

/// Published typical values of a class.
pub const fn typical(class: FuelClass) -> &'static Typical {
    match class {
        FuelClass::Coniferous => &CONIFEROUS,
        FuelClass::Broadleaf => &BROADLEAF,
    }
}

const CONIFEROUS: Typical = Typical {
    net: Span { value: 19.1e6, low: 18.5e6, high: 19.8e6 },
    published: Composition { c: 0.51, h: 0.063, o: 0.42, n: 0.001, s: 0.000_1, ash: 0.003 },
};

const BROADLEAF: Typical = Typical {
    net: Span { value: 18.9e6, low: 18.4e6, high: 19.2e6 },
    published: Composition { c: 0.49, h: 0.062, o: 0.44, n: 0.001, s: 0.000_2, ash: 0.003 },
};
