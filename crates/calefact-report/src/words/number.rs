//! Digits: as many as the uncertainty deserves, two significant digits of the uncertainty beside it (JCGM 100:2008, 7.2.6:
//! standard or expanded), value and interval to the same place. Units are not here.

use super::Typography;

/// Decimal places that give `u` two significant digits; negative left of the point. `None` if `u` is no uncertainty.
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
pub(crate) fn places_for_digits(value: f64, digits: i32) -> i32 {
    if value == 0.0 || !value.is_finite() { 0 } else { digits - 1 - exponent(value.abs()) }
}

/// Exponent of the leading digit.
fn exponent(x: f64) -> i32 {
    libm::log10(x).floor() as i32
}

/// Numbers from here on have a power of ten.
const LARGE: f64 = 1e12;
/// Significant digits that a float holds.
const HELD: i32 = 15;

/// A number as digits and power of ten.
fn with_power(value: f64) -> String {
    format!("{value:.1e}").replacen(".0e", "e", 1)
}

impl Typography {
    /// A value rounded to a decimal place; a dash if it is missing or infinite. Numbers that nobody reads digit by digit
    /// have a power of ten: 1.2e15.
    pub fn fixed(self, value: f64, places: i32) -> String {
        if !value.is_finite() {
            return self.choose("-", "–").to_owned();
        }
        let digits = if value.abs() < LARGE { digits(value, places) } else { with_power(value.abs()) };
        let is_zero = !digits.bytes().any(|b| (b'1'..=b'9').contains(&b));
        let sign = if value < 0.0 && !is_zero { self.choose("-", "−") } else { "" };
        format!("{sign}{}", self.grouped(&digits))
    }

    /// A number without uncertainty: up to `digits` significant digits, none of them dropped left of the point, and no
    /// zeros at the end of the decimals.
    pub fn significant(self, value: f64, digits: i32) -> String {
        let text = self.fixed(value, places_for_digits(value, digits).max(0));
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
    }

    /// Groups of three from five digits on, where the page is set; none in plain text.
    fn grouped(self, text: &str) -> String {
        let (whole, rest) = text.split_at(text.find('.').unwrap_or(text.len()));
        if self == Self::Plain || whole.len() < 5 || !whole.bytes().all(|b| b.is_ascii_digit()) {
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
}

/// The digits of a finite value, without its sign.
fn digits(value: f64, places: i32) -> String {
    let scale = 10f64.powi(-places.clamp(-300, 0));
    let rounded = if places < 0 { (value.abs() / scale).round() * scale } else { value.abs() };
    let most = if rounded < 1.0 { 12 } else { HELD - 1 - exponent(rounded) };
    format!("{rounded:.*}", usize::try_from(places.clamp(0, most)).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: Typography = Typography::Page;

    /// JCGM 100:2008, 7.2.6: u = 0.35 mg with 100.021 47 g is given as 100.02147 g and 0.35 mg; 10.057 62 ohm with
    /// u = 27 milliohm is rounded to 10.058 ohm; 28.05 kHz rounds to 28 kHz.
    #[test]
    fn value_is_rounded_to_two_digits_of_its_uncertainty() {
        assert_eq!(PAGE.fixed(10.057_62, places(0.027).unwrap()), "10.058");
        assert_eq!(PAGE.fixed(100.021_47, places(0.000_35).unwrap()), "100.02147");
        assert_eq!(PAGE.fixed(28.05, places(28.05).unwrap()), "28");
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
        let table = [
            (12_345.0, -1, "12\u{202f}350", "12350"),
            (-0.25, 1, "−0.2", "-0.2"),
            (-0.001, 1, "0.0", "0.0"),
            (f64::NAN, 1, "–", "-"),
            (f64::NEG_INFINITY, 1, "–", "-"),
            (-1e300, 1, "−1e300", "-1e300"),
            (1.234_5e15, -20, "1.2e15", "1.2e15"),
            (5.6, 300, "5.60000000000000", "5.60000000000000"),
            (5.6, -300, "0", "0"),
        ];
        for (value, places, page, plain) in table {
            assert_eq!(PAGE.fixed(value, places), page);
            assert_eq!(Typography::Plain.fixed(value, places), plain);
        }
    }

    #[test]
    fn a_number_without_uncertainty_has_no_idle_digits() {
        let shown = [120.000_01, 37.777_777_777_777_78, 5.6, 1234.5, 0.0].map(|x| Typography::Plain.significant(x, 3));
        assert_eq!(shown, ["120", "37.8", "5.6", "1234", "0"]);
    }

    /// Whatever a file holds, a number on the page has at most as many digits as a float.
    #[test]
    fn no_number_is_longer_than_a_float() {
        let sizes =
            [f64::MIN_POSITIVE, 1e-300, 1e-13, 0.1, 1.0, 123_456.789, 9.99e11, 1e12, 1e17, 1e60, 1e300, f64::MAX];
        for value in sizes.into_iter().chain([f64::NAN, f64::INFINITY]).flat_map(|v| [v, -v]) {
            for places in [-400, -20, -1, 0, 1, 12, 400] {
                for text in [Typography::Plain.fixed(value, places), PAGE.fixed(value, places)] {
                    assert!(text.chars().filter(char::is_ascii_digit).count() <= 15, "{value:e} {places}: {text}");
                    assert!(!text.contains(['N', 'n', '∞']), "{value:e} {places}: {text}");
                }
            }
        }
    }
}
