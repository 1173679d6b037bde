//! Planning the next burns: how many, in which order, what to hold and what to vary, and when to stop.
//!
//! From the comparisons so far, or from stated guesses where there is no burn yet. Steps: `target` for each comparison ->
//! `factors` (what varies, what is held) -> `order` (days, positions, ids). Pure: no file, no sentence. How a pipeline
//! file spells the wishes is the command's business.

mod factors;
mod known;
mod names;
mod order;
mod request;
mod sizes;
mod target;

#[cfg(test)]
mod tests;

pub use request::{Past, PlanRequest, Size};
pub use target::targets;

use crate::result::{CampaignPlan, TargetPlan, Typical};
use calefact_data::TrialKind;
use factors::Factors;

/// Burns listed in an order; a longer list helps nobody.
pub const MOST_ORDERED: u64 = 400;

/// The plan that the request asks for.
pub fn plan(past: &Past<'_>, request: &PlanRequest) -> CampaignPlan {
    let targets = target::targets(past, request);
    let in_order: Vec<&TargetPlan> =
        targets.iter().filter(|t| t.kind == TrialKind::Burn && t.levels.iter().any(|l| l.further > 0)).collect();
    let factors = Factors::new(past, &in_order);
    let burns = factors.burns();
    let order = (burns > 0 && burns <= MOST_ORDERED).then(|| order::order(past, request, &factors));
    let Factors { vary, hold, .. } = factors;
    let vary = if burns > 0 { vary.into_iter().map(|f| (f.column, f.levels)).collect() } else { Vec::new() };
    let hold = if burns > 0 { hold } else { Vec::new() };
    CampaignPlan { targets, order, vary, hold, alike: alike(past), burns }
}

/// The medians of what a burn is set up with.
fn alike(past: &Past<'_>) -> Vec<Typical> {
    let median = |column: &'static str| {
        let mut values: Vec<f64> = past.burns().filter_map(|row| past.setting(row, column)).collect();
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).map(|&value| Typical { column, value })
    };
    ["water", "start_temperature", "fuel_mass", "fuel_moisture"].into_iter().filter_map(median).collect()
}
