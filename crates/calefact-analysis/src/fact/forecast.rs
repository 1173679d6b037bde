//! Facts about forecasts of jobs.

use crate::result::Refusal;
use serde::Serialize;

/// A fact about a forecast.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ForecastFact {
    /// A job that cannot be answered.
    JobRefused {
        /// Name of the job.
        job: String,
        /// Why.
        reason: Refusal,
    },
}

impl ForecastFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[("job-refused", "a job of the pipeline cannot be answered")];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::JobRefused { .. } => "job-refused",
        }
    }
}
