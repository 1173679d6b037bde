//! The quantities Calefact reports: name, unit and which direction is better. Their names for people are words of the report.
//!
//! A new quantity starts here; its formula goes to `model`, and the tables, charts and docs follow from this list.

use serde::{Serialize, Serializer};
use std::borrow::Cow;

macro_rules! quantities {
    ($($(#[$doc:meta])* $variant:ident = $name:literal, $unit:literal, $better:ident;)*) => {
        /// A reported quantity.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Quantity { $($(#[$doc])* $variant,)* }

        impl Quantity {
            /// All quantities in the order of the tables.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Name in `estimates.csv`.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }

            /// Unit symbol; `1` for a pure number.
            pub const fn unit(self) -> &'static str {
                match self { $(Self::$variant => $unit,)* }
            }

            /// Which direction a builder wants.
            pub const fn better(self) -> Better {
                match self { $(Self::$variant => Better::$better,)* }
            }
        }
    };
}

/// Direction a builder wants a quantity to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Better {
    /// More is better.
    Higher,
    /// Less is better.
    Lower,
    /// Neither as such.
    Neither,
}

quantities! {
    /// Rate of rise of the tank at the stated tank temperature.
    HeatingRate = "heating_rate", "K/min", Higher;
    /// Heat stored in water and vessel over the window, by enthalpy.
    HeatStored = "heat_stored", "MJ", Neither;
    /// Stored heat plus standing loss during the window.
    HeatDelivered = "heat_delivered", "MJ", Neither;
    /// Mean heat flow into the vessel over the window, light-up and burn-down included.
    HeatInput = "heat_input", "W", Higher;
    /// Mean heat flow into the vessel over the steady part of a burn.
    SteadyHeatInput = "steady_heat_input", "W", Higher;
    /// Heat loss coefficient of the vessel.
    LossCoefficient = "loss_coefficient", "W/K", Lower;
    /// Energy of the fuel, net basis, leftover fuel and char credited.
    FuelEnergy = "fuel_energy", "MJ", Neither;
    /// Delivered heat over net fuel energy, leftovers credited.
    ThermalEfficiency = "thermal_efficiency", "1", Higher;
    /// Delivered heat over net fuel energy, nothing credited.
    ThermalEfficiencyUncredited = "thermal_efficiency_uncredited", "1", Higher;
    /// Delivered heat over gross fuel energy, leftovers credited.
    ThermalEfficiencyGross = "thermal_efficiency_gross", "1", Higher;
    /// Delivered heat over gross fuel energy, nothing credited.
    ThermalEfficiencyGrossUncredited = "thermal_efficiency_gross_uncredited", "1", Higher;
    /// Stored heat over the energy supplied (net credited fuel, or metered electricity).
    StoredFraction = "stored_fraction", "1", Higher;
    /// Fuel as fired, less leftover wood, per kWh delivered.
    FuelPerHeat = "fuel_per_heat", "kg/kWh", Lower;
    /// Fuel as fired, less leftover wood, per hour of the trial.
    BurnRate = "burn_rate", "kg/h", Neither;
    /// Fuel cost per kWh delivered, in the currency of the fuel entry.
    CostPerHeat = "cost_per_heat", "1/kWh", Lower;
    /// Effectiveness of the exchanger in the steady part.
    ExchangerEffectiveness = "exchanger_effectiveness", "1", Higher;
    /// Conductance (UA) of the exchanger in the steady part.
    ExchangerConductance = "exchanger_conductance", "W/K", Higher;
    /// Conductance per square metre of outside tube surface.
    ExchangerConductanceArea = "exchanger_conductance_area", "W/(m2 K)", Higher;
    /// Heat the water takes up in the exchanger in the steady part.
    CoilPower = "coil_power", "W", Higher;
    /// Water flow through the exchanger, measured or inferred.
    CoilFlow = "coil_flow", "kg/s", Neither;
    /// Flue gas flow, measured or inferred.
    GasFlow = "gas_flow", "kg/s", Neither;
    /// Air ratio.
    AirRatio = "air_ratio", "1", Neither;
    /// Sensible and CO loss with the flue gas after the exchanger, share of net fuel energy.
    FlueLoss = "flue_loss", "1", Lower;
    /// Share of net fuel energy the balance does not explain.
    Unaccounted = "unaccounted", "1", Neither;
    /// Time for the reference job.
    ReferenceTime = "reference_time", "s", Lower;
    /// Fuel for the reference job.
    ReferenceFuel = "reference_fuel", "kg", Lower;
    /// Delivered heat over metered electricity in a reference-heater trial.
    ReferenceHeaterRatio = "reference_heater_ratio", "1", Neither;
}

impl Quantity {
    /// Unit symbol; that of a cost names the currency, `EUR/kWh`.
    pub fn unit_in(self, currency: Option<&str>) -> Cow<'static, str> {
        match currency {
            Some(currency) if self == Self::CostPerHeat => format!("{currency}/kWh").into(),
            _ => self.unit().into(),
        }
    }
}

impl Serialize for Quantity {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}
