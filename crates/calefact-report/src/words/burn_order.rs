//! The order of the next burns in words: how many on which days, what varies, what is held and what is kept alike.

use super::{Wording, list, plural};
use calefact_analysis::result::{BurnOrder, CampaignPlan, Typical};

/// The order, what varies, what is held, and what to keep alike.
pub fn order(w: &Wording<'_>, plan: &CampaignPlan) -> Vec<String> {
    let mut lines = Vec::new();
    match &plan.order {
        Some(order) => lines.push(order_line(order)),
        None if plan.burns > 0 => lines.push(format!(
            "{} burns are too many for an order and a calendar: plan for a larger difference, or with better instruments.",
            plan.burns
        )),
        None => lines.push("No burn is planned.".to_owned()),
    }
    if plan.burns == 0 {
        return lines;
    }
    let vary = plan.vary.iter().map(|(column, levels)| {
        let names: Vec<String> = levels.iter().map(|l| level(w, column, l)).collect();
        format!("{} ({})", w.bare_column(column), list(&names))
    });
    lines.push(format!("Vary {}.", list(&vary.collect::<Vec<_>>())));
    if let Some((column, alone)) = plan.order.as_ref().and_then(only_level) {
        lines.push(format!(
            "Only {} is short of burns, so weather and season stay with it: where you can, make one burn of another level on each of these \
             days too.",
            w.level_of_factor(column, alone)
        ));
    }
    let hold: Vec<String> =
        plan.hold.iter().map(|(column, l)| format!("{} at {}", w.bare_column(column), level(w, column, l))).collect();
    if !hold.is_empty() {
        lines.push(format!("Hold {}.", list(&hold)));
    }
    let alike: Vec<String> = plan.alike.iter().map(|t| typical(w, t)).collect();
    let rest = if alike.is_empty() {
        "the water, its temperature at the start, the charge of wood and its moisture".to_owned()
    } else {
        list(&alike)
    };
    lines.push(format!("Keep alike from burn to burn: {rest}; do all else the same way."));
    lines
}

/// The level of the first column, where all burns have the same one.
fn only_level(order: &BurnOrder) -> Option<(&str, &str)> {
    let first = order.burns.first()?.levels.first()?;
    order.burns.iter().all(|b| b.levels.first() == Some(first)).then_some((&first.0, &first.1))
}

fn order_line(order: &BurnOrder) -> String {
    let (first, last) = (order.burns.first(), order.burns.last());
    let dates = match (first.and_then(|b| b.date.as_ref()), last.and_then(|b| b.date.as_ref())) {
        (Some(from), Some(to)) => format!(", {from} to {to}"),
        _ => String::new(),
    };
    format!(
        "{} on {} of at most {}{dates}. Each day is a block; levels and their places in the day are balanced, the rest is drawn by lot \
         (seed {}). Keep to the order, also where another would be handier.",
        plural(order.burns.len(), "burn"),
        plural(order.days(), "day"),
        order.per_day,
        order.seed
    )
}

/// A level, or that there is none: a blank exchanger is no exchanger.
pub(crate) fn level(w: &Wording<'_>, column: &str, level: &str) -> String {
    if level.is_empty() { "none".to_owned() } else { w.level(column, level) }
}

fn typical(w: &Wording<'_>, typical: &Typical) -> String {
    match typical.column {
        "water" => format!("water about {}", w.volume(typical.value)),
        "start_temperature" => format!("tank at the start about {}", w.temperature(typical.value, 0)),
        "fuel_mass" => format!("wood about {}", w.mass(typical.value)),
        _ => format!("its moisture about {}", w.percent(typical.value)),
    }
}
