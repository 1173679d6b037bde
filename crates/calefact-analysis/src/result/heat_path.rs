//! Results of the heat path: the exchanger's points for charts, balances of groups.

use super::Method;
use calefact_stats::Estimate;
use serde::Serialize;

/// Steady mean of an exchanger, to be charted as conductance against gas flow: one point a trial.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ExchangerPoint {
    /// Wet gas flow, kg/s.
    pub gas_flow: Estimate,
    /// Conductance, W/K.
    pub conductance: Estimate,
    /// Conductance per outside tube area, W/(m2 K), where the build is described.
    pub conductance_area: Option<Estimate>,
    /// Heat the water takes, W.
    pub power: Estimate,
}

/// The exchanger over one slice of the steady part; values without intervals, to show their course.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CoursePoint {
    /// Middle of the slice, s.
    pub t: f64,
    /// Heat the water takes, W.
    pub power: f64,
    /// Wet gas flow, kg/s.
    pub gas_flow: Option<f64>,
    /// Conductance, W/K.
    pub conductance: Option<f64>,
    /// Effectiveness.
    pub effectiveness: Option<f64>,
}

/// Mean share of one term of the energy balance over the trials of a level.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupBalance {
    /// Level of the comparison's factor.
    pub level: String,
    /// Term name, as in [`BalanceTerm`](super::BalanceTerm).
    pub term: &'static str,
    /// Trials in which the term was measured; the rest have it in `unaccounted`.
    pub n: usize,
    /// Mean share of the fuel as put on, net basis, with interval.
    pub share: Estimate,
    /// How the mean was obtained.
    pub method: Method,
}
