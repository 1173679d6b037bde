//! The surface of a coil.

/// Outer surface in m2 of a tube, from its outside diameter and length in m.
pub fn tube_area(outside_diameter: f64, length: f64) -> f64 {
    std::f64::consts::PI * outside_diameter * length
}
