//! Remarks on trials whose logs differ in kind, and on results that are left out on one side alone.

use super::outcome::{Outcome, Question};
use super::sample::Sample;
use crate::Quantity;
use crate::fact::Lack;
use crate::result::{Gap, Remark, TrialSummary};
use std::collections::BTreeMap;

/// Beginning of the names of sources that stand for what few readings leave open.
const FEW: &str = "few-readings:";

/// Quantities that rest on few readings in some of the trials and not in the others.
pub(crate) fn few(question: Question<'_>, chosen: &[&TrialSummary], outcomes: &[Outcome]) -> Option<Remark> {
    let counts = outcomes.iter().map(|outcome| {
        let sample = Sample::new(question.request, chosen, outcome.quantity);
        let few = sample.values.iter().filter(|v| question.shared.rests_on(**v, FEW)).count();
        (outcome.quantity, few, sample.len())
    });
    let mixed: Vec<(Quantity, usize, usize)> = counts.filter(|(_, few, of)| (1..*of).contains(few)).collect();
    let &(_, few, of) = mixed.first()?;
    Some(Remark::FewReadings { quantities: mixed.into_iter().map(|(quantity, ..)| quantity).collect(), few, of })
}

/// Quantities that trials lack because their effectiveness came out as high as it can be.
pub(crate) fn one_sided(chosen: &[&TrialSummary], trials: &[TrialSummary], gaps: &[Gap]) -> Vec<Remark> {
    let mut lacking: BTreeMap<Quantity, Vec<String>> = BTreeMap::new();
    for gap in gaps.iter().filter(|g| g.lacks.iter().any(|lack| matches!(lack, Lack::Transfer { .. }))) {
        let all = gap.trials.iter().map(|place| &trials[*place].trial);
        let here = all.filter(|id| chosen.iter().any(|t| t.trial == **id)).map(ToString::to_string);
        lacking.entry(gap.quantity).or_default().extend(here);
    }
    // Conductance by area lacks what conductance lacks.
    lacking.remove(&Quantity::ExchangerConductanceArea);
    let remark = |(quantity, trials)| Remark::OneSided { quantity, trials };
    lacking.into_iter().filter(|(_, trials)| !trials.is_empty()).map(remark).collect()
}
