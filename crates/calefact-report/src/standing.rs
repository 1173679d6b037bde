//! How the differences of a quantity stand, and which of them matter most. The words for it are in
//! [`words`](crate::words).

use crate::pick;
use calefact_analysis::result::{Comparison, Contrast, ContrastKind, Trend, VerdictKind};
use calefact_analysis::{Better, Quantity};

/// How the differences of a quantity stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Standing {
    /// Every pair is told apart, or shown to be the same within the margin, at least one told apart.
    Settled,
    /// Some pairs are settled.
    Partly {
        /// Pairs told apart or the same within the margin.
        settled: usize,
        /// All pairs.
        pairs: usize,
    },
    /// All pairs are the same within the margin.
    Same,
    /// No pair is settled.
    Open,
    /// No pair is settled, because other columns change together with the factor.
    Confounded,
}

/// The trend of a quantity along the factor itself, where its levels are numbers.
pub(crate) fn own_trend(comparison: &Comparison, quantity: Quantity) -> Option<&Trend> {
    comparison.trends.iter().find(|t| t.quantity == quantity && t.factor == comparison.factor)
}

/// The differences of a quantity, one a pair; a ratio of the same pair has the same verdict.
pub(crate) fn differences(comparison: &Comparison, quantity: Quantity) -> Vec<&Contrast> {
    let is_wanted = |c: &&Contrast| c.quantity == quantity && c.kind == ContrastKind::Difference;
    comparison.contrasts.iter().filter(is_wanted).collect()
}

/// How the differences of a quantity stand; `None` without any.
pub(crate) fn standing(comparison: &Comparison, quantity: Quantity) -> Option<Standing> {
    if let Some(trend) = own_trend(comparison, quantity) {
        return Some(match (trend.confounded.is_empty(), trend.follows()) {
            (false, _) => Standing::Confounded,
            (true, true) => Standing::Settled,
            (true, false) => Standing::Open,
        });
    }
    let pairs = differences(comparison, quantity);
    let count = |wanted: &[VerdictKind]| pairs.iter().filter(|c| wanted.contains(&c.verdict)).count();
    let apart = count(&[VerdictKind::Above, VerdictKind::Below]);
    let same = count(&[VerdictKind::Equivalent]);
    let confounded = count(&[VerdictKind::Confounded]);
    match (pairs.len(), apart, same) {
        (0, ..) => None,
        (n, 0, same) if same == n => Some(Standing::Same),
        (_, 0, 0) if confounded > 0 => Some(Standing::Confounded),
        (_, 0, 0) => Some(Standing::Open),
        (n, apart, same) if apart + same == n => Some(Standing::Settled),
        (pairs, apart, same) => Some(Standing::Partly { settled: apart + same, pairs }),
    }
}

/// Columns that change together with the factor, in any pair or in the trend of the quantity.
pub(crate) fn confounding_columns(comparison: &Comparison, quantity: Quantity) -> Vec<&str> {
    let pairs = differences(comparison, quantity).into_iter().flat_map(|c| &c.confounded).map(|c| c.column.as_str());
    let trend = own_trend(comparison, quantity).into_iter().flat_map(|t| &t.confounded).map(String::as_str);
    let mut columns: Vec<&str> = Vec::new();
    for column in pairs.chain(trend) {
        if !columns.contains(&column) {
            columns.push(column);
        }
    }
    columns
}

/// The pairs that matter first: all of up to three levels, else the best level against each other one.
pub(crate) fn main_pairs(comparison: &Comparison, quantity: Quantity) -> Vec<&Contrast> {
    let mut pairs = differences(comparison, quantity);
    if comparison.levels.len() > 3 && quantity.better() != Better::Neither {
        let best = pick::best_first(comparison, quantity).first().and_then(|g| pick::single_level(g));
        pairs.retain(|c| best.is_some_and(|b| c.a == b || c.b == b));
    }
    pairs.sort_by_key(|c| {
        matches!(c.verdict, VerdictKind::NoConclusion | VerdictKind::NotYet | VerdictKind::Confounded)
    });
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn a_trend_along_the_factor_takes_the_place_of_pairs() {
        let mut comparison = fixture::analysis().comparisons.remove(0);
        comparison.trends[0].factor = comparison.factor.clone();
        assert_eq!(standing(&comparison, Quantity::ThermalEfficiency), Some(Standing::Settled));
    }

    #[test]
    fn of_many_levels_the_best_is_held_against_the_others() {
        let mut comparison = fixture::analysis().comparisons.remove(0);
        comparison.levels.push("fourth".into());
        let pairs = main_pairs(&comparison, Quantity::ThermalEfficiency);
        assert!(pairs.len() == 2 && pairs.iter().all(|c| c.a == "rocket" || c.b == "rocket"));
    }
}
