//! Words for the values a number can have.

use calefact_data::toml_source::Range;
use calefact_units::Kind;

/// A number of a kind with its unit, without the last digits of a conversion.
pub(super) fn number(value: f64, kind: Option<Kind>) -> String {
    let (scale, unit) = scale(kind);
    format!("{}{unit}", rounded(value * scale))
}

/// A range after "must be".
pub(super) fn range_words(range: Range, kind: Option<Kind>) -> String {
    let (scale, unit) = scale(kind);
    let number = |value: f64| rounded(value * scale);
    match range {
        Range::Any => "a finite number".into(),
        Range::Positive => "more than zero".into(),
        Range::NotNegative => "zero or more".into(),
        Range::Within(low, high) => format!("from {} to {}{unit}", number(low), number(high)),
        Range::Below(low, high) => format!("at least {} and less than {}{unit}", number(low), number(high)),
        Range::Between(low, high) => format!("more than {} and less than {}{unit}", number(low), number(high)),
    }
}

fn scale(kind: Option<Kind>) -> (f64, String) {
    match kind {
        None => (1.0, String::new()),
        Some(Kind::SpecificEnergy) => (1e-6, " MJ/kg".into()),
        Some(Kind::Fraction) => (100.0, " %".into()),
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
        assert_eq!(number(0.1 + 0.2, None), "0.3");
        assert_eq!(number(1e9, Some(Kind::Mass)), "1.00e9 kg");
        assert_eq!(range_words(Range::Within(1e6, 60e6), Some(Kind::SpecificEnergy)), "from 1 to 60 MJ/kg");
        assert_eq!(range_words(Range::Below(0.0, 1.0), Some(Kind::Fraction)), "at least 0 and less than 100 %");
        assert_eq!(range_words(Range::Between(0.5, 1.0), None), "more than 0.5 and less than 1");
    }
}
