//! The phases of a burn, found in its log: start, ramp, steady part, refuelling, burn-down, after-heat.
//!
//! Method. The strength of the fire over time is the mean of what the log shows of it, each scaled to its own plateau:
//! heat flow into the tank (slope of enthalpy plus loss), fall of the flue gas over the exchanger (or the flue's excess
//! over the air), rise of the water in the coil (`strength`). The plateau is the median of the strengths above half of
//! their 95th percentile. The steady part runs from the first to the last time the strength is at or above 80 % of
//! the plateau; the ramp begins, and the burn-down ends, where it passes 10 % of it. A `fuel_added` cell or a
//! refuelling `event` inside the steady part begins a refuelling, which lasts until the strength is back; an event `fire
//! out` ends the burn-down (`cut`). With fewer than 12 readings no shape shows: all of the log after the
//! heat arrives is taken as steady, and marked as not certain. Thresholds are common practice, no source.

mod cut;
mod fire;
mod phase;
mod strength;

pub(crate) use fire::Fire;
pub use phase::{Phase, PhaseKind, Phases, SteadyPart};
pub(crate) use strength::REACH;

#[cfg(test)]
mod tests;
