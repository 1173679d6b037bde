//! From a plan to a trial: its register row, its readings, its truth.

use super::error::SimulationError;
use super::forward::Forward;
use super::observe::{displayed, register_row};
use super::plan::TrialPlan;
use super::rig::Rig;
use super::truth::{Truth, truth};
use calefact_data::{Readings, RegisterRow};

/// An invented trial.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SimulatedTrial {
    /// Register row as the instruments show it, SI.
    pub(crate) row: RegisterRow,
    /// Readings as the instruments show them, SI.
    pub(crate) readings: Readings,
    /// True quantities over the whole log, in [`Quantity::unit`](calefact_analysis::Quantity::unit).
    pub(crate) truth: Truth,
}

impl Rig<'_> {
    /// Makes the trial of a plan. The errors of the instruments are this rig's own, the same in every trial.
    ///
    /// # Errors
    /// A plan that names no apparatus, boils the tank, or takes more heat than the fuel has.
    pub(crate) fn trial(&self, plan: &TrialPlan) -> Result<SimulatedTrial, SimulationError> {
        let forward = Forward::new(self, plan)?;
        Ok(SimulatedTrial {
            row: register_row(self, &forward),
            readings: displayed(self, plan, &forward.readings()),
            truth: truth(self, &forward)?,
        })
    }

    /// The truth of a plan alone, without readings.
    ///
    /// # Errors
    /// As [`Rig::trial`].
    pub(crate) fn truth(&self, plan: &TrialPlan) -> Result<Truth, SimulationError> {
        truth(self, &Forward::new(self, plan)?)
    }
}
