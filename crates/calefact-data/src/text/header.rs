//! A header cell: a name and perhaps a unit in brackets.

/// `"Barrel [degF]"` as name and unit; parentheses serve as well. Without a unit at the end, the whole is the name.
/// Inner brackets stay: `"tank [[degF]]"` has the unit `[degF]`.
pub(crate) fn split_unit(cell: &str) -> (&str, Option<&str>) {
    let cell = cell.trim();
    bracketed(cell, '[', ']').or_else(|| bracketed(cell, '(', ')')).map_or((cell, None), |(n, u)| (n, Some(u)))
}

fn bracketed(cell: &str, open: char, close: char) -> Option<(&str, &str)> {
    let inner = cell.strip_suffix(close)?;
    let (name, unit) = inner.split_once(open)?;
    let mut depth = 0_i32;
    for c in unit.chars() {
        depth += i32::from(c == open) - i32::from(c == close);
        if depth < 0 {
            return None;
        }
    }
    let unit = unit.trim();
    (depth == 0 && !unit.is_empty()).then_some((name.trim(), unit))
}

/// Whether two header names are the same but for case and the width of their spaces.
pub(crate) fn same_name(a: &str, b: &str) -> bool {
    folded(a) == folded(b)
}

/// A header name in the form that it is compared in.
pub(crate) fn folded(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// A name in the form of the canonical ones: lower case, `_` for spaces and hyphens.
pub(crate) fn canonical(name: &str) -> String {
    name.trim().to_lowercase().replace([' ', '-'], "_")
}

#[cfg(test)]
mod tests {
    use super::split_unit;

    #[test]
    fn units_in_brackets() {
        assert_eq!(split_unit(" water [L] "), ("water", Some("L")));
        assert_eq!(split_unit("Barrel (\u{b0}F)"), ("Barrel", Some("\u{b0}F")));
        assert_eq!(split_unit("tank [[degF]]"), ("tank", Some("[degF]")));
        assert_eq!(split_unit("tank"), ("tank", None));
        assert_eq!(split_unit("elapsed [s];tank [degC]"), ("elapsed [s];tank [degC]", None));
    }
}
