//! The truth of a world: of each burn, of each stove's burns on average, and of its next burn.

use super::burns::{Which, plan};
use super::facts::Facts;
use super::reference::{jobs, reference};
use super::spec::{Logs, World};
use crate::error::SimulationError;
use crate::rig::Rig;
use crate::scenario::Scenario;
use calefact_analysis::Quantity;
use std::collections::BTreeMap;

/// True values by the name of the quantity.
type Values = BTreeMap<&'static str, f64>;

/// True values of one burn.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialTruth {
    /// Id of the trial.
    pub trial: String,
    /// Id of its stove.
    pub stove: String,
    /// Values over its whole log.
    pub values: Values,
}

/// The truth of a world.
#[derive(Debug, Clone, PartialEq)]
pub struct WorldTruth {
    /// Of each burn.
    pub trials: Vec<TrialTruth>,
    /// Expected value over the burns of each stove.
    pub means: BTreeMap<String, Values>,
    /// Of a further burn of each stove, which is not written.
    pub next: BTreeMap<String, Values>,
    /// Efficiency per per cent of damper, where it is varied.
    pub damper_slope: Option<f64>,
}

/// Pairs of burns behind an expected value. In a pair everything random lies once on one side of its middle and once on
/// the other (antithetic variates: J. M. Hammersley and K. W. Morton, 1956, from memory), so that what is straight in the
/// draws cancels, and what is left after so many pairs is small against the scatter between burns.
const PAIRS: usize = 16;

/// Expected values of a stove's burns.
pub(super) fn mean(
    world: &World,
    facts: &Facts,
    scenario: &Scenario,
    seed: u64,
    stove: usize,
) -> Result<Values, SimulationError> {
    let mirror = Scenario { scatter: -scenario.scatter, ..scenario.clone() };
    let rigs = [Rig::draw(scenario, seed), Rig::draw(&mirror, seed)];
    let mut sums: BTreeMap<&'static str, (usize, f64)> = BTreeMap::new();
    for number in 0..PAIRS {
        let trial = format!("expected-{stove}-{number}");
        for (rig, mirrored) in rigs.iter().zip([false, true]) {
            for (name, value) in unlogged(world, facts, rig, seed, Which { trial: &trial, stove, number, mirrored })? {
                let sum = sums.entry(name).or_default();
                *sum = (sum.0 + 1, sum.1 + value);
            }
        }
    }
    // A quantity that some burn does not have, such as the rate at a temperature it does not reach, has no expected value.
    let whole = sums.into_iter().filter(|(_, (count, _))| *count == 2 * PAIRS);
    Ok(whole.map(|(name, (count, sum))| (name, sum / count as f64)).collect())
}

/// The truth of a burn that is not written, with all probes.
pub(super) fn unlogged(
    world: &World,
    facts: &Facts,
    rig: &Rig<'_>,
    seed: u64,
    which: Which<'_>,
) -> Result<Values, SimulationError> {
    let logged = World { logs: Logs::Logger, ..world.clone() };
    let plan = plan(&logged, facts, seed, which);
    let mut truth = rig.truth(&plan)?;
    truth.extend(reference(rig, &plan)?);
    let mut values = named(truth);
    values.extend(jobs(rig, &plan)?);
    Ok(values)
}

/// Values by name.
pub(super) fn named(truth: BTreeMap<Quantity, f64>) -> Values {
    truth.into_iter().map(|(quantity, value)| (quantity.name(), value)).collect()
}
