//! Ranges that quantities and terms of the energy balance cannot leave, with the reason of each.

use crate::Quantity;
use crate::heat_path::terms::Term;
use calefact_stats::Bounds;

/// An air ratio below 1 lacks air for complete combustion; a stove under draught draws more air than that.
const AIR_RATIO: Bounds = Bounds { lower: 1.0, upper: f64::INFINITY };

impl Quantity {
    /// The range its true value cannot leave.
    pub const fn bounds(self) -> Bounds {
        use Quantity as Q;
        match self {
            // First law: no more heat than was supplied, no more taken than the gas could give or carries away. A vessel
            // over a fire takes heat up.
            Q::ThermalEfficiency
            | Q::ThermalEfficiencyUncredited
            | Q::ThermalEfficiencyGross
            | Q::ThermalEfficiencyGrossUncredited
            | Q::StoredFraction
            | Q::ExchangerEffectiveness
            | Q::FlueLoss => Bounds::SHARE,
            Q::AirRatio => AIR_RATIO,
            // Heat flows from fire to water and from warm to cold; masses, flows and times are positive.
            Q::HeatDelivered
            | Q::HeatInput
            | Q::SteadyHeatInput
            | Q::LossCoefficient
            | Q::FuelEnergy
            | Q::FuelPerHeat
            | Q::BurnRate
            | Q::CostPerHeat
            | Q::ExchangerConductance
            | Q::ExchangerConductanceArea
            | Q::CoilPower
            | Q::CoilFlow
            | Q::GasFlow
            | Q::ReferenceTime
            | Q::ReferenceFuel
            | Q::ReferenceHeaterRatio => Bounds::POSITIVE,
            // A vessel may cool, and what is unaccounted is a difference.
            Q::HeatingRate | Q::HeatStored | Q::Unaccounted => Bounds::NONE,
        }
    }
}

impl Term {
    /// The range its share of the fuel cannot leave. Latent heat stands beside the sum; what is unaccounted is a difference.
    pub(crate) const fn bounds(self) -> Bounds {
        match self {
            Self::Unaccounted => Bounds::NONE,
            Self::FlueLatent => Bounds::POSITIVE,
            _ => Bounds::SHARE,
        }
    }

    /// The range its energy cannot leave.
    pub(crate) const fn energy_bounds(self) -> Bounds {
        match self {
            Self::Unaccounted => Bounds::NONE,
            _ => Bounds::POSITIVE,
        }
    }
}
