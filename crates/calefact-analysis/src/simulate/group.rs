//! The truth of groups: what the burns of a level would give on average with no scatter.

use super::SimulationError;
use super::plan::TrialPlan;
use super::rig::Rig;
use super::scenario::Scenario;
use crate::Quantity;
use calefact_data::TrialKind;
use std::collections::BTreeMap;

/// True mean of a level.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupTruth {
    /// Factor: `stove`, `fuel`, `exchanger`, or a column with an effect.
    pub factor: String,
    /// Level.
    pub level: String,
    /// Quantity.
    pub quantity: Quantity,
    /// Burns of the level in the design, excluded ones left out.
    pub burns: usize,
    /// Mean of the expected burns of the level, in [`Quantity::unit`].
    pub value: f64,
}

/// True means by level over the burns of a design. The mean of a level carries the other factors as the design has
/// them; differences of levels of an additive quantity (`thermal_efficiency`) in a balanced design are the effects.
///
/// # Errors
/// As [`super::simulate_trial`].
pub fn group_truth(scenario: &Scenario, plans: &[TrialPlan], seed: u64) -> Result<Vec<GroupTruth>, SimulationError> {
    let expected = scenario.expected();
    let rig = Rig::draw(&expected, seed);
    let mut sums: BTreeMap<(String, String, Quantity), (usize, f64)> = BTreeMap::new();
    for plan in plans.iter().filter(|p| p.kind == TrialKind::Burn && p.exclude.is_none()) {
        let trial = rig.trial(plan)?;
        for factor in factors(scenario) {
            let Some(level) = trial.row.level(&factor) else { continue };
            for (&quantity, &value) in &trial.truth {
                let sum = sums.entry((factor.clone(), level.to_owned(), quantity)).or_default();
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

/// Factors of a scenario: the apparatus, then each column with an effect, once.
fn factors(scenario: &Scenario) -> Vec<String> {
    let mut names: Vec<String> = ["stove", "fuel", "exchanger"].map(String::from).to_vec();
    for effect in &scenario.effects {
        if !names.contains(&effect.column) {
            names.push(effect.column.clone());
        }
    }
    names
}
