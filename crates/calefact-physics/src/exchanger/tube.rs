//! The tube of a coil: its surface, and how the water flows in it.

use std::f64::consts::PI;

/// Reynolds number below which flow in a tube is laminar (Incropera & DeWitt, section 8.1, from memory).
const LAMINAR: f64 = 2300.0;

/// Outer surface in m2 of a tube, from its outside diameter and length in m.
pub fn tube_area(outside_diameter: f64, length: f64) -> f64 {
    PI * outside_diameter * length
}

/// Water flow in kg/s below which the flow in a tube is laminar, from its inside diameter in m and the temperature in degC:
/// pi d mu Re/4.
pub fn laminar_flow(inside_diameter: f64, celsius: f64) -> f64 {
    PI * inside_diameter * viscosity(celsius) * LAMINAR / 4.0
}

/// Dynamic viscosity of water in Pa s: 2.414e-5 x 10^(247.8/(T - 140)), T in K, within 2.5 % from 0 to 370 degC (Al-Shemmeri,
/// Engineering Fluid Mechanics, from memory).
fn viscosity(celsius: f64) -> f64 {
    2.414e-5 * libm::pow(10.0, 247.8 / (celsius + 273.15 - 140.0))
}
