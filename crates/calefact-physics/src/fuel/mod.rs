//! Wood as fuel: moisture, calorific values, typical composition.

mod class;
mod composition;
mod heating_value;
mod moisture;

pub use class::{FuelClass, Span, Typical, typical};
pub use composition::Composition;
pub use heating_value::{gross_dry, net_as_fired};
pub use moisture::wet_from_dry;
