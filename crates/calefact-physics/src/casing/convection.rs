//! The two correlations of Churchill and Chu for laminar and turbulent flow alike.

use crate::PhysicsError;

/// Shape of a surface in still air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Upright wall, or an upright cylinder wide against its boundary layer; height in m.
    VerticalPlate {
        /// Height, m.
        height: f64,
    },
    /// Level pipe or drum; outside diameter in m.
    HorizontalCylinder {
        /// Outside diameter, m.
        diameter: f64,
    },
}

impl Shape {
    /// Length the air moves along, m.
    pub const fn length(self) -> f64 {
        match self {
            Self::VerticalPlate { height } => height,
            Self::HorizontalCylinder { diameter } => diameter,
        }
    }
}

/// Mean Nusselt number from the Rayleigh number and the Prandtl number of air.
///
/// Plate: (0.825 + 0.387 Ra^(1/6)/(1 + (0.492/Pr)^(9/16))^(8/27))^2; cylinder the same with 0.60 and 0.559.
///
/// # Errors
/// If `rayleigh` is outside 0 to 1e12 or `prandtl` is not positive.
pub fn nusselt(shape: Shape, rayleigh: f64, prandtl: f64) -> Result<f64, PhysicsError> {
    let ra = PhysicsError::check("Rayleigh number", rayleigh, 0.0, 1e12)?;
    let pr = PhysicsError::positive("Prandtl number", prandtl)?;
    let (still, knee) = match shape {
        Shape::VerticalPlate { .. } => (0.825, 0.492),
        Shape::HorizontalCylinder { .. } => (0.60, 0.559),
    };
    let spread = (1.0 + (knee / pr).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    Ok((still + 0.387 * ra.powf(1.0 / 6.0) / spread).powi(2))
}
