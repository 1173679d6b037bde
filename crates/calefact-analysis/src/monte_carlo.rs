//! How many draws a Monte Carlo run makes, by the settings of a pipeline.

use crate::settings::{Propagation, Settings};
use calefact_stats::monte_carlo::{McSettings, MonteCarlo, least_draws};

/// Most draws of a trial: a fraction of a second, and a megabyte for each quantity. Most intervals of 95 % settle to one digit
/// within them.
pub(crate) const MOST_DRAWS: usize = 100_000;

/// The runs that the settings ask for, if they do.
pub(crate) fn runs(settings: &Settings) -> Option<MonteCarlo> {
    let Propagation::MonteCarlo { seed, digits } = settings.propagation else { return None };
    // A run of one block cannot settle.
    let max_trials = MOST_DRAWS.max(2 * least_draws(settings.level));
    Some(MonteCarlo::new(McSettings { confidence: settings.level, digits, seed, max_trials, ..McSettings::default() }))
}
