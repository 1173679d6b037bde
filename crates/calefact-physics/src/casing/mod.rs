//! Heat a warm outer surface gives to still room air and to the walls.
//!
//! Natural convection by Churchill and Chu (1975), Int. J. Heat Mass Transfer 18, 1049 and 1323, and grey radiation to
//! surroundings at room temperature. The surface is taken as clean, of one temperature and unshielded; draught adds to
//! it, and a correlation of this kind is good to about 20 % (common practice, no source).

mod air_film;
mod convection;

pub use convection::{Shape, nusselt};

use crate::{PhysicsError, ZERO_C};
use air_film::Film;

/// Stefan-Boltzmann constant, W/(m2 K4) (CODATA 2018).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// Standard gravity, m/s2.
const GRAVITY: f64 = 9.806_65;

/// A surface that loses heat to the room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Its shape, with the length the air moves along.
    pub shape: Shape,
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
/// If a temperature is outside -40 to 600 degC, the emissivity outside 0 to 1, the area, length or pressure not
/// positive, or the surface too large for the correlation (Ra above 1e12).
pub fn casing_loss(surface: &Surface, t_surface: f64, t_room: f64, pressure: f64) -> Result<CasingLoss, PhysicsError> {
    let hot = PhysicsError::check("surface temperature [degC]", t_surface, -40.0, 600.0)?;
    let room = PhysicsError::check("room temperature [degC]", t_room, -40.0, 600.0)?;
    let emissivity = PhysicsError::check("emissivity", surface.emissivity, 0.0, 1.0)?;
    let area = PhysicsError::positive("area [m2]", surface.area)?;
    let length = PhysicsError::positive("length along the flow [m]", surface.shape.length())?;
    let film = Film::at(f64::midpoint(hot, room), PhysicsError::positive("air pressure [Pa]", pressure)?);
    let rayleigh = film.rayleigh(length, (hot - room).abs());
    let number = nusselt(surface.shape, rayleigh, film.prandtl())?;
    let fourth = |t: f64| (t + ZERO_C).powi(4);
    Ok(CasingLoss {
        convection: number * film.conductivity / length * area * (hot - room),
        radiation: emissivity * STEFAN_BOLTZMANN * area * (fourth(hot) - fourth(room)),
    })
}
