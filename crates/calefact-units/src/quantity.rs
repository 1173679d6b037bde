//! A number with its unit, as typed in a dataset file or a register: `"160 L"`, `"60degC"`, `"9 lb 6 oz"`, `"9 3/8 lb"`.

use crate::{Kind, Unit, UnitError};

/// A number and a unit, such as `"160 L"`, in the SI unit of the kind.
///
/// The number has a decimal point, an optional sign and exponent, or a common fraction: `9 3/8`, `3/8`, `9½`. Masses, lengths and
/// times may be made of parts, each smaller than one of the unit before it: `9 lb 6 oz`, `1'6"`, `1 h 20 min`. A bare
/// number is accepted for [`Kind::Fraction`] alone, as a pure number: `"0.2"` and `"20 %"` are the same.
///
/// ```
/// use calefact_units::{Kind, parse_quantity};
///
/// assert_eq!(parse_quantity("160 L", Kind::Volume), Ok(0.16));
/// assert_eq!(parse_quantity("20 %", Kind::Fraction), Ok(0.2));
/// assert_eq!(parse_quantity("1 h 20 min", Kind::Time), Ok(4800.0));
/// assert!(parse_quantity("42 gal", Kind::Volume).is_err());
/// ```
///
/// # Errors
/// [`UnitError::NoNumber`] if the text begins with no finite number, [`UnitError::Comma`] if the number holds a comma,
/// [`UnitError::Parts`] for parts that do not run from large to small, and what [`Unit::parse`] gives for the rest.
pub fn parse_quantity(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let typed = text.trim().replace('\u{2212}', "-");
    let (value, rest) = number(&typed, kind).ok_or_else(|| not_a_number(text, &typed))?;
    let symbol = rest.trim();
    if symbol.is_empty() && kind == Kind::Fraction {
        return Ok(value);
    }
    let (first, further) = if has_parts(kind) { split_parts(symbol) } else { (symbol, "") };
    let unit = Unit::parse(first, kind)?;
    let further =
        parts(further, unit, kind).map_err(|e| e.unwrap_or_else(|| UnitError::Parts { text: text.into() }))?;
    Ok(unit.to_si(value) + if value.is_sign_negative() { -further } else { further })
}

/// A number with a common fraction, such as `9 3/8` or `9½`, and nothing else.
pub fn common_fraction(text: &str) -> Option<f64> {
    let typed = text.trim();
    let whole = number_len(typed);
    let found = with_fraction(&typed[..whole], &typed[whole..])?;
    found.1.is_empty().then_some(found.0)
}

/// Why a text has no number in front.
fn not_a_number(text: &str, typed: &str) -> UnitError {
    let is_comma = |len: usize| len > 0 && typed[len..].starts_with(',');
    if is_comma(number_len(typed)) {
        UnitError::Comma { text: text.into() }
    } else {
        UnitError::NoNumber { text: text.into() }
    }
}

/// Kinds that people write in two units at once. No unit of theirs has a digit in its name.
const fn has_parts(kind: Kind) -> bool {
    matches!(kind, Kind::Mass | Kind::Length | Kind::Time)
}

/// The unit of the first part, and what follows it.
fn split_parts(symbol: &str) -> (&str, &str) {
    let (first, further) = symbol.split_at(symbol.find(|c: char| c.is_ascii_digit()).unwrap_or(symbol.len()));
    (first.trim(), further)
}

/// The sum of the parts that follow one in a larger unit, SI; no error of its own where they do not fit together.
fn parts(text: &str, larger: Unit, kind: Kind) -> Result<f64, Option<UnitError>> {
    if text.is_empty() {
        return Ok(0.0);
    }
    let (value, rest) = number(text, kind).ok_or(None)?;
    let (symbol, further) = split_parts(rest.trim());
    let unit = Unit::parse(symbol, kind).map_err(Some)?;
    let part = unit.to_si(value);
    if !(unit.to_si(1.0) < larger.to_si(1.0) && (0.0..larger.to_si(1.0)).contains(&part)) {
        return Err(None);
    }
    Ok(part + parts(further, unit, kind)?)
}

/// Fractions that have a character of their own.
const VULGAR: [(char, f64); 12] = [
    ('½', 0.5),
    ('¼', 0.25),
    ('¾', 0.75),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅕', 0.2),
    ('⅙', 1.0 / 6.0),
    ('⅒', 0.1),
];

/// The number that a text begins with, and the rest. A share is never a common fraction: `1/2` of it may be a date or a ratio.
fn number(text: &str, kind: Kind) -> Option<(f64, &str)> {
    let (whole, rest) = text.split_at(number_len(text));
    let is_whole = whole.trim_start_matches(['-', '+']).bytes().all(|b| b.is_ascii_digit());
    if is_whole
        && kind != Kind::Fraction
        && let Some((value, rest)) = with_fraction(whole, rest)
    {
        return Some((value, rest));
    }
    let value = whole.parse::<f64>().ok().filter(|v| v.is_finite() && !rest.starts_with([',', '/']))?;
    Some((value, rest))
}

/// A whole number, or none, with a common fraction after it.
fn with_fraction<'t>(whole: &str, rest: &'t str) -> Option<(f64, &'t str)> {
    let signed = |whole: f64, part: f64| if whole.is_sign_negative() { whole - part } else { whole + part };
    let start = if whole.is_empty() { Some(0.0) } else { whole.parse().ok() };
    let after = rest.trim_start();
    if let Some(&(sign, part)) = VULGAR.iter().find(|(sign, _)| after.starts_with(*sign)) {
        return Some((signed(start?, part), &after[sign.len_utf8()..]));
    }
    // "3/8": the whole number is the numerator; "9 3/8": it stands before.
    let (start, numerator, after) = if rest.starts_with('/') {
        (0.0, whole, rest)
    } else {
        let digits = after.find(|c: char| !c.is_ascii_digit())?;
        (start.filter(|_| after.len() < rest.len())?, &after[..digits], &after[digits..])
    };
    let below = after.strip_prefix('/')?;
    let digits = below.find(|c: char| !c.is_ascii_digit()).unwrap_or(below.len());
    let (numerator, denominator): (f64, f64) = (numerator.parse().ok()?, below[..digits].parse().ok()?);
    let fits =
        (0.0..denominator).contains(&numerator) && denominator <= 64.0 && !below[digits..].starts_with(['/', '.']);
    fits.then(|| (signed(start, numerator / denominator), &below[digits..]))
}

/// Length in bytes of the decimal number the text begins with.
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
