//! What an analysis cannot give, in lines for page and terminal: the quantities, the reason, the trials.

use super::gap::lacks;
use super::quantity::short_quantity_name;
use super::remedy::remedies;
use super::trial_list::trial_list;
use super::{Message, Wording, capital, list};
use calefact_analysis::Quantity;
use calefact_analysis::fact::Lack;
use calefact_analysis::result::{Analysis, Gap};

/// Quantities and trials that lack them for one reason.
struct Reason<'a> {
    lacks: &'a [Lack],
    quantities: Vec<Quantity>,
    trials: Vec<&'a str>,
}

/// The same as [`missing`], what to write behind the reason.
pub fn missing_lines(w: &Wording<'_>, analysis: &Analysis) -> Vec<String> {
    let line = |message: Message| match message.hint {
        Some(hint) => format!("{}; {hint}", message.text),
        None => message.text,
    };
    missing(w, analysis).into_iter().map(line).collect()
}

/// A message a reason and set of trials, with what to write: "Thermal efficiency: `fuel_mass` is blank (b03, b04)", "fill
/// `fuel_mass` in trials.csv".
pub fn missing(w: &Wording<'_>, analysis: &Analysis) -> Vec<Message> {
    let mut reasons: Vec<Reason<'_>> = Vec::new();
    for gap in &analysis.gaps {
        let trials: Vec<&str> = gap.trials.iter().map(|i| &*analysis.trials[*i].trial).collect();
        let lacks = root(analysis, gap);
        match reasons.iter_mut().find(|r| r.lacks == lacks && r.trials == trials) {
            Some(known) => known.quantities.push(gap.quantity),
            None => reasons.push(Reason { lacks, quantities: vec![gap.quantity], trials }),
        }
    }
    reasons.iter().map(|reason| message(w, reason)).collect()
}

/// Lack of the quantity; where the same trials have no steady part, that alone, since nothing can be logged in it.
fn root<'a>(analysis: &'a Analysis, gap: &'a Gap) -> &'a [Lack] {
    let of_steady = |l: &Lack| matches!(l, Lack::SteadyPart | Lack::Column(_) | Lack::FlowOrOutlet);
    let no_steady = |other: &&Gap| other.lacks[..] == [Lack::SteadyPart] && other.trials == gap.trials;
    let root = analysis.gaps.iter().find(no_steady).filter(|_| gap.lacks.iter().all(of_steady));
    &root.unwrap_or(gap).lacks
}

fn message(w: &Wording<'_>, reason: &Reason<'_>) -> Message {
    let mut names: Vec<&str> = reason.quantities.iter().map(|q| short_quantity_name(*q)).collect();
    // The forms of one quantity have one short name.
    names.dedup();
    let text = format!("{}: {} ({})", capital(&list(&names)), lacks(w, reason.lacks), trial_list(&reason.trials));
    Message { hint: remedies(w, reason.lacks), ..Message::new(text) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn a_log_without_a_steady_part_lacks_all_that_is_read_in_it_for_that_reason() {
        let mut analysis = fixture::analysis();
        let gap = |quantity, lacks: Lack| Gap { quantity, lacks: vec![lacks], trials: vec![0, 1] };
        analysis.gaps = vec![
            gap(Quantity::CoilFlow, Lack::FlowOrOutlet),
            gap(Quantity::SteadyHeatInput, Lack::SteadyPart),
            gap(Quantity::FlueLoss, Lack::Column("flue_after")),
            gap(Quantity::HeatingRate, Lack::WholeRange),
        ];
        let lines = missing_lines(&Wording::plain(), &analysis);
        let start = "Coil water flow, heat flow in the steady part and flue loss: the log shows no steady part";
        assert!(lines.len() == 2 && lines[0].starts_with(start), "{lines:?}");
    }
}
