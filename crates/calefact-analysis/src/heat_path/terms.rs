//! Where each output of the heat path stands in the vector the model returns.

use crate::Quantity;

/// A term of the energy balance of a burn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(usize)]
pub(crate) enum Term {
    /// Net energy of the fuel as put on: the whole.
    Fuel,
    /// Stored in water and vessel.
    Stored,
    /// Lost by the vessel during the trial.
    StandingLoss,
    /// Sensible heat of the flue gas after the exchanger.
    FlueSensible,
    /// Unburnt carbon monoxide.
    FlueCo,
    /// Loss of the exchanger's casing to the room.
    Casing,
    /// Wood taken back.
    LeftoverFuel,
    /// Char taken back.
    LeftoverChar,
    /// What the others leave.
    Unaccounted,
    /// Latent heat of the flue gas's vapour: on the gross basis only, outside the sum.
    FlueLatent,
}

impl Term {
    /// All terms in the order of the table.
    pub(crate) const ALL: [Self; 10] = [
        Self::Fuel,
        Self::Stored,
        Self::StandingLoss,
        Self::FlueSensible,
        Self::FlueCo,
        Self::Casing,
        Self::LeftoverFuel,
        Self::LeftoverChar,
        Self::Unaccounted,
        Self::FlueLatent,
    ];
    /// Terms that add up to the fuel, without what is unaccounted.
    pub(crate) const PARTS: [Self; 7] = [
        Self::Stored,
        Self::StandingLoss,
        Self::FlueSensible,
        Self::FlueCo,
        Self::Casing,
        Self::LeftoverFuel,
        Self::LeftoverChar,
    ];

    /// Name in `balance.csv`.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Fuel => "fuel",
            Self::Stored => "stored",
            Self::StandingLoss => "standing_loss",
            Self::FlueSensible => "flue_sensible",
            Self::FlueCo => "flue_co",
            Self::Casing => "casing",
            Self::LeftoverFuel => "leftover_fuel",
            Self::LeftoverChar => "leftover_char",
            Self::Unaccounted => "unaccounted",
            Self::FlueLatent => "flue_latent",
        }
    }

    /// Place of its energy, J.
    pub(crate) const fn energy(self) -> usize {
        Quantity::ALL.len() + self as usize
    }

    /// Place of its share of the fuel.
    pub(crate) const fn share(self) -> usize {
        self.energy() + Self::ALL.len()
    }
}

/// A further output, for cross-checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(usize)]
pub(crate) enum Check {
    /// Heat flow into the tank over the steady part, W.
    TankPower,
    /// Heat the gas gives up by its own analysis and the burn rate, W.
    GasPower,
    /// Loss of the casing by correlation, W.
    CasingPower,
    /// Coil power by flow and rise over heat flow into the tank.
    CoilOverTank,
    /// Heat given up by the gas over heat taken by the water (and the casing).
    GasOverWater,
    /// Rise of the water in the exchanger, K.
    WaterRise,
}

impl Check {
    /// Place in the vector.
    pub(crate) const fn index(self) -> usize {
        Term::FlueLatent.share() + 1 + self as usize
    }

    /// Length of the vector.
    pub(crate) const LEN: usize = Self::WaterRise.index() + 1;
}
