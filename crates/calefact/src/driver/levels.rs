//! Numeric register columns as levels of a factor.

use calefact_data::{RegisterRow, Water};

/// The numeric columns.
const NUMERIC: [&str; 7] =
    ["water", "fuel_mass", "fuel_moisture", "kindling_mass", "heater_power", "ambient", "altitude"];

/// Adds the numeric columns of a row to the columns kept as written, with their unit, so that they can be named as factors:
/// a heater power of 50 W becomes the level `50 W`. A further column of the same name stays.
pub(super) fn add(row: &mut RegisterRow) {
    let water = match row.water {
        Water::Volume(v) => (v * 1e3, "L"),
        Water::Mass(m) => (m, "kg"),
    };
    let percent = row.fuel_moisture.map(|m| (m * 1e2, "%"));
    let values = [
        Some(water),
        row.fuel_mass.map(|v| (v, "kg")),
        percent,
        row.kindling_mass.map(|v| (v, "kg")),
        row.heater_power.map(|v| (v, "W")),
        row.ambient.map(|v| (v, "degC")),
        row.altitude.map(|v| (v, "m")),
    ];
    for (name, value) in NUMERIC.into_iter().zip(values) {
        if let Some((value, unit)) = value {
            row.extra.entry(name.to_string()).or_insert_with(|| format!("{} {unit}", rounded(value)));
        }
    }
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
