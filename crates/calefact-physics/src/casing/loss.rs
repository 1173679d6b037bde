//! Convection and radiation of one surface, added up.

use super::air_film::Film;
use super::convection::nusselt;
use crate::PhysicsError;
use crate::kelvin::ZERO_C;

/// Stefan-Boltzmann constant, W/(m2 K4) (CODATA 2018).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// Temperatures the film properties are used for, degC.
const LEAST_C: f64 = -40.0;
const GREATEST_C: f64 = 600.0;

/// An upright wall that loses heat to the room, or an upright cylinder wide against its boundary layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Height, along which the air moves, m.
    pub height: f64,
    /// Area, m2.
    pub area: f64,
    /// Emissivity, 0 to 1; painted or rusty steel is about 0.9, bright metal 0.1 (handbook figures, from memory).
    pub emissivity: f64,
}

/// Heat lost, W; negative where the room is warmer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CasingLoss {
    /// By natural convection.
    pub convection: f64,
    /// By radiation.
    pub radiation: f64,
}

impl CasingLoss {
    /// Both together, W.
    pub fn total(&self) -> f64 {
        self.convection + self.radiation
    }
}

/// Loss of `surface` at `t_surface` degC to a room at `t_room` degC, at air pressure `pressure` Pa.
///
/// Convection h A (T_s - T_r), h = Nu k/L with air properties at the mean temperature; radiation
/// emissivity sigma A (T_s^4 - T_r^4).
///
/// # Errors
/// If a temperature is outside -40 to 600 degC, the emissivity outside 0 to 1, the area, height or pressure not
/// positive, or the surface too large for the correlation (Ra above 1e12).
pub fn casing_loss(surface: &Surface, t_surface: f64, t_room: f64, pressure: f64) -> Result<CasingLoss, PhysicsError> {
    let hot = PhysicsError::check("surface temperature [degC]", t_surface, LEAST_C, GREATEST_C)?;
    let room = PhysicsError::check("room temperature [degC]", t_room, LEAST_C, GREATEST_C)?;
    let emissivity = PhysicsError::check("emissivity", surface.emissivity, 0.0, 1.0)?;
    let area = PhysicsError::positive("area [m2]", surface.area)?;
    let height = PhysicsError::positive("height [m]", surface.height)?;
    let film = Film::at(f64::midpoint(hot, room), PhysicsError::positive("air pressure [Pa]", pressure)?);
    let number = nusselt(film.rayleigh(height, (hot - room).abs()), film.prandtl())?;
    Ok(CasingLoss {
        convection: number * film.conductivity / height * area * (hot - room),
        radiation: emissivity * STEFAN_BOLTZMANN * area * (fourth_power(hot) - fourth_power(room)),
    })
}

/// Absolute temperature to the fourth, K4.
fn fourth_power(t_c: f64) -> f64 {
    let square = (t_c + ZERO_C) * (t_c + ZERO_C);
    square * square
}
