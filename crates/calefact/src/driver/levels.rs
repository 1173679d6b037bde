//! Numeric register columns as levels of a factor.

use calefact_data::register_columns::{COLUMNS, RegisterColumn};
use calefact_data::{RegisterRow, Water};
use calefact_units::{Kind, Unit};

/// Adds the numeric columns of a row to the columns kept as written, with their unit, so that they can be named as factors:
/// a heater power of 50 W becomes the level `50 W`. A further column of the same name stays.
pub(super) fn add(row: &mut RegisterRow) {
    for column in &COLUMNS {
        if let Some(level) = level(row, column) {
            row.extra.entry(column.name.to_owned()).or_insert(level);
        }
    }
}

fn level(row: &RegisterRow, column: &RegisterColumn) -> Option<String> {
    let by_mass = column.name == "water" && matches!(row.water, Water::Mass(_));
    let (unit, kind) = if by_mass { ("kg", Kind::Mass) } else { (column.level_unit?, column.kind()?) };
    let value = Unit::parse(unit, kind).ok()?.from_si(row.number(column.name)?);
    Some(format!("{} {unit}", rounded(value)))
}

/// Six significant digits: enough to tell levels apart, too few to show what converting a unit left behind.
fn rounded(value: f64) -> f64 {
    format!("{value:.5e}").parse().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::rounded;

    #[test]
    fn conversion_leaves_no_digits() {
        assert_eq!(rounded(0.1 + 0.2).to_string(), "0.3");
        assert_eq!(rounded(105.991_777_5).to_string(), "105.992");
    }
}
