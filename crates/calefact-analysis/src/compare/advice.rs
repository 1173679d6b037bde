//! What would narrow the intervals of a comparison, in a line or two: more burns, or which better instrument.

use super::sentence::{capital, name};
use crate::result::{Comparison, GroupResult};
use calefact_stats::ErrorSources;
use std::collections::BTreeMap;

/// Share of the variance below which a better instrument would not be noticed.
const NOT_WORTH_IT: f64 = 0.02;
/// How many sources are named as not worth it.
const MOST_NAMED: usize = 4;
/// Scatter above this share of the variance: more burns help most.
const MOST: f64 = 0.6;
/// Scatter below this share: more burns hardly help.
const LITTLE: f64 = 0.2;

/// Advice on the main quantity of a comparison, from the variances of its level means, averaged. An instrument counts with
/// all its errors together.
pub fn of(comparison: &Comparison, sources: &ErrorSources) -> Vec<String> {
    let Some(quantity) = comparison.groups.first().map(|g| g.quantity) else { return Vec::new() };
    let groups: Vec<&GroupResult> = comparison.groups.iter().filter(|g| g.quantity == quantity).collect();
    let (scatter, shared) = shares(&groups, sources);
    let Some(top) = shared.first() else { return Vec::new() };
    let head = capital(&format!("{}, {}", comparison.title, name(quantity)));
    let scatter = groups.iter().any(|g| g.trials.len() > 1).then_some(scatter);
    if scatter.is_none() && !comparison.trends.is_empty() {
        // The scatter about the trend is known, but in no group.
        return Vec::new();
    }
    let mut lines = vec![format!("{head}: {}", what_helps(scatter, top))];
    lines.extend(idle(&shared).map(|list| format!("{} would not help {} noticeably", capital(&list), name(quantity))));
    lines
}

/// Instruments whose errors are not noticed, with "A better" before them.
fn idle(shared: &[(Origin, f64)]) -> Option<String> {
    let small = shared.iter().filter(|(origin, share)| origin.instrument && *share < NOT_WORTH_IT);
    let mut names: Vec<&str> = small.map(|(origin, _)| origin.name.as_str()).take(MOST_NAMED).collect();
    names.sort_unstable();
    (!names.is_empty()).then(|| format!("a better {}", names.join(" or ")))
}

/// The first line: more burns, and the largest shared source with what halving its error would bring. Where nothing was
/// repeated the scatter is unknown.
fn what_helps(scatter: Option<f64>, (origin, share): &(Origin, f64)) -> String {
    let Some(scatter) = scatter else {
        return "repeat a trial first: without repeats the scatter between trials is unknown and in no interval"
            .to_owned();
    };
    let percent = 100.0 * scatter;
    if *share < NOT_WORTH_IT {
        return format!("only more burns help, their scatter is {percent:.0} % of the variance");
    }
    let burns = match scatter {
        s if s >= MOST => format!("more burns help most, their scatter is {percent:.0} % of the variance"),
        s if s >= LITTLE => format!("more burns help, their scatter is {percent:.0} % of the variance"),
        _ => format!("more burns would hardly help, their scatter is {percent:.0} % of the variance"),
    };
    let narrower = 100.0 * (1.0 - (1.0 - 0.75 * share).sqrt());
    format!(
        "{burns}; half the error of {} ({:.0} % of the variance) would make the intervals of the means {narrower:.0} % \
         narrower",
        origin.words(),
        100.0 * share
    )
}

/// Share of the scatter between trials, and of each other origin, largest first: averages over the groups.
fn shares(groups: &[&GroupResult], sources: &ErrorSources) -> (f64, Vec<(Origin, f64)>) {
    let mut scatter = 0.0;
    let mut by_origin: BTreeMap<Origin, f64> = BTreeMap::new();
    let weight = 1.0 / groups.len() as f64;
    for group in groups {
        let variance = group.traced.std_uncertainty().powi(2);
        for (source, part) in group.traced.parts.iter().filter(|_| variance > 0.0) {
            let share = weight * part * part / variance;
            match sources.get(source) {
                Some(_) if source.starts_with("scatter:") => scatter += share,
                Some(info) if info.shared => *by_origin.entry(Origin::of(source, &info.label)).or_insert(0.0) += share,
                _ => {}
            }
        }
    }
    let mut shared: Vec<(Origin, f64)> = by_origin.into_iter().collect();
    shared.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    (scatter, shared)
}

/// Where a shared error comes from: an instrument with all its errors, or another input.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Origin {
    instrument: bool,
    name: String,
}

impl Origin {
    /// From a source's name and label, which for an instrument is "Hanging scale: gain".
    pub(super) fn of(source: &str, label: &str) -> Self {
        let instrument = source.starts_with("instrument:");
        let name = if instrument { label.split_once(": ").map_or(label, |(name, _)| name) } else { label };
        Self { instrument, name: uncapital(name) }
    }

    /// In running text: "the hanging scale", "the calorific value of spruce".
    pub(super) fn words(&self) -> String {
        format!("the {}", self.name)
    }
}

/// Small first letter, unless the word is an abbreviation.
fn uncapital(text: &str) -> String {
    let mut letters = text.chars();
    let (first, rest) = (letters.next(), letters.as_str());
    let plain_word = rest.chars().next().is_some_and(char::is_lowercase);
    match first {
        Some(first) if plain_word => first.to_lowercase().chain(rest.chars()).collect(),
        _ => text.to_owned(),
    }
}
