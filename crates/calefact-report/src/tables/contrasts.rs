//! `contrasts`: differences and ratios between two levels, with what can be said of each.

use super::ids::ids;
use crate::columns::Table;
use crate::words::method::method_label;
use crate::words::{self, Typography, Units, Wording, comparison_title};
use calefact_analysis::result::{Analysis, ContrastKind, SampleSizeAdvice, VerdictKind};

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.comparisons.iter().flat_map(|k| k.contrasts.iter().map(move |c| (k, c)));
    let w = Wording::of_analysis(analysis, Units::Metric, Typography::Plain);
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
        .number(
            "p_adjusted",
            "1",
            "p-value adjusted for all verdicts of the page, which decides; of a ratio, that of its difference",
            rows().map(|r| r.1.p_adjusted),
        )
        .text(
            "adjustment",
            "name of the adjustment for the pairs of a quantity, which the interval has",
            rows().map(|r| r.1.adjustment.name()),
        )
        .text(
            "verdict",
            "above, below, equivalent, no-conclusion, not-yet or confounded (a against b)",
            rows().map(|r| verdict(r.1.verdict)),
        )
        .count(
            "more_trials",
            "further trials per group that would settle it",
            rows().map(|r| r.1.sample_size.as_ref().and_then(SampleSizeAdvice::further_trials).map(u64::from)),
        )
        .number("std_uncertainty", "as `unit`", "standard uncertainty", rows().map(|r| r.1.estimate.std_uncertainty))
        .number("dof", "1", "effective degrees of freedom", rows().map(|r| r.1.estimate.dof))
        .text("method", "how value and uncertainty were obtained", rows().map(|r| method_label(&r.1.method)))
        .count("n_a", "trials behind the first level", rows().map(|r| Some(r.1.n.0 as u64)))
        .count("n_b", "trials behind the second level", rows().map(|r| Some(r.1.n.1 as u64)))
        .text(
            "comparison",
            "comparison the contrast belongs to",
            rows().map(|r| comparison_title(&Wording::plain(), r.0)),
        )
        .number("p_pairs", "1", "p-value adjusted for the pairs of the quantity alone", rows().map(|r| r.1.p_pairs))
        .text(
            "role",
            "main: carries the verdict of the comparison; secondary: one of its other quantities",
            rows().map(|r| if r.1.main { "main" } else { "secondary" }),
        )
        .text(
            "confounded_with",
            "columns that change together with the two levels, separated by blanks",
            rows().map(|r| r.1.confounded.iter().map(|c| c.column.as_str()).collect::<Vec<_>>().join(" ")),
        )
        .text("sentence", "the verdict in words", rows().map(|r| words::verdict::verdict(&w, r.0, r.1)))
        .text("assumed", "inputs that nobody recorded and the contrast rests on", rows().map(|r| ids(&r.1.assumed)))
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
        VerdictKind::NotYet => "not-yet",
        VerdictKind::Confounded => "confounded",
    }
}
