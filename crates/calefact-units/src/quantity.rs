//! A number with its unit, as typed in a dataset file: `"160 L"`, `"60degC"`.

use crate::{Kind, Unit, UnitError};

/// A number and a unit, such as `"160 L"`, in the SI unit of the kind.
///
/// The number has a decimal point, an optional sign and exponent. A bare number is accepted for [`Kind::Fraction`]
/// alone, as a pure number: `"0.2"` and `"20 %"` are the same.
///
/// ```
/// use calefact_units::{Kind, parse_quantity};
///
/// assert_eq!(parse_quantity("160 L", Kind::Volume), Ok(0.16));
/// assert_eq!(parse_quantity("20 %", Kind::Fraction), Ok(0.2));
/// assert!(parse_quantity("42 gal", Kind::Volume).is_err());
/// ```
///
/// # Errors
/// [`UnitError::NoNumber`] if the text begins with no finite number, [`UnitError::Comma`] if the number holds a comma,
/// and what [`Unit::parse`] gives for the rest.
pub fn parse_quantity(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let typed = text.trim().replace('\u{2212}', "-");
    let (number, rest) = typed.split_at(number_len(&typed));
    if !number.is_empty() && rest.starts_with(',') {
        return Err(UnitError::Comma { text: text.into() });
    }
    let value = number.parse::<f64>().ok().filter(|v| v.is_finite());
    let Some(value) = value else {
        return Err(UnitError::NoNumber { text: text.into() });
    };
    let symbol = rest.trim();
    if symbol.is_empty() && kind == Kind::Fraction {
        return Ok(value);
    }
    Ok(Unit::parse(symbol, kind)?.to_si(value))
}

/// Length in bytes of the number the text begins with.
fn number_len(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |from: usize| from + bytes.iter().skip(from).take_while(|b| b.is_ascii_digit()).count();
    let sign = |from: usize| from + usize::from(matches!(bytes.get(from), Some(b'+' | b'-')));
    let mut end = digits(sign(0));
    if bytes.get(end) == Some(&b'.') {
        end = digits(end + 1);
    }
    // An exponent only where digits follow, so that a unit may begin with the letter.
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let first = sign(end + 1);
        let last = digits(first);
        if last > first {
            end = last;
        }
    }
    end
}
