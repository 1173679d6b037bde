//! Pairwise differences and ratios of the levels of a factor.

use super::groups::Cell;
use super::verdict;
use crate::Quantity;
use crate::result::{Contrast, ContrastKind};
use crate::settings::ComparisonRequest;
use calefact_stats::contrast::{Contrast as Test, ContrastKind as TestKind};
use calefact_stats::multiplicity::Adjustment;
use calefact_stats::{Estimate, SourceBook, welch};

/// All pairs of levels, differences then ratios; each kind is one Holm family. Pairs with a level of one trial are given
/// without test.
pub fn pairwise(
    request: &ComparisonRequest,
    quantity: Quantity,
    cells: &[Cell],
    sources: &SourceBook,
    level: f64,
) -> Vec<Contrast> {
    let mut out = Vec::new();
    for kind in [ContrastKind::Difference, ContrastKind::Ratio] {
        out.extend(family(request, quantity, kind, cells, sources, level));
    }
    out
}

fn family(
    request: &ComparisonRequest,
    quantity: Quantity,
    kind: ContrastKind,
    cells: &[Cell],
    sources: &SourceBook,
    level: f64,
) -> Vec<Contrast> {
    let test_kind = match kind {
        ContrastKind::Difference => TestKind::Difference,
        ContrastKind::Ratio => TestKind::Ratio,
    };
    let pairs = pairs(cells);
    let tested: Vec<(&Cell, &Cell, Test)> = pairs
        .iter()
        .filter_map(|(a, b)| {
            welch::between_groups(test_kind, &a.mean, &b.mean, sources, level).ok().map(|test| (*a, *b, test))
        })
        .collect();
    let tests: Vec<Test> = tested.iter().map(|t| t.2).collect();
    let count = tests.len().max(1) as f64;
    let raw: Vec<f64> = tests.iter().map(|t| t.p_value).collect();
    let adjusted = Adjustment::Holm.p_values(&raw);
    let intervals = Adjustment::Holm.intervals(&tests, level);
    let rows = tested.into_iter().zip(adjusted).zip(intervals);
    rows.map(|(((a, b, test), p_adjusted), interval)| {
        let unit = if kind == ContrastKind::Ratio { "1" } else { quantity.unit() };
        let mut estimate = Estimate::student(
            test.value(),
            unit,
            test.std_uncertainty(),
            test.dof,
            level,
            "Welch, shared errors cancelled",
        );
        estimate.interval = interval;
        let mut contrast = Contrast {
            quantity,
            factor: request.factor.clone(),
            a: a.level.clone(),
            b: b.level.clone(),
            n: (a.n(), b.n()),
            kind,
            estimate,
            p_value: test.p_value,
            p_adjusted,
            adjustment: "holm",
            verdict: crate::result::VerdictKind::NoConclusion,
            sentence: String::new(),
            more_trials: verdict::more_trials(a, b, &test, kind, (1.0 - level) / count),
        };
        verdict::judge(&mut contrast, request, (&a.mean.mean, &b.mean.mean));
        contrast
    })
    .collect()
}

/// All pairs in order, the later level first where it has the higher value is not tried: order is that of the register.
fn pairs(cells: &[Cell]) -> Vec<(&Cell, &Cell)> {
    let mut pairs = Vec::new();
    for (i, a) in cells.iter().enumerate() {
        pairs.extend(cells[i + 1..].iter().map(|b| (a, b)));
    }
    pairs
}
