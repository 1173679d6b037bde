//! Reducing a trial, comparing trials: the only place where physics meets statistics. No files.

pub mod quantity;
pub mod result;
pub mod settings;
pub mod simulate;

pub use quantity::{Better, Quantity};
pub use settings::Settings;
