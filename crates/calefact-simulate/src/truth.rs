//! The true quantities of a trial over its whole log, by the definitions of [`Quantity`].

use super::burn::Burn;
use super::error::SimulationError;
use super::forward::Forward;
use super::rig::Rig;
use super::water;
use calefact_analysis::Quantity;
use calefact_data::TrialKind;
use calefact_physics::exchanger::tube_area;
use std::collections::BTreeMap;

/// True values by quantity.
pub(super) type Truth = BTreeMap<Quantity, f64>;

const MEGA: f64 = 1e6;
const KWH: f64 = 3.6e6;

/// True quantities of a trial.
pub(super) fn truth(rig: &Rig, forward: &Forward) -> Result<Truth, SimulationError> {
    let mut truth = vessel_truth(rig, forward);
    if forward.plan.kind == TrialKind::ReferenceHeater {
        let metered = forward.plan.heater_power * forward.course.end_s();
        truth.insert(Quantity::ReferenceHeaterRatio, forward.course.delivered / metered);
        truth.insert(Quantity::StoredFraction, forward.stored() / metered);
    }
    if let Some(burn) = &forward.burn {
        truth.extend(burn_truth(forward, burn));
        truth.extend(flue_truth(forward, burn)?);
    }
    Ok(truth)
}

fn vessel_truth(rig: &Rig, forward: &Forward) -> Truth {
    let mut truth = Truth::from([
        (Quantity::HeatStored, forward.stored() / MEGA),
        (Quantity::HeatDelivered, (forward.stored() + forward.course.lost) / MEGA),
        (Quantity::LossCoefficient, forward.tank.loss),
    ]);
    if forward.course.scale > 0.0 {
        truth.insert(Quantity::HeatInput, forward.course.delivered / forward.course.end_s());
    }
    if let Some(rate) = heating_rate(forward, rig.scenario.heating_rate_at) {
        truth.insert(Quantity::HeatingRate, rate);
    }
    truth
}

/// Rate of rise at the first crossing of a tank temperature, K/min.
fn heating_rate(forward: &Forward, at: f64) -> Option<f64> {
    let tank = &forward.course.tank;
    let i = tank.windows(2).position(|w| w[0] < at && at <= w[1])?;
    let t = (i as f64 + (at - tank[i]) / (tank[i + 1] - tank[i])) * forward.course.step_s;
    let (_, specific) = water::enthalpy_and_slope(at);
    let capacity = forward.tank.mass.mul_add(specific, forward.tank.heat_capacity);
    let net = forward.heat_flow(t) - forward.tank.loss * (at - forward.plan.air.at(t));
    Some(60.0 * net / capacity)
}

/// Mean over the steady part of the fire, 40 points.
fn steady_mean(forward: &Forward, value: impl Fn(f64) -> f64) -> f64 {
    const POINTS: u32 = 40;
    let (from, to) = forward.source.fire.steady();
    let to = to.min(forward.course.end_s());
    let sum: f64 = (0..POINTS).map(|i| value((f64::from(i) + 0.5) / f64::from(POINTS) * (to - from) + from)).sum();
    sum / f64::from(POINTS)
}

fn burn_truth(forward: &Forward, burn: &Burn) -> Truth {
    let delivered = forward.course.delivered;
    let hours = forward.course.end_s() / 3600.0;
    let burnt = burn.plan.burnt();
    Truth::from([
        (Quantity::FuelEnergy, burn.energy / MEGA),
        (Quantity::ThermalEfficiency, delivered / burn.energy),
        (Quantity::ThermalEfficiencyUncredited, delivered / burn.energy_uncredited),
        (Quantity::StoredFraction, forward.stored() / burn.energy),
        (Quantity::FuelPerHeat, burnt / (delivered / KWH)),
        (Quantity::BurnRate, burnt / hours),
        (Quantity::SteadyHeatInput, steady_mean(forward, |t| forward.heat_flow(t))),
        (Quantity::CoilPower, steady_mean(forward, |t| forward.heat_flow(t))),
        (Quantity::CoilFlow, burn.exchanger.coil_flow),
    ])
}

fn flue_truth(forward: &Forward, burn: &Burn) -> Result<Truth, SimulationError> {
    let Some(flue) = &forward.flue else { return Ok(Truth::new()) };
    let loss = flue.loss / burn.energy;
    let share = forward.course.delivered / burn.energy + loss;
    if share > 1.0 {
        return Err(SimulationError::FirstLaw { trial: forward.plan.trial.clone(), share });
    }
    let mean = |series: &[f64]| steady_mean(forward, |t| forward.course.at(series, t));
    let mut truth = Truth::from([
        (Quantity::ExchangerEffectiveness, mean(&flue.effectiveness)),
        (Quantity::ExchangerConductance, mean(&flue.conductance)),
        (Quantity::GasFlow, mean(&flue.gas_flow)),
        (Quantity::AirRatio, mean(&flue.air_ratio)),
        (Quantity::FlueLoss, loss),
        (Quantity::Unaccounted, 1.0 - share),
    ]);
    let build = &burn.exchanger.entry.build;
    if let (Some(outside), Some(length)) = (build.get("tube_outside"), build.get("length")) {
        let area = tube_area(*outside, *length);
        truth.insert(Quantity::ExchangerConductanceArea, mean(&flue.conductance) / area);
    }
    Ok(truth)
}
