//! What an exchanger of known conductance does between two streams.

use super::{Arrangement, effectiveness};
use crate::PhysicsError;

/// Heat flow and outlets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Duty {
    /// Effectiveness, 0 to 1.
    pub effectiveness: f64,
    /// Heat flow from hot to cold, W.
    pub heat_flow: f64,
    /// Hot stream leaving, degC.
    pub hot_out: f64,
    /// Cold stream leaving, degC.
    pub cold_out: f64,
}

/// Heat flow and outlets of an exchanger of conductance `ua` W/K between a hot stream entering
/// at some degC, `hot = (W/K, degC)`, and a cold one, `cold = (W/K, degC)`.
///
/// q = effectiveness C_min (T_hot,in - T_cold,in). An infinite capacity stands for a boiling or very large stream.
///
/// # Errors
/// If a capacity rate is not positive, or what [`effectiveness`] refuses.
pub fn duty(ua: f64, hot: (f64, f64), cold: (f64, f64), arrangement: Arrangement) -> Result<Duty, PhysicsError> {
    let ((hot_capacity, hot_in), (cold_capacity, cold_in)) = (hot, cold);
    let ch = PhysicsError::check("hot capacity rate [W/K]", hot_capacity, f64::MIN_POSITIVE, f64::INFINITY)?;
    let cc = PhysicsError::check("cold capacity rate [W/K]", cold_capacity, f64::MIN_POSITIVE, f64::INFINITY)?;
    let least = PhysicsError::positive("lesser capacity rate [W/K]", ch.min(cc))?;
    let share = effectiveness(ua / least, least / ch.max(cc), arrangement)?;
    let heat_flow = share * least * (hot_in - cold_in);
    Ok(Duty { effectiveness: share, heat_flow, hot_out: hot_in - heat_flow / ch, cold_out: cold_in + heat_flow / cc })
}
