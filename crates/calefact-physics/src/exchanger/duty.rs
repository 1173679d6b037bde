//! From conductance and streams to what an exchanger does, and back.

use super::arrangement::{Arrangement, Stream};
use super::effectiveness::{NTU_MAX, effectiveness};
use super::transfer_units::ntu;
use crate::PhysicsError;

/// The two streams as they enter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Streams {
    /// Heat capacity rate of the gas, W/K.
    pub gas_rate: f64,
    /// Heat capacity rate of the water, W/K; infinite for a flow that is very large against the gas.
    pub water_rate: f64,
    /// Gas in, degC.
    pub gas_in: f64,
    /// Water in, degC.
    pub water_in: f64,
}

/// Duty of an exchanger between its streams.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Duty {
    /// Effectiveness.
    pub effectiveness: f64,
    /// Heat from gas to water, W.
    pub power: f64,
    /// Gas out, degC.
    pub gas_out: f64,
    /// Water out, degC.
    pub water_out: f64,
}

/// Heat and outlet temperatures of an exchanger of conductance UA, W/K: q = effectiveness(UA/C_min, C_r) C_min
/// (T_gas,in - T_water,in), taken from one stream and given to the other.
///
/// # Errors
/// If the conductance is negative or a capacity rate is not above zero.
pub fn duty(conductance: f64, streams: &Streams, arrangement: Arrangement) -> Result<Duty, PhysicsError> {
    let ua = PhysicsError::check("conductance in W/K", conductance, 0.0, f64::INFINITY)?;
    let gas = PhysicsError::positive("heat capacity rate of the gas in W/K", streams.gas_rate)?;
    let water = streams.water_rate;
    PhysicsError::check("heat capacity rate of the water in W/K", water, f64::MIN_POSITIVE, f64::INFINITY)?;
    let (least, ratio, stream) =
        if gas <= water { (gas, gas / water, Stream::Gas) } else { (water, water / gas, Stream::Water) };
    let effectiveness = effectiveness((ua / least).min(NTU_MAX), ratio, arrangement, stream)?;
    let power = effectiveness * least * (streams.gas_in - streams.water_in);
    Ok(Duty {
        effectiveness,
        power,
        gas_out: streams.gas_in - power / gas,
        water_out: streams.water_in + power / water,
    })
}

/// Conductance in W/K from the heat passed (W), the fall of the gas and the rise of the water (K; 0 for a very large flow),
/// and the difference of the inlets (K): effectiveness = greater change / difference, C_r = lesser change / greater,
/// C_min = heat / greater change.
///
/// # Errors
/// If no surface of this arrangement could do it.
pub fn conductance(
    power: f64,
    (fall, rise): (f64, f64),
    inlets: f64,
    arrangement: Arrangement,
) -> Result<f64, PhysicsError> {
    let (most, least, stream) = if fall >= rise { (fall, rise, Stream::Gas) } else { (rise, fall, Stream::Water) };
    let units = ntu(most / inlets, (least / most).clamp(0.0, 1.0), arrangement, stream)?;
    Ok(units * power / most)
}
