//! Which assumed inputs a value rests on.

use crate::fact::{AssumedInput, ErrorSource};
use calefact_stats::Source;
use std::collections::BTreeMap;

/// Share of the variance below which a value does not rest on an input: that of a source which a budget does not list.
const MATTERS: f64 = 0.001;

/// Assumed inputs that hold a part of a value, each with its share of the variance, in the order of the table of ranges. All
/// sources of an input count together.
pub(crate) fn shares<'p>(
    parts: impl IntoIterator<Item = &'p (Source, f64)>,
    std_uncertainty: f64,
) -> BTreeMap<AssumedInput, f64> {
    let mut shares = BTreeMap::new();
    for (source, part) in parts {
        if !source.starts_with("assumed:") || std_uncertainty <= 0.0 {
            continue;
        }
        if let Some(input) = ErrorSource::from_key(source).assumed_input() {
            *shares.entry(input).or_insert(0.0) += (part / std_uncertainty).powi(2);
        }
    }
    shares.retain(|_, share| *share >= MATTERS);
    shares
}

/// The inputs alone.
pub(crate) fn inputs<'p>(
    parts: impl IntoIterator<Item = &'p (Source, f64)>,
    std_uncertainty: f64,
) -> Vec<AssumedInput> {
    shares(parts, std_uncertainty).into_keys().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_stats::UncertainValue;

    #[test]
    fn an_input_counts_with_all_its_sources_and_only_where_it_matters() {
        let value = UncertainValue::new(1.0, "instrument:x:gain", 1.0)
            .with("assumed:leftover_fuel:box", 0.025)
            .with("assumed:leftover_fuel:rocket", 0.025)
            .with("assumed:kindling_mass:yard", 0.03);
        let u = value.std_uncertainty();
        assert_eq!(inputs(&value.parts, u), [AssumedInput::LeftoverFuel]);
        assert!(inputs(&[], 0.0).is_empty());
    }
}
