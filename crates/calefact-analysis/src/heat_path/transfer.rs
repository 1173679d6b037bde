//! Effectiveness and conductance of the exchanger from the temperatures at its ends and the heat it passes.

use super::gas_side::GasSide;
use super::water_side::WaterSide;
use calefact_physics::exchanger::{Arrangement, conductance};

/// Effectiveness and conductance (W/K); NaN where not defined.
///
/// Effectiveness is the greater change over the difference of the inlets, C_r the lesser change over the greater (balance
/// of the two streams); UA = NTU(effectiveness, C_r) C_min. With the water's rise not known its flow is taken as large
/// against the gas (C_r = 0).
pub(super) fn transfer(gas: &GasSide, water: &WaterSide, hot_in: f64, arrangement: Arrangement) -> (f64, f64) {
    if gas.drop.is_nan() {
        return (f64::NAN, f64::NAN);
    }
    let rise = if water.rise.is_finite() { water.rise } else { 0.0 };
    let inlets = hot_in - water.inlet;
    let effectiveness = gas.drop.max(rise) / inlets;
    (effectiveness, conductance(water.power, (gas.drop, rise), inlets, arrangement).unwrap_or(f64::NAN))
}
