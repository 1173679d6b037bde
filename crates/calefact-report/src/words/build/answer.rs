//! The answer to a build that somebody asks for, or why there is none.

use super::change::{change, place};
use super::summary::clauses;
use crate::words::suggestion::suggestion;
use crate::words::{Measure, Message, Wording, plural, sentence};
use calefact_analysis::result::{BuildForecast, BuildOutcome, BuildRefusal};
use calefact_data::ApparatusKind;

/// Why there is no forecast of a build, and what to do, for the terminal.
pub fn refusal_lines(w: &Wording<'_>, fact: &BuildRefusal) -> Vec<String> {
    let message = refusal(w, fact);
    std::iter::once(format!("error: {}", message.text))
        .chain(message.hint.map(|hint| format!("  hint: {hint}")))
        .collect()
}

/// Why there is no forecast of a build.
fn refusal(w: &Wording<'_>, refusal: &BuildRefusal) -> Message {
    let name = |id: &str| w.apparatus(ApparatusKind::Exchanger, id);
    match refusal {
        BuildRefusal::NoExchangers => Message::new("the datasets describe no exchanger")
            .hint("add an entry such as `[exchangers.coil]` to `dataset.toml`, and name it in the column `exchanger` of the register"),
        BuildRefusal::UnknownExchanger { id, known } => {
            Message::new(format!("unknown exchanger `{id}`")).hint(suggestion(id, known))
        }
        BuildRefusal::NoBurnsOnStove { stove, exchanger, known } => {
            Message::new(format!("no burn of the stove `{stove}` shows the conductance of {}", name(exchanger)))
                .hint(suggestion(stove, known))
        }
        BuildRefusal::NotMeasured { exchanger } => Message::new(format!(
            "no usable burn gives the conductance of {}: other builds of it are not from these data",
            name(exchanger)
        ))
        .hint("log the flue gas before and after the exchanger (`flue_before`, `flue_after`) with the tank"),
        BuildRefusal::NotStated { exchanger, key } => {
            Message::new(format!("the dataset does not state `{key}` of {}", name(exchanger)))
                .hint(format!("give a ratio such as `1.5x`, or add `{key}` to the `build` of the exchanger"))
        }
        BuildRefusal::NotPositive { key, .. } => Message::new(format!("{} must be above zero", key_words(key))),
        BuildRefusal::FlowUnknown { exchanger } => Message::new(format!(
            "the water flow through {} was not logged and does not follow from its temperatures: another flow is not from these data",
            name(exchanger)
        ))
        .hint("log `flow`, or `coil_in` and `coil_out`"),
        BuildRefusal::TooFar { key, times, most } => {
            let number = |x: f64| w.typography.significant(x, 3);
            let from = if *key == "length" { "beyond the builds that were measured" } else { "away from the exchanger as it is" };
            Message::new(format!("{} is a factor of {} {from}: not from these data", key_words(key), number(*times)))
                .hint(format!("stay within a factor of {}", number(*most)))
        }
    }
}

fn key_words(key: &str) -> &'static str {
    match key {
        "length" => "the length of the tube",
        "passes" => "the number of passes",
        _ => "the water flow",
    }
}

/// A number of a forecast and its line on the terminal.
struct Line {
    name: &'static str,
    measure: Measure,
    pick: fn(&BuildForecast) -> Option<&BuildOutcome>,
}

const LINES: [Line; 5] = [
    Line { name: "heat into the water", measure: Measure::HeatFlow, pick: |f| Some(&f.power) },
    Line { name: "times the heat as it is", measure: Measure::Ratio, pick: |f| f.gain.as_ref() },
    Line { name: "effectiveness", measure: Measure::Share, pick: |f| Some(&f.effectiveness) },
    Line { name: "gas after the exchanger", measure: Measure::Temperature, pick: |f| Some(&f.gas_out) },
    Line { name: "water out of it", measure: Measure::Temperature, pick: |f| f.water_out.as_ref() },
];

impl Line {
    /// The line of a forecast, with the exchanger as it is beside it.
    fn words(&self, w: &Wording<'_>, forecast: &BuildForecast, now: Option<&BuildForecast>) -> Option<String> {
        let outcome = (self.pick)(forecast)?;
        let unit = w.unit(self.measure);
        let shown = w.estimate_in(&unit, &outcome.mean);
        let next = outcome.next.as_ref().map(|i| format!("; next burn {}", w.interval_in(&unit, i, &outcome.mean)));
        let as_it_is =
            now.and_then(self.pick).map(|o| format!("; as it is {}", w.estimate_in(&unit, &o.mean).with_unit()));
        Some(format!(
            "  {:<25}{} ({} interval {}{}){}",
            self.name,
            shown.with_unit(),
            w.confidence(outcome.mean.interval.confidence),
            shown.interval,
            next.unwrap_or_default(),
            as_it_is.unwrap_or_default()
        ))
    }
}

/// A forecast for the terminal: one aligned line a number, with the exchanger as it is beside it, then what is to be said of it.
pub fn lines(w: &Wording<'_>, forecast: &BuildForecast, now: Option<&BuildForecast>) -> Vec<String> {
    let place = place(w, forecast.stove.as_deref(), &forecast.exchanger);
    let head = format!("{place}, {}, from {}", change(w, forecast), plural(forecast.burns, "burn"));
    let numbers = LINES.iter().filter_map(|line| line.words(w, forecast, now));
    let clauses = clauses(w, forecast).into_iter().map(|clause| format!("  {}", sentence(&clause)));
    std::iter::once(head).chain(numbers).chain(clauses).collect()
}
