//! Numbers for machines: the shortest text that reads back to the same float.

/// Appends a float to a byte buffer: shortest round-trip digits, no trailing `.0`, nothing for a value that is missing (NaN)
/// or infinite.
pub(crate) fn push(buffer: &mut Vec<u8>, value: f64) {
    if !value.is_finite() || push_short(buffer, value) {
        return;
    }
    let mut scratch = zmij::Buffer::new();
    let text = scratch.format(value);
    buffer.extend_from_slice(text.strip_suffix(".0").unwrap_or(text).as_bytes());
}

/// Most decimals of a number that is written by [`push_short`], and their power of ten.
const DECIMALS: usize = 4;
const SCALE: f64 = 1e4;
/// More bytes than such a number has.
const WIDTH: usize = 24;

/// Appends a number of few decimals, as instruments give them; `false` where it has more. Two decimal numbers of at most 15
/// digits are never the same float, so a whole number of ten-thousandths that reads back to `value` is its shortest form.
fn push_short(buffer: &mut Vec<u8>, value: f64) -> bool {
    let size = value.abs();
    let digits = (size * SCALE + 0.5) as i64;
    if digits >= 1_000_000_000_000_000 || (digits as f64 / SCALE).to_bits() != size.to_bits() {
        return false;
    }
    // The text ends in the middle of twice the room, so that a copy of fixed length serves, which costs no call.
    let mut text = [0; 2 * WIDTH];
    let first = put(&mut text[..WIDTH], digits as u64, value.is_sign_negative());
    let end = buffer.len() + WIDTH - first;
    let (copied, _) = text[first..].as_chunks::<WIDTH>();
    buffer.extend_from_slice(&copied[0]);
    buffer.truncate(end);
    true
}

/// Writes ten-thousandths from the last digit to the first, and the sign, so that they end where `text` ends; gives the place
/// of the first byte.
fn put(text: &mut [u8], mut digits: u64, is_negative: bool) -> usize {
    let mut first = text.len();
    let mut put = |byte: u8| {
        first -= 1;
        text[first] = byte;
    };
    let mut decimals = DECIMALS;
    while decimals > 0 && digits.is_multiple_of(10) {
        (digits, decimals) = (digits / 10, decimals - 1);
    }
    for _ in 0..decimals {
        put(b'0' + (digits % 10) as u8);
        digits /= 10;
    }
    if decimals > 0 {
        put(b'.');
    }
    loop {
        put(b'0' + (digits % 10) as u8);
        digits /= 10;
        if digits == 0 {
            break;
        }
    }
    if is_negative {
        put(b'-');
    }
    first
}

#[cfg(test)]
mod tests {
    use super::push;

    fn text(value: f64) -> String {
        let mut buffer = Vec::new();
        push(&mut buffer, value);
        String::from_utf8(buffer).unwrap_or_default()
    }

    #[test]
    fn floats_read_back_to_the_same_value() {
        for value in [0.0, 1.0, -2.5, 0.1, 1.0 / 3.0, 1e-7, 6.02e23, f64::MAX, f64::MIN_POSITIVE, 36.499_999_999_999_99]
        {
            assert_eq!(text(value).parse::<f64>().map(f64::to_bits), Ok(value.to_bits()), "{value}");
        }
    }

    /// The formatter itself, asked for every number of up to five decimals in a range and for their neighbours.
    #[test]
    fn few_decimals_are_written_as_the_formatter_writes_them() {
        let wanted = |value: f64| zmij::Buffer::new().format(value).trim_end_matches(".0").to_owned();
        for whole in [0.0, 7.0, 136.0, 99_999.0, 4e9, 9.9e10, 1e12] {
            for hundredthousandths in (0..200).chain((0..3_000).map(|n| n * 37)) {
                let value = whole + f64::from(hundredthousandths) / 1e5;
                for value in [value, -value, value.next_up(), value.next_down()] {
                    assert_eq!(text(value), wanted(value));
                }
            }
        }
    }

    #[test]
    fn whole_missing_infinite_and_large_values_are_short() {
        assert_eq!(text(12.0), "12");
        assert_eq!(text(f64::NAN), "");
        assert_eq!(text(f64::INFINITY), "");
        assert_eq!(text(f64::NEG_INFINITY), "");
        assert_eq!(text(-1e300), "-1e+300");
    }
}
