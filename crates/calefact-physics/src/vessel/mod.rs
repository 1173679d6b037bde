//! A body of water that takes up heat and loses some to the room: C dT/dt = Q - UA (T - T_a).
//!
//! The closed forms of that one equation. They are written with the step functions of one private module, which hold for a
//! vessel without loss (UA = 0) as they stand. What does not live here: fitting it to data.

mod balance;
mod cooling;
mod step;

pub use balance::Body;
pub use cooling::{conductance_from_cooling, mixed_temperature, sensor_lag};
