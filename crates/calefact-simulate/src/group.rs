//! The truth of groups: what the burns of a level would give on average with no scatter.

use super::error::SimulationError;
use super::plan::TrialPlan;
use super::rig::Rig;
use super::scenario::Scenario;
use calefact_analysis::Quantity;
use calefact_data::TrialKind;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// True mean of a level.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GroupTruth {
    /// Factor: `stove`, `fuel`, `exchanger`, or a column with an effect.
    pub(crate) factor: String,
    /// Level.
    pub(crate) level: String,
    /// Quantity.
    pub(crate) quantity: Quantity,
    /// Burns of the level in the design, excluded ones left out.
    pub(crate) burns: usize,
    /// Mean of the expected burns of the level, in [`Quantity::unit`].
    pub(crate) value: f64,
}

/// True means by level over the burns of a design. The mean of a level carries the other factors as the design has
/// them; differences of levels of an additive quantity (`thermal_efficiency`) in a balanced design are the effects.
///
/// # Errors
/// As [`Rig::trial`].
pub(crate) fn group_truth(
    scenario: &Scenario,
    plans: &[TrialPlan],
    seed: u64,
) -> Result<Vec<GroupTruth>, SimulationError> {
    let expected = scenario.expected();
    let rig = Rig::draw(&expected, seed);
    let mut sums: BTreeMap<(String, String, Quantity), (usize, f64)> = BTreeMap::new();
    let burns: Vec<&TrialPlan> = plans.iter().filter(|p| p.kind == TrialKind::Burn && p.exclude.is_none()).collect();
    let truths: Vec<_> = burns.par_iter().map(|plan| rig.truth(plan)).collect::<Result<_, _>>()?;
    for (plan, truth) in burns.iter().zip(truths) {
        for (factor, level) in levels(scenario, plan) {
            for (&quantity, &value) in &truth {
                let sum = sums.entry((factor.clone(), level.clone(), quantity)).or_default();
                *sum = (sum.0 + 1, sum.1 + value);
            }
        }
    }
    let group = |((factor, level, quantity), (burns, sum)): (_, (usize, f64))| {
        let value = sum / burns as f64;
        GroupTruth { factor, level, quantity, burns, value }
    };
    Ok(sums.into_iter().map(group).collect())
}

/// Factors and levels of a burn: the apparatus, then each column with an effect, once.
fn levels(scenario: &Scenario, plan: &TrialPlan) -> Vec<(String, String)> {
    let Some(burn) = &plan.burn else { return Vec::new() };
    let stove = scenario.stoves.get(burn.stove).map(|s| ("stove", s.id.as_str()));
    let fuel = scenario.fuels.get(burn.fuel).map(|f| ("fuel", f.id.as_str()));
    let exchanger = scenario.exchangers.get(burn.exchanger).map(|x| ("exchanger", x.id.as_str()));
    let further = plan.extra.iter().filter(|(column, _)| scenario.effects.iter().any(|e| e.column == **column));
    let further = further.map(|(column, level)| (column.as_str(), level.as_str()));
    let all = [stove, fuel, exchanger].into_iter().flatten().chain(further);
    all.map(|(factor, level)| (factor.to_owned(), level.to_owned())).collect()
}
