//! Inputs that a range stands for where nobody recorded them. The ranges themselves are in `assumed`.

use serde::Serialize;

macro_rules! inputs {
    ($($(#[$doc:meta])* $variant:ident = $id:literal;)*) => {
        /// An input that can be assumed.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
        pub enum AssumedInput { $($(#[$doc])* $variant,)* }

        impl AssumedInput {
            /// All inputs in the order of the table of ranges.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Id in tables, and key in `assume` of `dataset.toml` where the range can be set there.
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id,)* }
            }
        }
    };
}

inputs! {
    /// Heat capacity of the vessel.
    VesselHeatCapacity = "vessel_heat_capacity";
    /// Loss coefficient of the vessel.
    LossCoefficient = "loss_coefficient";
    /// Air temperature.
    AirTemperature = "air_temperature";
    /// Kindling.
    KindlingMass = "kindling_mass";
    /// Wood taken back.
    LeftoverFuel = "leftover_fuel";
    /// Char taken back.
    LeftoverChar = "leftover_char";
    /// Moisture of the fuel.
    FuelMoisture = "fuel_moisture";
    /// Basis of a moisture that was measured.
    MoistureBasis = "moisture_basis";
    /// Calorific value of dry fuel.
    CalorificValue = "calorific_value";
    /// Calorific value of the char.
    CharCalorificValue = "char_calorific_value";
    /// Tolerance of a thermometer in water or air.
    ThermometerTolerance = "thermometer_tolerance";
    /// Tolerance of a thermometer in flue gas or on a casing.
    FlueProbeTolerance = "flue_probe_tolerance";
    /// Tolerance of a scale.
    ScaleTolerance = "scale_tolerance";
    /// Tolerance of an amount of water.
    VolumeTolerance = "volume_tolerance";
    /// Tolerance of a moisture meter.
    MoistureMeterTolerance = "moisture_meter_tolerance";
    /// Tolerance of a water flow.
    FlowTolerance = "flow_tolerance";
    /// Tolerance of an electric power.
    PowerTolerance = "power_tolerance";
    /// Tolerance of a gas analysis.
    GasAnalysisTolerance = "gas_analysis_tolerance";
}

impl AssumedInput {
    /// Whether it is the tolerance of an instrument.
    pub fn is_tolerance(self) -> bool {
        self >= Self::ThermometerTolerance
    }

    /// The input of an id.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|input| input.id() == id)
    }
}
