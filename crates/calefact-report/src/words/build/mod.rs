//! The next build in words: what a changed exchanger would do, how that is known, what to beware of.

mod answer;
mod caution;
mod change;
mod jobs;
mod model;
mod summary;

pub use answer::{lines, refusal_lines};
pub(crate) use caution::caution;
pub(crate) use change::{change, place};
pub use jobs::{JOB_PREMISE, job_lines};
pub use model::premises;
pub(crate) use model::{method, reach_word};
pub(crate) use summary::{clauses, summary};

#[cfg(test)]
mod tests;
