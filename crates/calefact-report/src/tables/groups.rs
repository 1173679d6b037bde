//! `groups`: the mean of every group of every comparison, one column for each factor used.

use super::ids::ids;
use crate::columns::Table;
use crate::words::method::method_label;
use crate::words::{Wording, comparison_title};
use calefact_analysis::result::{Analysis, GroupResult};

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.comparisons.iter().flat_map(|c| c.groups.iter().map(move |g| (c, g)));
    let mut table = Table::new("groups");
    for factor in factors(analysis) {
        let levels = rows().map(|(_, g)| level(g, &factor).map(str::to_owned)).collect::<Vec<_>>();
        table =
            table.maybe(factor, "level of this factor; blank where the group is not split by it", levels.into_iter());
    }
    let table = table.text("quantity", "quantity name", rows().map(|r| r.1.quantity.name())).count(
        "n",
        "trials in the group that have the quantity",
        rows().map(|r| Some(r.1.trials.len() as u64)),
    );
    let predict =
        |end: fn(&calefact_stats::Interval) -> f64| rows().map(move |r| r.1.predict.as_ref().map_or(f64::NAN, end));
    table
        .means(rows().map(|r| (&r.1.mean, !r.1.is_one_trial())))
        .number(
            "between_sd",
            "as `unit`",
            "standard deviation between trials; blank for one trial",
            rows().map(|r| r.1.between_sd.unwrap_or(f64::NAN)),
        )
        .number("predict_lower", "as `unit`", "lower end of the interval for the next burn", predict(|p| p.lower))
        .number("predict_upper", "as `unit`", "upper end of the interval for the next burn", predict(|p| p.upper))
        .text("method", "how mean and uncertainty were obtained", rows().map(|r| method_label(&r.1.method)))
        .number(
            "dof",
            "1",
            "effective degrees of freedom",
            rows().map(|r| if r.1.is_one_trial() { f64::NAN } else { r.1.mean.dof }),
        )
        .text("comparison", "comparison the group belongs to", rows().map(|r| comparison_title(&Wording::plain(), r.0)))
        .text("trials", "ids of the trials, separated by blanks", rows().map(|r| r.1.trials.join(" ")))
        .text("assumed", "inputs that nobody recorded and the mean rests on", rows().map(|r| ids(&r.1.assumed())))
}

/// Factors in the order of first use.
fn factors(analysis: &Analysis) -> Vec<String> {
    let mut factors: Vec<String> = Vec::new();
    let used = analysis.comparisons.iter().flat_map(|c| &c.groups).flat_map(|g| &g.levels);
    for (factor, _) in used {
        if !factors.contains(factor) {
            factors.push(factor.clone());
        }
    }
    factors
}

fn level<'a>(group: &'a GroupResult, factor: &str) -> Option<&'a str> {
    group.levels.iter().find(|(f, _)| f == factor).map(|(_, l)| l.as_str())
}
