//! The inputs of the heat path beyond those of the vessel: means over the steady part, each with its errors.
//!
//! They stand behind the [`Slot`]s in the same vector, so that one propagation moves a probe everywhere it was used. A
//! mean enters as a value at one temperature: its probe's error line is already evaluated there.

use crate::reduce::slots::Slot;

/// One input of the heat path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(usize)]
pub(crate) enum PathSlot {
    /// Flue gas before the exchanger, degC.
    FlueBefore,
    /// Flue gas after it, degC.
    FlueAfter,
    /// Water into the coil, degC.
    CoilIn,
    /// Water out of the coil, degC.
    CoilOut,
    /// Water flow, kg/s.
    Flow,
    /// O2 of the dry gas, fraction.
    Oxygen,
    /// CO2 of the dry gas, fraction.
    CarbonDioxide,
    /// CO of the dry gas, fraction; taken as 0 in the gas where not measured.
    CarbonMonoxide,
    /// Outer surface of the casing, degC.
    Casing,
    /// Random error of the heat flow into the tank over the steady part, W.
    SteadyNoise,
    /// Burn rate of the steady part over the one that goes with its share of the heat, 1 with an uncertainty.
    BurnShare,
    /// Flue loss of the whole burn over that of its steady part.
    Whole,
    /// Casing loss over the correlation's, 1 with an uncertainty.
    CasingFactor,
}

impl PathSlot {
    /// Number of slots.
    pub(crate) const COUNT: usize = Self::CasingFactor as usize + 1;

    /// Place in the vector of inputs.
    pub(crate) const fn index(self) -> usize {
        Slot::COUNT + self as usize
    }

    /// Value in a vector of inputs.
    pub(crate) fn get(self, x: &[f64]) -> f64 {
        x[self.index()]
    }
}
