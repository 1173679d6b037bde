//! Rounding for readers: as many digits as the uncertainty deserves, two significant digits of the uncertainty beside it
//! (JCGM 100:2008, 7.2.6: standard or expanded), value and interval to the same place.

/// Decimal places that give `u` two significant digits; negative left of the point. `None` if `u` says nothing.
pub(crate) fn places(u: f64) -> Option<i32> {
    if !u.is_finite() || u <= 0.0 {
        return None;
    }
    let places = 1 - exponent(u);
    // 0.0996 rounds up to 0.10, which has one digit more than was counted.
    let rounded = (u * 10f64.powi(places)).round();
    Some(if rounded >= 100.0 { places - 1 } else { places })
}

/// Decimal places that give a number without uncertainty `digits` significant digits.
pub(crate) fn places_plain(value: f64, digits: i32) -> i32 {
    if value == 0.0 || !value.is_finite() { 0 } else { digits - 1 - exponent(value.abs()) }
}

/// Exponent of the leading digit.
fn exponent(x: f64) -> i32 {
    x.log10().floor() as i32
}

/// A value rounded to a decimal place, with a real minus sign and thin spaces in long numbers; a dash if missing.
pub(crate) fn fixed(value: f64, places: i32) -> String {
    if value.is_nan() {
        return "–".to_owned();
    }
    if value.is_infinite() {
        return if value > 0.0 { "∞".to_owned() } else { "−∞".to_owned() };
    }
    let scale = 10f64.powi(-places.min(0));
    let text = format!(
        "{:.*}",
        usize::try_from(places.clamp(0, 12)).unwrap_or(0),
        (value / scale).round_if(places < 0) * scale
    );
    let negative = text.starts_with('-') && text.bytes().any(|b| (b'1'..=b'9').contains(&b));
    let digits = grouped(text.trim_start_matches('-'));
    if negative { format!("−{digits}") } else { digits }
}

trait RoundIf {
    fn round_if(self, condition: bool) -> Self;
}

impl RoundIf for f64 {
    fn round_if(self, condition: bool) -> Self {
        if condition { self.round() } else { self }
    }
}

/// Thin spaces between groups of three from five digits on.
fn grouped(text: &str) -> String {
    let (whole, rest) = text.split_at(text.find('.').unwrap_or(text.len()));
    if whole.len() < 5 {
        return text.to_owned();
    }
    let mut out = String::with_capacity(text.len() + 8);
    for (i, c) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push('\u{202f}');
        }
        out.push(c);
    }
    out + rest
}

/// A p-value: two digits, and nothing smaller than a thousandth.
pub(crate) fn p_value(p: f64) -> String {
    if p < 0.001 { "< 0.001".to_owned() } else { fixed(p, if p < 0.1 { 3 } else { 2 }) }
}

/// A share as a whole percentage.
pub(crate) fn percent(share: f64) -> String {
    format!("{}\u{a0}%", fixed(share * 100.0, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// JCGM 100:2008, 7.2.6: u = 0.35 mg with 100.021 47 g is given as 100.02147 g and 0.35 mg; 10.057 62 ohm with
    /// u = 27 milliohm is rounded to 10.058 ohm; 28.05 kHz rounds to 28 kHz.
    #[test]
    fn value_is_rounded_to_two_digits_of_its_uncertainty() {
        assert_eq!(fixed(10.057_62, places(0.027).unwrap()), "10.058");
        assert_eq!(fixed(100.021_47, places(0.000_35).unwrap()), "100.02147");
        assert_eq!(fixed(28.05, places(28.05).unwrap()), "28");
    }

    #[test]
    fn an_uncertainty_that_rounds_up_loses_a_place() {
        assert_eq!(places(0.0996), Some(2));
        assert_eq!(places(0.0994), Some(3));
        assert_eq!(places(678.0), Some(-1));
        assert_eq!(places(0.0), None);
        assert_eq!(places(f64::NAN), None);
    }

    #[test]
    fn long_negative_missing_and_tiny_numbers_read_well() {
        assert_eq!(fixed(12_345.0, -1), "12\u{202f}350");
        assert_eq!(fixed(-0.25, 1), "−0.2");
        assert_eq!(fixed(-0.001, 1), "0.0");
        assert_eq!(fixed(f64::NAN, 1), "–");
        assert_eq!(fixed(f64::INFINITY, 1), "∞");
        assert_eq!(p_value(0.000_02), "< 0.001");
        assert_eq!(percent(0.237), "24\u{a0}%");
    }
}
