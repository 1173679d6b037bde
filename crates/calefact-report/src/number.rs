//! Numbers for machines: the shortest text that reads back to the same float.

/// Appends a float to a byte buffer: shortest round-trip digits, no trailing `.0`, nothing for a missing value (NaN),
/// `inf` and `-inf` for infinities.
pub(crate) fn push(buffer: &mut Vec<u8>, value: f64) {
    if value.is_nan() {
        return;
    }
    let mut scratch = zmij::Buffer::new();
    let text = scratch.format(value);
    buffer.extend_from_slice(text.strip_suffix(".0").unwrap_or(text).as_bytes());
}

/// The same as a string.
pub(crate) fn text(value: f64) -> String {
    let mut buffer = Vec::with_capacity(24);
    push(&mut buffer, value);
    String::from_utf8(buffer).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::text;

    #[test]
    fn floats_read_back_to_the_same_value() {
        for value in [0.0, 1.0, -2.5, 0.1, 1.0 / 3.0, 1e-7, 6.02e23, f64::MAX, f64::MIN_POSITIVE, 36.499_999_999_999_99]
        {
            assert_eq!(text(value).parse::<f64>().map(f64::to_bits), Ok(value.to_bits()), "{value}");
        }
    }

    #[test]
    fn whole_missing_and_infinite_values_are_short() {
        assert_eq!(text(12.0), "12");
        assert_eq!(text(f64::NAN), "");
        assert_eq!(text(f64::INFINITY), "inf");
        assert_eq!(text(f64::NEG_INFINITY), "-inf");
    }
}
