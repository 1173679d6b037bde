//! A unit: symbol, kind, and the line that takes it to SI.
//!
//! The line is kept in whole numbers where it can be, and a value of few decimals is brought to a whole number first: then
//! nothing is rounded but the last division, and 13.7 % is the float nearest to 0.137, not 0.13699999999999998.

use crate::Kind;

/// A unit of one kind: SI value = (factor x value + offset) / divisor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Canonical symbol.
    pub symbol: &'static str,
    /// Kind of quantity.
    pub kind: Kind,
    /// Factor on the way to SI.
    pub factor: f64,
    /// Offset on the way to SI, zero but for temperatures.
    pub offset: f64,
    /// Divisor on the way to SI; where it is not 1, all three are whole numbers.
    pub divisor: f64,
}

/// Values that are whole numbers of this part are brought to them.
const PART: f64 = 1e4;
/// Largest such whole number: with factors up to the thousands of a unit it stays exact.
const MOST: f64 = 1e11;

impl Unit {
    /// The SI unit of a kind (degC for temperatures).
    pub const fn si(kind: Kind) -> Self {
        Self { symbol: kind.si_symbol(), kind, factor: 1.0, offset: 0.0, divisor: 1.0 }
    }

    /// A value in this unit, in SI.
    #[inline]
    pub fn to_si(&self, value: f64) -> f64 {
        self.along(value, self.offset)
    }

    /// The width of a range in this unit, in SI: without the offset.
    pub fn width_to_si(&self, width: f64) -> f64 {
        self.along(width, 0.0)
    }

    /// An SI value, in this unit.
    pub fn from_si(&self, si: f64) -> f64 {
        (si * self.divisor - self.offset) / self.factor
    }

    #[inline]
    fn along(&self, value: f64, offset: f64) -> f64 {
        if self.divisor > 1.0 {
            let whole = (value * PART).round();
            if whole.abs() < MOST && (whole / PART).to_bits() == value.to_bits() {
                return (self.factor * whole + offset * PART) / (self.divisor * PART);
            }
        }
        // Plain products: a fused multiply-add is a library call on processors without the instruction.
        (self.factor * value + offset) / self.divisor
    }
}
