//! The facts of a whole world: values that all its burns share, recorded or not.
//!
//! Where nobody recorded an input, its true value is drawn from the range that the analysis assumes for it. The ranges stand
//! here a second time on purpose: the study is to notice if the analysis assumes less.

use super::draws::{Draws, Range};
use super::spec::{Missing, World};
use std::f64::consts::PI;

/// Volume of the vessel, m3.
pub(super) const VOLUME: f64 = 0.160;

/// Heat capacity of a vessel over that of its water when full.
const VESSEL_SHARE: Range = (0.005, 0.08);
/// Heat transfer coefficient of a vessel's wall, W/(m2 K).
const WALL: Range = (0.5, 12.0);
/// Height of a vessel over its diameter.
const SLIMNESS: Range = (1.0, 2.0);
/// What an open top adds, W/(m2 K) of its area.
const OPEN_TOP: Range = (0.0, 50.0);
/// Air temperature above that of the tank at the start, K.
pub(super) const AIR_ABOVE_TANK: Range = (-15.0, 20.0);
/// Kindling, share of the fuel mass.
pub(super) const KINDLING: Range = (0.0, 0.08);
/// Wood left over, share of the fuel mass.
pub(super) const LEFTOVER_FUEL: Range = (0.0, 0.15);
/// Char left over, share of the fuel mass.
pub(super) const LEFTOVER_CHAR: Range = (0.0, 0.06);
/// Moisture on wet basis.
const MOISTURE: Range = (0.12, 0.30);
/// Net calorific value of dry wood, J/kg.
const CALORIFIC: Range = (17.9e6, 20.2e6);
/// Calorific value of char, J/kg.
const CHAR_CALORIFIC: Range = (28e6, 33e6);

/// True values of a world.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Facts {
    /// Heat capacity of the vessel, J/K; of one that is recorded, the recorded value.
    pub(super) heat_capacity: f64,
    /// Loss coefficient of the vessel, W/K.
    pub(super) loss: f64,
    /// Air temperature above that of the tank at the start, K.
    pub(super) air_above_tank: f64,
    /// Habit of the hand that lights the fire: kindling, share of the fuel mass.
    pub(super) kindling: f64,
    /// Habits by stove: wood left over, share of the fuel mass.
    pub(super) leftover_fuel: [f64; 2],
    /// Habits by stove: char left over, share of the fuel mass.
    pub(super) leftover_char: [f64; 2],
    /// Mean moisture of the wood, wet basis.
    pub(super) moisture: f64,
    /// Whether the moisture is written on wet basis.
    pub(super) wet_basis: bool,
    /// Net calorific value of dry wood, J/kg; of one that is recorded, the recorded value.
    pub(super) calorific: f64,
    /// Calorific value of char, J/kg; of one that is recorded, the recorded value.
    pub(super) char_calorific: f64,
}

/// Recorded heat capacity, J/K, and its standard uncertainty.
pub(super) const HEAT_CAPACITY: [f64; 2] = [12_000.0, 1_000.0];
/// Recorded loss coefficient, W/K, and its standard uncertainty.
pub(super) const LOSS: [f64; 2] = [4.2, 0.4];

impl Facts {
    /// Draws a world.
    pub(super) fn draw(world: &World, seed: u64) -> Self {
        let mut draws = Draws::new(seed, "world/facts", world.place, false);
        let full = VOLUME * 1000.0 * 4186.0;
        let share = draws.unrecorded(VESSEL_SHARE);
        let (unrecorded_loss, recorded_loss) = (loss(&mut draws), draws.normal().mul_add(LOSS[1], LOSS[0]));
        let mut unrecorded = |range| draws.unrecorded(range);
        let (air_above_tank, kindling) = (unrecorded(AIR_ABOVE_TANK), unrecorded(KINDLING));
        let leftover_fuel = [unrecorded(LEFTOVER_FUEL), unrecorded(LEFTOVER_FUEL)];
        let leftover_char = [unrecorded(LEFTOVER_CHAR), unrecorded(LEFTOVER_CHAR)];
        let (moisture, calorific, char) = (unrecorded(MOISTURE), unrecorded(CALORIFIC), unrecorded(CHAR_CALORIFIC));
        let lacks = |input, drawn, recorded| if world.lacks(input) { drawn } else { recorded };
        Self {
            heat_capacity: lacks(Missing::Vessel, share * full, HEAT_CAPACITY[0]),
            loss: lacks(Missing::Vessel, unrecorded_loss, recorded_loss),
            air_above_tank,
            kindling,
            leftover_fuel,
            leftover_char,
            moisture: lacks(Missing::Moisture, moisture, 0.155),
            wet_basis: draws.below(2) == 0,
            calorific: lacks(Missing::CalorificValue, calorific, 18.9e6),
            char_calorific: lacks(Missing::CalorificValue, char, 29.5e6),
        }
    }
}

/// Loss coefficient of a closed or open cylinder that holds the vessel's volume, W/K.
fn loss(draws: &mut Draws) -> f64 {
    let slimness = draws.between(SLIMNESS);
    let diameter = libm::cbrt(VOLUME * 4.0 / (PI * slimness));
    let top = PI / 4.0 * diameter * diameter;
    let area = (PI * slimness * diameter).mul_add(diameter, 2.0 * top);
    draws.unrecorded(WALL).mul_add(area, draws.unrecorded(OPEN_TOP) * top)
}
