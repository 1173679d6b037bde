//! Wood as fuel: moisture, calorific values, typical composition.

mod heating_value;
mod moisture;
mod typical;

pub use heating_value::{
    CHAR_NET_DEFAULT, LATENT_HEAT_25_C, gross_as_fired, gross_dry, net_as_fired, net_dry_from_gross,
};
pub use moisture::{dry_from_wet, wet_from_dry};
pub use typical::{Composition, FuelClass, Span, Typical, typical};
