//! Quantities in the units a reader expects: minutes for seconds, per cent for fractions, kilowatts for watts.

use crate::format;
use calefact_analysis::Quantity;
use calefact_analysis::result::{Contrast, ContrastKind};
use calefact_stats::{Estimate, Interval};

/// How a quantity is shown: value times `factor`, in `unit`.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Readable {
    /// From the unit of the tables to the unit shown.
    pub(crate) factor: f64,
    /// Unit symbol; empty for a pure number.
    pub(crate) unit: String,
}

/// An estimate as words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Shown {
    /// Value without unit.
    pub(crate) value: String,
    /// Interval without unit, "22.3 to 25.9".
    pub(crate) interval: String,
    /// Half width of the interval.
    pub(crate) half: String,
    /// Unit.
    pub(crate) unit: String,
}

impl Shown {
    /// Value with unit.
    pub(crate) fn with_unit(&self) -> String {
        join(&self.value, &self.unit)
    }
}

impl Readable {
    /// The readable form of a quantity.
    pub(crate) fn of(quantity: Quantity) -> Self {
        let (factor, unit) = match (quantity, quantity.unit()) {
            (Quantity::AirRatio | Quantity::ReferenceHeaterRatio, _) => (1.0, ""),
            (_, "1") => (100.0, "%"),
            (_, "s") => (1.0 / 60.0, "min"),
            (Quantity::HeatInput | Quantity::CoilPower, "W") => (1e-3, "kW"),
            (Quantity::GasFlow, "kg/s") => (1e3, "g/s"),
            (Quantity::CoilFlow, "kg/s") => (60.0, "kg/min"),
            (_, "W/(m2 K)") => (1.0, "W/(m²·K)"),
            (_, unit) => (1.0, unit),
        };
        Self { factor, unit: unit.to_owned() }
    }

    /// The readable form of an estimate of a quantity; a cost takes its currency from the estimate.
    pub(crate) fn of_estimate(quantity: Quantity, estimate: &Estimate) -> Self {
        let mut readable = Self::of(quantity);
        if quantity == Quantity::CostPerHeat {
            estimate.unit.as_ref().clone_into(&mut readable.unit);
        }
        readable
    }

    /// The readable form of a contrast in a quantity.
    pub(crate) fn of_contrast(contrast: &Contrast) -> Self {
        match contrast.kind {
            ContrastKind::Ratio => Self { factor: 1.0, unit: "times".to_owned() },
            ContrastKind::Difference => {
                let mut readable = Self::of_estimate(contrast.quantity, &contrast.estimate);
                if readable.unit == "%" {
                    "% points".clone_into(&mut readable.unit);
                }
                readable
            }
        }
    }

    /// An estimate in this form.
    pub(crate) fn show(&self, estimate: &Estimate) -> Shown {
        let places = self.places(estimate);
        let at = |x: f64| format::fixed(x * self.factor, places);
        Shown {
            value: at(estimate.value),
            interval: format!("{} to {}", at(estimate.interval.lower), at(estimate.interval.upper)),
            half: at(estimate.interval.half_width()),
            unit: self.unit.clone(),
        }
    }

    /// Another interval of the same estimate, to the same place.
    pub(crate) fn interval(&self, interval: &Interval, estimate: &Estimate) -> String {
        let places = self.places(estimate);
        let at = |x: f64| format::fixed(x * self.factor, places);
        format!("{} to {}", at(interval.lower), at(interval.upper))
    }

    /// Two significant digits of the half width of the interval, or of the standard uncertainty where it has none.
    fn places(&self, estimate: &Estimate) -> i32 {
        let half = format::places(estimate.interval.half_width() * self.factor);
        let standard = || format::places(estimate.std_uncertainty * self.factor);
        half.or_else(standard).unwrap_or_else(|| format::places_plain(estimate.value * self.factor, 4))
    }
}

/// Value and unit with a space that does not break.
pub(crate) fn join(value: &str, unit: &str) -> String {
    if unit.is_empty() { value.to_owned() } else { format!("{value}\u{a0}{unit}") }
}

/// A label with its unit in brackets, for headings of columns and axes.
pub(crate) fn heading(label: &str, unit: &str) -> String {
    if unit.is_empty() { label.to_owned() } else { format!("{label} ({unit})") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn estimate(value: f64, u: f64) -> Estimate {
        Estimate::student(value, "x", u, f64::INFINITY, 0.95, "")
    }

    #[test]
    fn seconds_become_minutes_and_fractions_per_cent() {
        let time = Readable::of(Quantity::ReferenceTime).show(&estimate(5400.0, 120.0));
        assert_eq!((time.with_unit().as_str(), time.interval.as_str()), ("90.0\u{a0}min", "86.1 to 93.9"));
        let efficiency = Readable::of(Quantity::ThermalEfficiency).show(&estimate(0.2371, 0.012));
        assert_eq!((efficiency.with_unit().as_str(), efficiency.interval.as_str()), ("23.7\u{a0}%", "21.4 to 26.1"));
    }

    #[test]
    fn an_exact_value_keeps_four_digits() {
        assert_eq!(Readable::of(Quantity::FuelEnergy).show(&estimate(96.123_4, 0.0)).value, "96.12");
    }
}
