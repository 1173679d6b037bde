//! Facts about pipelines, trials and comparisons: one enum a family, no sentence in any of them.
//!
//! The report crate turns them into words. A fact holds numbers in SI with the unit in the name, ids and columns.

mod assumed;
mod book;
mod bundle;
mod caution;
mod comparison;
mod confounded;
mod estimate_method;
mod forecast;
pub mod implausible;
mod lack;
mod note;
mod pipeline;
mod source;
pub mod trial;

pub use assumed::AssumedInput;
pub use book::{BookFact, CellFault};
pub use bundle::{BundleFact, BundleLimit, NameFault};
pub use caution::CautionFact;
pub use comparison::ComparisonFact;
pub use confounded::{ConfoundedColumn, ConfoundedPair};
pub use estimate_method::{Derivation, ErrorPropagation, EstimateMethod, ScatterMethod};
pub use forecast::ForecastFact;
pub use lack::{Lack, Slot};
pub use note::Note;
pub use pipeline::PipelineFact;
pub use source::{ErrorSource, InstrumentError, TrialError};
pub use trial::TrialFact;
