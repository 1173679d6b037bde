//! Wishes and guesses for the next burns. What a size means depends on the quantity, which is settled when the plan is made.

use calefact_data::toml_source::Table;

/// `[plan]` as it is written; none of it is needed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlanWishes {
    /// Factor of the only comparison that is planned.
    pub factor: Option<String>,
    /// Levels that no burn has yet.
    pub levels: Vec<String>,
    /// Smallest difference that matters.
    pub difference: Option<String>,
    /// Wanted width of an interval.
    pub width: Option<String>,
    /// Guessed scatter between burns.
    pub scatter: Option<String>,
    /// Guessed mean.
    pub mean: Option<String>,
    /// Chance of showing a difference.
    pub power: Option<f64>,
    /// Burns of a day.
    pub burns_per_day: Option<usize>,
    /// Day of the first burn, ISO 8601.
    pub first_day: Option<String>,
    /// Seed of the order.
    pub seed: Option<u64>,
}

/// Reads `[plan]`.
pub(super) fn read(root: &Table<'_>) -> PlanWishes {
    let Some(table) = root.table("plan") else { return PlanWishes::default() };
    let text = |key| table.text(key).map(ToOwned::to_owned);
    PlanWishes {
        factor: text("factor"),
        levels: table.texts("levels"),
        difference: text("difference"),
        width: text("width"),
        scatter: text("scatter"),
        mean: text("mean"),
        power: table.number("power"),
        burns_per_day: table.integer("burns_per_day").and_then(|n| n.try_into().ok()),
        first_day: text("first_day"),
        seed: table.integer("seed").and_then(|n| n.try_into().ok()),
    }
}
