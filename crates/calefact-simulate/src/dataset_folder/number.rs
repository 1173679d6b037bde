//! Numbers with a fixed number of decimals, for every file of the folder.

use std::fmt::Write;

/// Appends a number with so many decimals, to the nearest; a negative number that rounds to zero is written as zero.
pub(super) fn push_fixed(text: &mut String, value: f64, decimals: usize) {
    let start = text.len();
    let _ = write!(text, "{value:.decimals$}");
    let digits = &text[start..];
    if digits.starts_with('-') && digits.bytes().all(|b| matches!(b, b'-' | b'0' | b'.')) {
        text.remove(start);
    }
}

/// A number with so many decimals, as [`push_fixed`] writes it.
pub(super) fn fixed(value: f64, decimals: usize) -> String {
    let mut text = String::new();
    push_fixed(&mut text, value, decimals);
    text
}

#[cfg(test)]
mod tests {
    use super::fixed;

    #[test]
    fn decimals_are_those_asked_for() {
        for (value, decimals, expected) in [
            (1_234.567_891_4, 0, "1235"),
            (1_234.567_891_4, 2, "1234.57"),
            (1_234.567_891_4, 6, "1234.567891"),
            (0.000_012_346, 8, "0.00001235"),
            (0.05, 4, "0.0500"),
            (-0.05, 4, "-0.0500"),
            (-0.04, 1, "0.0"),
            (-0.0, 0, "0"),
            (1e17, 5, "100000000000000000.00000"),
        ] {
            assert_eq!(fixed(value, decimals), expected);
        }
    }

    /// Read back, a number differs from the one written by half of its last decimal at most.
    #[test]
    fn a_number_read_back_is_the_one_written() {
        for decimals in 0..9 {
            let step = 0.1_f64.powi(i32::try_from(decimals).expect("small"));
            for i in -500..500 {
                let value = f64::from(i) * 0.173_205_08;
                let back: f64 = fixed(value, decimals).parse().expect("a number");
                assert!((back - value).abs() <= 0.5 * step + 1e-12, "{value} with {decimals} decimals gives {back}");
            }
        }
    }
}
