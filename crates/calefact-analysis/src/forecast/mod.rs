//! Forecasts of jobs not done yet: wood, time and cost for every stove, fuel and exchanger that has burns.
//!
//! Each burn has a law (`reduce/law.rs`): steady heat flow P, time c for light-up, burn-down and after-heat, wood burnt by time
//! m, moisture. A combination's law is the mean over its burns. A job takes the time c + s and the wood m s, where s is the
//! time in which P heats the job's water and vessel against the loss of the vessel ([`outcome`]).
//!
//! Intervals are quantiles of that one function over the draws of the law ([`draws`]): of the mean of many burns, and of one
//! next burn. Errors that burns share are shared draws; the scatter between burns is drawn so that whatever is straight in the
//! law has the interval of Student's t. A page can repeat all of it from the draws for a job of its own: it needs `outcome`,
//! `Beyond::new` and `quantile`, and the heat of water (IAPWS SR6-08, powers of the temperature alone).
//!
//! Beyond the data the answer stands on the physics alone, and is widened by what no burn shows ([`outcome::LIMITS`]).

mod answer;
mod case;
mod combination;
pub mod draws;
pub mod outcome;
mod ranking;
mod rebuilt;
mod spread;
mod vessel;

use crate::fact::ForecastFact;
use crate::finding::Finding;
use crate::result::{Combination, Forecasts, JobForecast, OwnJob, Refusal, TrialSummary, VesselDraws};
use crate::settings::{Job, JobVessel, Settings};
use crate::shared::SharedSources;
use calefact_data::Apparatus;
use calefact_physics::air;
use std::borrow::Cow;

pub use case::Beyond;
pub(crate) use combination::ENOUGH;
pub use ranking::least_wood;
pub use rebuilt::with_build;
pub use spread::quantile;

/// Forecasts of the jobs of the settings; of the reference job where they name none.
pub(crate) fn forecasts(
    settings: &Settings,
    apparatus: &Apparatus,
    shared: &SharedSources,
    trials: &[TrialSummary],
) -> Forecasts {
    let jobs = jobs(settings);
    let mut sources = draws::SourceDraws::new(shared.book());
    let combinations = combination::combinations(shared, trials, &mut sources);
    let stretch = draws::stretch();
    let mut vessels = vessel::Vessels::new(apparatus, shared, trials, sources);
    let own = own_job(apparatus, &combinations, &mut vessels);
    let jobs = jobs.iter().map(|job| {
        let found: Result<Vec<VesselDraws>, Refusal> = possible(job, apparatus, &combinations)
            .and_then(|()| combinations.iter().map(|c| vessels.of_job(job, c)).collect());
        let (vessels, refusal) = found.map_or_else(|refusal| (Vec::new(), Some(refusal)), |vessels| (vessels, None));
        let answers = || {
            let cases = combinations.iter().zip(&vessels);
            cases.map(|(c, vessel)| answer::answer(job, c, vessel, &stretch, settings.level)).collect()
        };
        JobForecast { job: job.clone(), answers: refusal.map_or_else(|| Ok(answers()), Err), vessels }
    });
    let jobs = jobs.collect();
    Forecasts { combinations, stretch, jobs, own }
}

/// Parts of a forecast that only a job made up by the reader needs.
fn own_job(apparatus: &Apparatus, combinations: &[Combination], vessels: &mut vessel::Vessels<'_, '_>) -> OwnJob {
    let altitude_m = apparatus.site.altitude_m;
    OwnJob {
        boiling: air::boiling_point(altitude_m.unwrap_or(0.0)),
        altitude_m,
        usual: combinations.iter().map(|c| vessels.usual(c)).collect(),
        of_its_size: vessels.of_a_cubic_metre(OWN),
    }
}

/// Name of a job that no pipeline names.
pub const OWN: &str = "job";

/// The jobs of a pipeline: those it names, else its reference job.
fn jobs(settings: &Settings) -> Cow<'_, [Job]> {
    if !settings.jobs.is_empty() {
        return Cow::Borrowed(&settings.jobs);
    }
    settings.reference_job.map(|task| Job::new(REFERENCE, task)).into_iter().collect()
}

/// A finding for each job that cannot be answered.
pub(crate) fn refusals(forecasts: &Forecasts) -> Vec<Finding> {
    let refused = forecasts.jobs.iter().filter_map(|job| Some((job, job.answers.as_ref().err()?)));
    let fact = |(job, reason): (&JobForecast, &Refusal)| ForecastFact::JobRefused {
        job: job.job.name.clone(),
        reason: reason.clone(),
    };
    refused.map(|refused| Finding::warning(fact(refused))).collect()
}

/// Name of the job that a pipeline does not name.
const REFERENCE: &str = "reference job";

/// Why a job cannot be, whatever burns.
fn possible(job: &Job, apparatus: &Apparatus, combinations: &[Combination]) -> Result<(), Refusal> {
    let task = &job.task;
    let altitude_m = apparatus.site.altitude_m;
    let boiling = air::boiling_point(altitude_m.unwrap_or(0.0));
    if task.water_m3 <= 0.0 {
        return Err(Refusal::NoWater);
    }
    if task.from < 0.0 {
        return Err(Refusal::Frozen { from: task.from });
    }
    if task.to <= task.from {
        return Err(Refusal::NotWarmer { from: task.from, to: task.to });
    }
    if task.to >= boiling {
        return Err(Refusal::Boils { to: task.to, boiling, altitude_m });
    }
    if let JobVessel::Named(vessel) = &job.vessel
        && !apparatus.vessels.contains_key(vessel)
    {
        return Err(Refusal::UnknownVessel {
            vessel: vessel.clone(),
            known: apparatus.vessels.keys().cloned().collect(),
        });
    }
    if combinations.is_empty() { Err(Refusal::NoBurns) } else { Ok(()) }
}
