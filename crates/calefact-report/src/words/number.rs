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

impl Typography {
    /// A value rounded to a decimal place; a dash if it is missing.
    pub fn fixed(self, value: f64, places: i32) -> String {
        if value.is_nan() {
            return self.choose("-", "–").to_owned();
        }
        let digits =
            if value.is_infinite() { self.choose("infinity", "∞").to_owned() } else { digits(value, places) };
        let is_zero = value.is_finite() && !digits.bytes().any(|b| (b'1'..=b'9').contains(&b));
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
        if self == Self::Plain || whole.len() < 5 || !whole.is_ascii() {
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
    let scale = 10f64.powi(-places.min(0));
    let rounded = if places < 0 { (value.abs() / scale).round() * scale } else { value.abs() };
    format!("{rounded:.*}", usize::try_from(places.clamp(0, 12)).unwrap_or(0))
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
            (f64::NEG_INFINITY, 1, "−∞", "-infinity"),
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
}
