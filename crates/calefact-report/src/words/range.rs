//! Words for the values a number can have.

use super::{DisplayUnit, Measure, Units, Wording};
use calefact_data::toml_source::Range;
use calefact_units::Kind;

/// Significant digits of a number in another unit than the file's.
const DIGITS: i32 = 4;

/// A number of a kind with its unit, without the last digits of a conversion.
pub(super) fn number(w: &Wording<'_>, value: f64, kind: Option<Kind>) -> String {
    if let Some(unit) = united_states(w, kind) {
        return w.typography.join(&w.typography.significant(unit.value(value), DIGITS), &unit.symbol);
    }
    let (scale, unit) = scale(kind);
    format!("{}{unit}", rounded(value * scale))
}

/// A range after "must be".
pub(super) fn range_words(w: &Wording<'_>, range: Range, kind: Option<Kind>) -> String {
    let (scale, unit) = scale(kind);
    let shown = united_states(w, kind);
    let unit = shown.as_ref().map_or(unit, |shown| format!(" {}", shown.symbol));
    let number = |value: f64| match &shown {
        Some(shown) => w.typography.significant(shown.value(value), DIGITS),
        None => rounded(value * scale),
    };
    match range {
        Range::Any => "a finite number".into(),
        Range::Positive => "more than zero".into(),
        Range::NotNegative => "zero or more".into(),
        Range::Within(low, high) => format!("from {} to {}{unit}", number(low), number(high)),
        Range::Below(low, high) => format!("at least {} and less than {}{unit}", number(low), number(high)),
        Range::Between(low, high) => format!("more than {} and less than {}{unit}", number(low), number(high)),
    }
}

/// The unit for a reader of United States units, where the kind has another one.
fn united_states(w: &Wording<'_>, kind: Option<Kind>) -> Option<DisplayUnit> {
    let measure = match kind.filter(|_| w.units == Units::Us)? {
        Kind::Temperature => Measure::Temperature,
        Kind::TemperatureDifference => Measure::TemperatureDifference,
        Kind::Mass => Measure::Mass,
        Kind::Volume => Measure::Volume,
        Kind::Length => Measure::LongLength,
        Kind::MassFlow => Measure::WaterFlow,
        Kind::SpecificEnergy => Measure::CalorificValue,
        Kind::HeatCapacity => Measure::HeatCapacity,
        Kind::Conductance => Measure::Conductance,
        _ => return None,
    };
    Some(w.unit(measure))
}

fn scale(kind: Option<Kind>) -> (f64, String) {
    match kind {
        None => (1.0, String::new()),
        Some(Kind::SpecificEnergy) => (1e-6, " MJ/kg".into()),
        Some(Kind::Fraction) => (100.0, " %".into()),
        Some(Kind::Volume) => (1000.0, " L".into()),
        Some(kind) => (1.0, format!(" {}", kind.si_symbol())),
    }
}

fn rounded(value: f64) -> String {
    if value.abs() < 1e7 { format!("{}", (value * 1000.0).round() / 1000.0) } else { format!("{value:.2e}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_ranges() {
        let w = Wording::plain();
        assert_eq!(number(&w, 0.1 + 0.2, None), "0.3");
        assert_eq!(number(&w, 1e9, Some(Kind::Mass)), "1.00e9 kg");
        assert_eq!(range_words(&w, Range::Within(1e6, 60e6), Some(Kind::SpecificEnergy)), "from 1 to 60 MJ/kg");
        assert_eq!(range_words(&w, Range::Below(0.0, 1.0), Some(Kind::Fraction)), "at least 0 and less than 100 %");
        assert_eq!(range_words(&w, Range::Between(0.5, 1.0), None), "more than 0.5 and less than 1");
        let us = Wording { units: Units::Us, ..w };
        assert_eq!(number(&us, 7.0, Some(Kind::Mass)), "15.43 lb");
        assert_eq!(range_words(&us, Range::Within(-50.0, 100.0), Some(Kind::Temperature)), "from -58 to 212 degF");
    }
}
