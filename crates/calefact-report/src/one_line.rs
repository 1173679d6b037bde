//! A comparison in one line: the means of its main quantity, best first, and whether the differences are settled.

use crate::charts::headline;
use crate::pick;
use crate::readable::Readable;
use calefact_analysis::result::{Comparison, Contrast, ContrastKind, Trend, VerdictKind};
use calefact_analysis::{Better, Quantity};

/// Levels named in the line.
const NAMED: usize = 6;

/// How the differences of a quantity stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Standing {
    /// Every pair is told apart, or shown to be the same within the margin, at least one told apart.
    Settled,
    /// So many pairs of so many.
    Partly(usize, usize),
    /// All pairs are the same within the margin.
    Same,
    /// No pair is settled.
    Open,
}

impl Standing {
    /// The same in words.
    pub(crate) fn words(self) -> String {
        match self {
            Self::Settled => "settled".to_owned(),
            Self::Partly(settled, all) => format!("{settled} of {all} pairs settled"),
            Self::Same => "the same within the margin".to_owned(),
            Self::Open => "not settled".to_owned(),
        }
    }
}

/// "stove: thermal efficiency rocket 49 %, box 33 %; settled".
pub fn one_line(comparison: &Comparison) -> Option<String> {
    let quantity = *pick::quantities(comparison).first()?;
    if let Some(trend) = own_trend(comparison, quantity) {
        return Some(format!("{}: {}", comparison.title, headline::small(&trend.sentence)));
    }
    let standing = standing(comparison, quantity).map_or_else(String::new, |s| format!("; {}", s.words()));
    let name = headline::short(quantity);
    Some(format!("{}: {name} {}{standing}", comparison.title, means(comparison, quantity)))
}

/// The trend of a quantity along the factor itself, where its levels are numbers.
pub(crate) fn own_trend(comparison: &Comparison, quantity: Quantity) -> Option<&Trend> {
    comparison.trends.iter().find(|t| t.quantity == quantity && t.factor == comparison.factor)
}

/// Whether an interval leaves out zero.
pub(crate) fn follows(trend: &Trend) -> bool {
    !trend.estimate.interval.contains(0.0)
}

/// Means by level, the best first.
fn means(comparison: &Comparison, quantity: Quantity) -> String {
    let groups = pick::best_first(comparison, quantity);
    let word = |g: &&calefact_analysis::result::GroupResult| {
        format!(
            "{} {}",
            pick::group_name(g),
            Readable::of_estimate(quantity, &g.mean).show(&g.mean).with_unit().replace('\u{a0}', " ")
        )
    };
    let mut words: Vec<String> = groups.iter().take(NAMED).map(word).collect();
    if groups.len() > NAMED {
        words.push(format!("{} more", groups.len() - NAMED));
    }
    words.join(", ")
}

/// The differences of a quantity, one a pair; a ratio of the same pair says the same.
pub(crate) fn differences(comparison: &Comparison, quantity: Quantity) -> Vec<&Contrast> {
    let of = |c: &&Contrast| c.quantity == quantity && c.kind == ContrastKind::Difference;
    comparison.contrasts.iter().filter(of).collect()
}

/// How the differences of a quantity stand; `None` without any.
pub(crate) fn standing(comparison: &Comparison, quantity: Quantity) -> Option<Standing> {
    if let Some(trend) = own_trend(comparison, quantity) {
        return Some(if follows(trend) { Standing::Settled } else { Standing::Open });
    }
    let pairs = differences(comparison, quantity);
    let count = |wanted: &[VerdictKind]| pairs.iter().filter(|c| wanted.contains(&c.verdict)).count();
    let apart = count(&[VerdictKind::Above, VerdictKind::Below]);
    let same = count(&[VerdictKind::Equivalent]);
    match (pairs.len(), apart, same) {
        (0, ..) => None,
        (n, 0, same) if same == n => Some(Standing::Same),
        (_, 0, 0) => Some(Standing::Open),
        (n, apart, same) if apart + same == n => Some(Standing::Settled),
        (n, apart, same) => Some(Standing::Partly(apart + same, n)),
    }
}

/// The pairs that matter first: all of up to three levels, else the best level against each other one.
pub(crate) fn main_pairs(comparison: &Comparison, quantity: Quantity) -> Vec<&Contrast> {
    let mut pairs = differences(comparison, quantity);
    if comparison.levels.len() > 3 && quantity.better() != Better::Neither {
        let best = pick::best_first(comparison, quantity).first().map(|g| pick::group_name(g));
        pairs.retain(|c| best.as_deref().is_some_and(|b| c.a == b || c.b == b));
    }
    pairs.sort_by_key(|c| c.verdict == VerdictKind::NoConclusion);
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn the_line_says_no_more_than_the_verdicts() {
        let mut comparison = fixture::analysis().comparisons.remove(0);
        assert_eq!(
            one_line(&comparison).unwrap(),
            "stove: thermal efficiency rocket 31.0 %, batch <XL> & long name 27 %, box 18.9 %; 2 of 3 pairs settled"
        );
        comparison.contrasts.iter_mut().for_each(|c| c.verdict = VerdictKind::Above);
        assert!(one_line(&comparison).unwrap().ends_with("; settled"));
        comparison.contrasts.iter_mut().for_each(|c| c.verdict = VerdictKind::NoConclusion);
        assert!(one_line(&comparison).unwrap().ends_with("; not settled"));
        comparison.contrasts.iter_mut().for_each(|c| c.verdict = VerdictKind::Equivalent);
        assert!(one_line(&comparison).unwrap().ends_with("; the same within the margin"));
        comparison.contrasts.clear();
        assert!(one_line(&comparison).unwrap().ends_with("box 18.9 %"));
    }

    #[test]
    fn a_trend_along_the_factor_takes_the_place_of_pairs() {
        let mut comparison = fixture::analysis().comparisons.remove(0);
        comparison.trends[0].factor = comparison.factor.clone();
        let line = one_line(&comparison).unwrap();
        assert!(line.starts_with("stove: thermal efficiency falls with damper: by 0.06 points"), "{line}");
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
