//! Which trials a report shows one by one, so that all that was found of them is kept; of the others a few words will do.

use crate::charts::{curves, factor_of};
use calefact_analysis::Settings;
use calefact_data::{RegisterRow, TrialKind};
use std::collections::HashMap;

/// Trials of each kind that tables of single trials show, in register order.
pub(crate) const MOST: usize = 200;

/// For each trial, in register order, whether it is shown: the first of each kind, and those whose curves are drawn.
pub fn shown(rows: impl Iterator<Item = RegisterRow>, settings: &Settings) -> Vec<bool> {
    let factor = factor_of(settings);
    let trials: Vec<(TrialKind, Option<String>)> =
        rows.map(|row| (row.kind, row.level(factor).map(ToOwned::to_owned))).collect();
    let mut counts = HashMap::new();
    let among_first = |(kind, _): &(TrialKind, _)| {
        let count = counts.entry(*kind).or_insert(0);
        *count += 1;
        *count <= MOST
    };
    let mut shown: Vec<bool> = trials.iter().map(among_first).collect();
    let drawn = curves::choose(trials.iter().map(|(kind, level)| (*kind, level.as_deref())));
    drawn.sets.iter().flat_map(|set| &set.1).for_each(|trial| shown[*trial] = true);
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::Water;

    #[test]
    fn of_few_trials_all_are_shown_and_of_many_some_of_every_set() {
        let row = |i: usize| {
            let kind = if i % 50 == 7 { TrialKind::StandingLoss } else { TrialKind::Burn };
            let row = RegisterRow::bare(&format!("t{i}"), kind, "log.csv", "drum", Water::Volume(0.16));
            RegisterRow { stove: Some(["box", "rocket"][i / 2500].into()), ..row }
        };
        let rows: Vec<RegisterRow> = (0..5000).map(row).collect();
        assert!(shown(rows[..150].iter().cloned(), &Settings::default()).iter().all(|s| *s));
        let of_many = shown(rows.iter().cloned(), &Settings::default());
        let count = of_many.iter().filter(|s| **s).count();
        assert!((2 * MOST - 100..2 * MOST + 70).contains(&count), "{count}");
        let rockets = rows.iter().zip(&of_many).filter(|(r, s)| **s && r.level("stove") == Some("rocket"));
        assert!(rockets.count() > 20);
    }
}
