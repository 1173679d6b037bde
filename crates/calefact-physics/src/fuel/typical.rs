//! Typical values of virgin wood, for a fuel whose own analysis is not known.
//!
//! Source: ISO 17225-1:2014, informative annex B, virgin wood without or with insignificant bark, dry basis; values
//! and ranges from memory, to be confirmed against the standard. The typical values of the broadleaf row are not
//! mutually exact: its gross value and hydrogen give 18.75 MJ/kg net where the row says 18.9.

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

/// A typical value with the range published beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Typical value.
    pub value: f64,
    /// Least value of the range.
    pub low: f64,
    /// Greatest value of the range.
    pub high: f64,
}

impl Span {
    const fn new(value: f64, low: f64, high: f64) -> Self {
        Self { value, low, high }
    }

    /// Standard uncertainty if nothing but the range is known: its width over the square root of 12 (rectangular, GUM
    /// 4.3.7).
    pub fn standard_uncertainty(&self) -> f64 {
        (self.high - self.low) / 12.0_f64.sqrt()
    }
}

/// Typical values of a class; energies in J/kg of dry matter, the rest mass fractions of dry matter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typical {
    /// Net calorific value.
    pub net: Span,
    /// Gross calorific value.
    pub gross: Span,
    /// Carbon.
    pub carbon: Span,
    /// Hydrogen.
    pub hydrogen: Span,
    /// Oxygen.
    pub oxygen: Span,
    /// Nitrogen.
    pub nitrogen: Span,
    /// Sulfur.
    pub sulfur: Span,
    /// Ash.
    pub ash: Span,
}

impl Typical {
    /// The typical mass fractions, scaled so that they add up to one.
    pub fn composition(&self) -> Composition {
        let parts = [self.carbon, self.hydrogen, self.oxygen, self.nitrogen, self.sulfur, self.ash].map(|s| s.value);
        let total: f64 = parts.iter().sum();
        let [c, h, o, n, s, ash] = parts.map(|p| p / total);
        Composition { c, h, o, n, s, ash }
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
    net: Span::new(19.1e6, 18.5e6, 19.8e6),
    gross: Span::new(20.5e6, 20.0e6, 20.8e6),
    carbon: Span::new(0.51, 0.47, 0.54),
    hydrogen: Span::new(0.063, 0.056, 0.070),
    oxygen: Span::new(0.42, 0.40, 0.44),
    nitrogen: Span::new(0.001, 0.0, 0.005),
    sulfur: Span::new(0.000_1, 0.0, 0.000_2),
    ash: Span::new(0.003, 0.001, 0.010),
};

const BROADLEAF: Typical = Typical {
    net: Span::new(18.9e6, 18.4e6, 19.2e6),
    gross: Span::new(20.1e6, 19.4e6, 20.4e6),
    carbon: Span::new(0.49, 0.48, 0.52),
    hydrogen: Span::new(0.062, 0.059, 0.065),
    oxygen: Span::new(0.44, 0.41, 0.45),
    nitrogen: Span::new(0.001, 0.0, 0.005),
    sulfur: Span::new(0.000_2, 0.0, 0.000_5),
    ash: Span::new(0.003, 0.002, 0.010),
};
