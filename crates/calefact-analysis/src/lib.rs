//! Reducing a trial, comparing trials: the only place where physics meets statistics. No files.
//!
//! A log and its register row become a [`result::TrialResult`] by a [`Reducer`]; standing-loss trials are pooled in `loss`;
//! results are compared in [`mod@compare`]. Every value in between is plain and serialisable.

mod assumed;
pub mod book;
mod bounds;
mod budget;
pub mod build;
mod burn;
mod cautions;
pub mod compare;
mod context;
mod ending;
mod errors;
pub mod fact;
pub mod finding;
mod fit;
pub mod forecast;
mod heat_path;
mod loss;
mod monte_carlo;
pub mod phases;
pub mod planning;
mod quantity;
mod reduce;
mod reference_job;
pub mod result;
pub mod rig;
mod series;
pub mod settings;
pub mod shared;
pub mod shown;
mod thermometer;
mod trial_accumulator;
mod trial_mark;
pub mod unstated;
mod window;

#[cfg(test)]
mod test_support;

pub use compare::{AnalysisHeader, compare};
pub use loss::pool as pool_losses;
pub use quantity::{Better, Quantity};
pub use reduce::Reducer;
pub use result::Analysis;
pub use rig::{Rig, pool as pool_rig};
pub use settings::Settings;
pub use trial_accumulator::TrialAccumulator;
