//! Columns whose instrument states no tolerance, in words.

use super::{Wording, list};
use calefact_data::apparatus::Tolerance;

/// The columns that count as exact for want of a tolerance.
pub(super) fn missing(w: &Wording<'_>, columns: &[&str]) -> String {
    let names: Vec<String> = columns.iter().map(|column| w.column(column)).collect();
    let count = if names.len() == 1 { "which counts" } else { "which count" };
    format!("no instrument states the tolerance of {}, {count} as exact, so intervals are too narrow", list(&names))
}

/// "no instrument states a tolerance; assumed: 1.5 K for `tank`, 3 % of the reading for `water`".
pub(super) fn assumed(w: &Wording<'_>, columns: &[(&str, Tolerance)]) -> String {
    let limit = |column: &str, tolerance: Tolerance| match tolerance {
        Tolerance::OfReading(share) => format!("{} of the reading", w.percent(share)),
        Tolerance::Absolute(points) if column == "fuel_moisture" => {
            w.typography.join(&w.typography.fixed(100.0 * points, 0), "percentage points")
        }
        Tolerance::Absolute(kelvin)
        | Tolerance::Standard(kelvin)
        | Tolerance::GreaterOf(kelvin, _)
        | Tolerance::SumOf(kelvin, _) => w.temperature_difference(kelvin, 1),
    };
    let taken = columns.iter().map(|(column, t)| format!("{} for {}", limit(column, *t), w.column(column)));
    format!("no instrument states a tolerance; assumed: {}", taken.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_named_with_the_limit_that_is_taken() {
        let w = Wording::plain();
        assert_eq!(
            missing(&w, &["water", "fuel_moisture"]),
            "no instrument states the tolerance of `water` and `fuel_moisture`, which count as exact, so intervals are too narrow"
        );
        let columns = [
            ("tank", Tolerance::Absolute(1.5)),
            ("water", Tolerance::OfReading(0.03)),
            ("fuel_moisture", Tolerance::Absolute(0.03)),
        ];
        assert_eq!(
            assumed(&w, &columns),
            "no instrument states a tolerance; assumed: 1.5 K for `tank`, 3 % of the reading for `water`, 3 percentage points for `fuel_moisture`"
        );
    }
}
