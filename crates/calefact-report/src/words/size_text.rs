//! Sizes as a builder states them: `10 %` of the mean, `4 points`, `0.1 kg/kWh`.

use super::{Measure, Typography, Units, Wording};
use calefact_analysis::Quantity;
use calefact_analysis::planning::Size;

/// Why a text is no size of a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SizeError {
    /// The quantity has another unit.
    OtherUnit,
    /// No number with a unit.
    NotASize,
    /// Zero or less.
    NotAboveZero,
}

impl SizeError {
    /// Fault of the text of a key.
    pub fn message(self, key: &str, text: &str) -> String {
        match self {
            Self::OtherUnit => format!(
                "`{key}` is `{text}`, in a unit that no planned quantity has; write a share of the mean (`10 %`), points of a percentage \
                 (`4 points`), or an amount in the unit of the report (`0.1 kg/kWh`)"
            ),
            Self::NotASize => {
                format!("`{key}` is `{text}`; write a number with its unit, such as `10 %` or `4 points`")
            }
            Self::NotAboveZero => format!("`{key}` is `{text}`; it must be above zero"),
        }
    }
}

/// A size of a quantity: a share of its mean, or an amount in a unit that the report shows it in.
///
/// # Errors
/// If the text is no size of this quantity.
pub fn size(w: &Wording<'_>, text: &str, quantity: Quantity) -> Result<Size, SizeError> {
    let (number, unit) = number_and_unit(text)?;
    if number <= 0.0 {
        return Err(SizeError::NotAboveZero);
    }
    let is_share = Measure::from(quantity) == Measure::Share;
    match unit {
        "" => Err(SizeError::NotASize),
        "%" => Ok(Size::Share(0.01 * number)),
        "point" | "points" | "percentage points" if is_share => Ok(Size::Amount(0.01 * number)),
        _ => in_unit(w, number, unit, quantity).map(Size::Amount),
    }
}

/// A mean of a quantity, in a unit that the report shows it in.
///
/// # Errors
/// If the text is no value of this quantity.
pub fn mean(w: &Wording<'_>, text: &str, quantity: Quantity) -> Result<f64, SizeError> {
    let (number, unit) = number_and_unit(text)?;
    if number <= 0.0 { Err(SizeError::NotAboveZero) } else { in_unit(w, number, unit, quantity) }
}

fn number_and_unit(text: &str) -> Result<(f64, &str), SizeError> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || "+-.".contains(c))).unwrap_or(text.len());
    let number: f64 = text[..end].parse().map_err(|_| SizeError::NotASize)?;
    if number.is_finite() { Ok((number, text[end..].trim())) } else { Err(SizeError::NotASize) }
}

fn in_unit(w: &Wording<'_>, number: f64, unit: &str, quantity: Quantity) -> Result<f64, SizeError> {
    let shown = [Units::Metric, Units::Us].into_iter().flat_map(|units| {
        [Typography::Plain, Typography::Page]
            .map(|typography| Wording { units, typography, ..*w }.unit_of_quantity(quantity))
    });
    let found = shown.into_iter().find(|u| u.symbol == unit).ok_or(SizeError::OtherUnit)?;
    Ok(number / found.width(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_shares_of_the_mean_or_amounts() {
        let w = Wording::plain();
        let found = |text, quantity| size(&w, text, quantity);
        let (efficiency, fuel) = (Quantity::ThermalEfficiency, Quantity::FuelPerHeat);
        assert_eq!(found("10 %", fuel), Ok(Size::Share(0.1)));
        assert_eq!(found("4 points", efficiency), Ok(Size::Amount(0.04)));
        assert_eq!(found("0.5kg/kWh", fuel), Ok(Size::Amount(0.5)));
        assert!(matches!(found("1 lb/kWh", fuel), Ok(Size::Amount(x)) if (x - 0.453_592_37).abs() < 1e-9));
        assert_eq!(found("4 points", fuel), Err(SizeError::OtherUnit));
        assert_eq!([found("4", fuel), found("much", fuel), found("", fuel)], [Err(SizeError::NotASize); 3]);
        assert_eq!([found("0 %", fuel), found("-3 %", fuel)], [Err(SizeError::NotAboveZero); 2]);
        assert_eq!(mean(&w, "35 %", efficiency), Ok(0.35));
    }
}
