//! `contrasts`: differences and ratios between two levels, with what can be said of each.

use crate::columns::Table;
use calefact_analysis::result::{Analysis, ContrastKind, VerdictKind};

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.comparisons.iter().flat_map(|k| k.contrasts.iter().map(move |c| (k, c)));
    Table::new("contrasts")
        .text("quantity", "quantity name", rows().map(|r| r.1.quantity.name()))
        .text("factor", "factor compared", rows().map(|r| r.1.factor.as_str()))
        .text("a", "first level", rows().map(|r| r.1.a.as_str()))
        .text("b", "second level", rows().map(|r| r.1.b.as_str()))
        .text("kind", "difference (a - b) or ratio (a / b)", rows().map(|r| kind(r.1.kind)))
        .number("value", "as `unit`", "best estimate", rows().map(|r| r.1.estimate.value))
        .text("unit", "unit symbol of the row; 1 for a pure number", rows().map(|r| r.1.estimate.unit.as_ref()))
        .number("lower", "as `unit`", "lower end of the interval", rows().map(|r| r.1.estimate.interval.lower))
        .number("upper", "as `unit`", "upper end of the interval", rows().map(|r| r.1.estimate.interval.upper))
        .number(
            "level",
            "1",
            "coverage probability the interval is meant to have",
            rows().map(|r| r.1.estimate.interval.confidence),
        )
        .number("p_value", "1", "p-value of no difference, unadjusted", rows().map(|r| r.1.p_value))
        .number("p_adjusted", "1", "p-value adjusted for the number of contrasts", rows().map(|r| r.1.p_adjusted))
        .text("adjustment", "name of the adjustment", rows().map(|r| r.1.adjustment))
        .text(
            "verdict",
            "above, below, equivalent or no-conclusion (a against b)",
            rows().map(|r| verdict(r.1.verdict)),
        )
        .count(
            "more_trials",
            "further trials per group that would settle it",
            rows().map(|r| r.1.more_trials.map(u64::from)),
        )
        .number("std_uncertainty", "as `unit`", "standard uncertainty", rows().map(|r| r.1.estimate.std_uncertainty))
        .number("dof", "1", "effective degrees of freedom", rows().map(|r| r.1.estimate.dof))
        .text("method", "how value and uncertainty were obtained", rows().map(|r| r.1.estimate.method.as_ref()))
        .count("n_a", "trials behind the first level", rows().map(|r| Some(r.1.n.0 as u64)))
        .count("n_b", "trials behind the second level", rows().map(|r| Some(r.1.n.1 as u64)))
        .text("comparison", "comparison the contrast belongs to", rows().map(|r| r.0.title.as_str()))
        .text("sentence", "the verdict in words", rows().map(|r| r.1.sentence.as_str()))
}

fn kind(kind: ContrastKind) -> &'static str {
    match kind {
        ContrastKind::Difference => "difference",
        ContrastKind::Ratio => "ratio",
    }
}

fn verdict(verdict: VerdictKind) -> &'static str {
    match verdict {
        VerdictKind::Above => "above",
        VerdictKind::Below => "below",
        VerdictKind::Equivalent => "equivalent",
        VerdictKind::NoConclusion => "no-conclusion",
    }
}
