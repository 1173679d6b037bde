//! What four temperatures at the ends of an exchanger say.

use super::{Arrangement, ntu};
use crate::PhysicsError;

/// Temperatures in degC where the streams enter and leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// Hot stream entering.
    pub hot_in: f64,
    /// Hot stream leaving.
    pub hot_out: f64,
    /// Cold stream entering.
    pub cold_in: f64,
    /// Cold stream leaving.
    pub cold_out: f64,
}

impl Ends {
    /// Fall of the hot stream, K.
    pub fn hot_fall(&self) -> f64 {
        self.hot_in - self.hot_out
    }

    /// Rise of the cold stream, K.
    pub fn cold_rise(&self) -> f64 {
        self.cold_out - self.cold_in
    }

    /// Whether the hot stream has the lesser capacity rate: it changes more.
    pub fn hot_is_min(&self) -> bool {
        self.hot_fall() >= self.cold_rise()
    }

    /// Effectiveness, the greater change over the difference of the inlets.
    ///
    /// # Errors
    /// If the hot stream does not enter hotter than the cold one, or the result is outside 0 to 1.
    pub fn effectiveness(&self) -> Result<f64, PhysicsError> {
        let span = PhysicsError::positive("inlet temperature difference [K]", self.hot_in - self.cold_in)?;
        PhysicsError::check("effectiveness", self.hot_fall().max(self.cold_rise()) / span, 0.0, 1.0)
    }

    /// Ratio C_min/C_max, the lesser change over the greater, from the balance of the two streams.
    ///
    /// # Errors
    /// If a stream changes the wrong way.
    pub fn capacity_ratio(&self) -> Result<f64, PhysicsError> {
        let hot = PhysicsError::positive("fall of the hot stream [K]", self.hot_fall())?;
        let cold = PhysicsError::positive("rise of the cold stream [K]", self.cold_rise())?;
        Ok(hot.min(cold) / hot.max(cold))
    }
}

/// Log-mean temperature difference in K; for a cross-flow arrangement that of counterflow, to be multiplied by
/// [`correction_factor`](super::correction_factor).
///
/// (d1 - d2)/ln(d1/d2) of the two ends' differences, and d where they are equal.
///
/// # Errors
/// If the hot stream is not the hotter one at both ends.
pub fn lmtd(th_in: f64, th_out: f64, tc_in: f64, tc_out: f64, arrangement: Arrangement) -> Result<f64, PhysicsError> {
    let (first, second) = match arrangement {
        Arrangement::Parallel => (th_in - tc_in, th_out - tc_out),
        _ => (th_in - tc_out, th_out - tc_in),
    };
    let d1 = PhysicsError::positive("temperature difference at the hot inlet [K]", first)?;
    let d2 = PhysicsError::positive("temperature difference at the hot outlet [K]", second)?;
    let x = (d1 - d2) / d2;
    Ok(if x == 0.0 { d2 } else { d2 * x / x.ln_1p() })
}

/// Conductance UA in W/K of an exchanger that passes `heat_flow` W between the temperatures `ends`.
///
/// UA = NTU C_min, with NTU from the effectiveness the ends show and C_min from the heat flow and the greater change;
/// the same as q/(F LMTD).
///
/// ```
/// use calefact_physics::exchanger::{Arrangement, Ends, conductance};
///
/// let ends = Ends { hot_in: 350.0, hot_out: 123.379, cold_in: 15.0, cold_out: 29.049 };
/// let ua = conductance(2937.0, ends, Arrangement::Counter)?;
/// assert!((ua - 15.0).abs() < 0.01);
/// # Ok::<(), calefact_physics::PhysicsError>(())
/// ```
///
/// # Errors
/// If the heat flow is not positive, a stream changes the wrong way, or the ends cannot be reached in this arrangement.
pub fn conductance(heat_flow: f64, ends: Ends, arrangement: Arrangement) -> Result<f64, PhysicsError> {
    let q = PhysicsError::positive("heat flow [W]", heat_flow)?;
    let units = ntu(ends.effectiveness()?, ends.capacity_ratio()?, arrangement)?;
    Ok(units * q / ends.hot_fall().max(ends.cold_rise()))
}
