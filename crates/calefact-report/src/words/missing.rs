//! What an analysis cannot give, in lines for page and terminal: the quantities, the reason, the trials.

use super::gap::lacks;
use super::quantity::{quantity_name, short_quantity_name};
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
    reasons.iter().map(|reason| message(w, reason, &reasons)).collect()
}

/// Lack of the quantity; where the same trials have no steady part, that alone, since nothing can be logged in it.
fn root<'a>(analysis: &'a Analysis, gap: &'a Gap) -> &'a [Lack] {
    let of_steady = |l: &Lack| matches!(l, Lack::SteadyPart | Lack::Column(_) | Lack::FlowOrOutlet);
    let no_steady = |other: &&Gap| other.lacks[..] == [Lack::SteadyPart] && other.trials == gap.trials;
    let root = analysis.gaps.iter().find(no_steady).filter(|_| gap.lacks.iter().all(of_steady));
    &root.unwrap_or(gap).lacks
}

fn message(w: &Wording<'_>, reason: &Reason<'_>, all: &[Reason<'_>]) -> Message {
    let mut shorts: Vec<&str> = reason.quantities.iter().map(|q| short_quantity_name(*q)).collect();
    // The forms of one quantity have one short name.
    shorts.dedup();
    let names: Vec<String> = shorts.into_iter().map(|short| name(short, reason, all)).collect();
    let text = format!("{}: {} ({})", capital(&list(&names)), lacks(w, reason.lacks), trial_list(&reason.trials));
    Message { hint: remedies(w, reason.lacks), ..Message::new(text) }
}

/// A short name; where other forms of that quantity lack something else, with what the forms of this reason have in common:
/// "thermal efficiency (credited)".
fn name(short: &str, reason: &Reason<'_>, all: &[Reason<'_>]) -> String {
    let forms = |reason: &Reason<'_>| -> Vec<&'static str> {
        let named = reason.quantities.iter().filter(|q| short_quantity_name(**q) == short);
        named
            .filter_map(|q| quantity_name(*q).strip_prefix(short))
            .map(|form| form.trim_matches([' ', '(', ')']))
            .collect()
    };
    let own = forms(reason);
    let is_apart = all.iter().any(|reason| forms(reason).iter().any(|form| !own.contains(form)));
    let in_all = |word: &&str| own.iter().all(|form| form.split(", ").any(|other| other == *word));
    let common: Vec<&str> = own[0].split(", ").filter(in_all).collect();
    if is_apart && !common.is_empty() { format!("{short} ({})", common.join(", ")) } else { short.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;
    use calefact_analysis::fact::Slot;

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

    #[test]
    fn forms_of_a_quantity_that_lack_different_things_are_told_apart() {
        let mut analysis = fixture::analysis();
        let gap = |quantity, lacks: Lack| Gap { quantity, lacks: vec![lacks], trials: vec![0] };
        let (moisture, char) = (Lack::Input(Slot::Moisture), Lack::Input(Slot::LeftoverChar));
        analysis.gaps = vec![
            gap(Quantity::ThermalEfficiency, char),
            gap(Quantity::ThermalEfficiencyGross, char),
            gap(Quantity::ThermalEfficiencyUncredited, moisture),
            gap(Quantity::ThermalEfficiencyGrossUncredited, moisture),
            gap(Quantity::FlueLoss, Lack::SteadyPart),
            gap(Quantity::FlueLoss, Lack::Composition),
        ];
        let heads = |analysis: &Analysis| -> Vec<String> {
            let lines = missing_lines(&Wording::plain(), analysis);
            lines.iter().filter_map(|line| Some(line.split_once(": ")?.0.to_owned())).collect()
        };
        let wanted = ["Thermal efficiency (credited)", "Thermal efficiency (uncredited)", "Flue loss", "Flue loss"];
        assert_eq!(heads(&analysis), wanted);
        analysis.gaps.truncate(2);
        assert_eq!(heads(&analysis), ["Thermal efficiency"]);
    }
}
