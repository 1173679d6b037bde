//! The combinations that stand side by side where a job is shown at a glance: one for each stove, with the same fuel and exchanger
//! where all have burnt them; of one stove, one for each exchanger or fuel.

use calefact_analysis::result::{Combination, Forecasts};

/// Levels side by side.
const MOST: usize = 5;

/// The combinations at a glance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Leaders<'a> {
    /// Column whose levels stand side by side.
    pub(crate) factor: &'static str,
    /// Numbers of the combinations, in the order of their first burn.
    pub(crate) chosen: Vec<usize>,
    /// Levels of the other columns, where all chosen have the same.
    pub(crate) common: Option<Levels<'a>>,
    /// Levels that have burns.
    pub(crate) all: usize,
}

/// Levels by column, those that are named.
pub(crate) type Levels<'a> = Vec<(&'static str, &'a str)>;

/// Level of a combination in a column.
pub(crate) fn level<'a>(c: &'a Combination, column: &str) -> Option<&'a str> {
    match column {
        "stove" => c.stove.as_deref(),
        "fuel" => c.fuel.as_deref(),
        _ => c.exchanger.as_deref(),
    }
}

const COLUMNS: [&str; 3] = ["stove", "exchanger", "fuel"];

/// The combinations at a glance; none without burns.
pub(crate) fn leaders(forecasts: &Forecasts) -> Option<Leaders<'_>> {
    let all = &forecasts.combinations;
    let factor = COLUMNS.into_iter().find(|c| levels(all, c).len() > 1).unwrap_or(COLUMNS[0]);
    let pairs: Vec<Levels<'_>> = all.iter().map(|c| others(c, factor)).collect();
    let weight = |pair: &Levels<'_>| {
        let own = all.iter().filter(|c| others(c, factor) == *pair);
        own.fold((0, 0), |(levels, burns), c| (levels + 1, burns + c.trials.len()))
    };
    let first = |best: Option<usize>, i: usize| best.filter(|b| weight(&pairs[*b]) >= weight(&pairs[i])).or(Some(i));
    let usual = &pairs[(0..pairs.len()).fold(None, first)?];
    let levels = levels(all, factor);
    let choose = |wanted: Option<&str>| {
        let own = || (0..all.len()).filter(|i| level(&all[*i], factor) == wanted);
        own()
            .find(|i| pairs[*i] == *usual)
            .or_else(|| own().max_by_key(|i| (all[*i].trials.len(), std::cmp::Reverse(*i))))
    };
    let chosen: Vec<usize> = levels.iter().copied().filter_map(choose).take(MOST).collect();
    let common = chosen.iter().all(|i| pairs[*i] == *usual).then(|| usual.clone());
    Some(Leaders { factor, chosen, common, all: levels.len() })
}

/// Levels of a column in the order of their first burn.
fn levels<'a>(all: &'a [Combination], column: &str) -> Vec<Option<&'a str>> {
    let mut found = Vec::new();
    for level in all.iter().map(|c| level(c, column)) {
        if !found.contains(&level) {
            found.push(level);
        }
    }
    found
}

/// Levels in the other columns.
fn others<'a>(c: &'a Combination, factor: &str) -> Levels<'a> {
    COLUMNS
        .into_iter()
        .filter(|column| *column != factor)
        .filter_map(|column| Some((column, level(c, column)?)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn stoves_stand_side_by_side_with_the_fuel_that_both_have_burnt() {
        let mut forecasts = fixture::analysis().forecasts;
        let found = leaders(&forecasts).unwrap();
        assert_eq!((found.factor, &found.chosen[..], found.all), ("stove", &[2, 1][..], 2));
        assert_eq!(found.common, Some(vec![("fuel", "spruce")]));
        forecasts.combinations[2].fuel = Some("beech".into());
        let found = leaders(&forecasts).unwrap();
        assert_eq!(
            (&found.chosen[..], found.common),
            (&[2, 1][..], None),
            "no fuel in common: each with its most burns"
        );
        forecasts.combinations.retain(|c| c.stove.as_deref() == Some("box"));
        assert_eq!(leaders(&forecasts).unwrap().factor, "fuel", "one stove");
        forecasts.combinations.clear();
        assert_eq!(leaders(&forecasts), None);
    }
}
