//! Units of display, one table: what a reader of metric or of United States units sees of each measure. Factors come from
//! `calefact-units`.

use super::{Typography, Units};
use calefact_analysis::Quantity;
use calefact_units::{Kind, Unit};

/// Something measured that is shown in a unit of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Temperature, from degC.
    Temperature,
    /// Temperature difference, from K.
    TemperatureDifference,
    /// Rate of rise of a temperature, from K/min.
    HeatingRate,
    /// Mass, from kg.
    Mass,
    /// Volume, from m3.
    Volume,
    /// Dimension of a build below a metre, from m.
    Length,
    /// Length of a metre or more, from m.
    LongLength,
    /// Time in minutes, from s.
    Minutes,
    /// Short time in seconds, from s.
    Seconds,
    /// Long time in hours, from s.
    Hours,
    /// Heat flow, from W.
    HeatFlow,
    /// Energy, from MJ.
    Energy,
    /// Energy by mass, from J/kg.
    CalorificValue,
    /// Mass flow of water, from kg/s.
    WaterFlow,
    /// Mass flow of gas, from kg/s.
    GasFlow,
    /// Mass burnt by time, from kg/h.
    BurnRate,
    /// Mass of fuel for each kWh of heat, from kg/kWh.
    FuelPerHeat,
    /// Heat capacity of a body, from J/K.
    HeatCapacity,
    /// Conductance or loss coefficient, from W/K.
    Conductance,
    /// Conductance by area, from W/(m2 K).
    ConductanceByArea,
    /// Share of a whole, from a fraction.
    Share,
    /// Pure number.
    Ratio,
}

/// A row of the table: the kind that converts, the unit a value comes in, the units shown, and what follows their symbols.
struct Row {
    kind: Kind,
    from: &'static str,
    metric: &'static str,
    us: &'static str,
    per: &'static str,
}

const fn row(kind: Kind, from: &'static str, metric: &'static str, us: &'static str) -> Row {
    Row { kind, from, metric, us, per: "" }
}

const fn row_per(kind: Kind, from: &'static str, metric: &'static str, us: &'static str, per: &'static str) -> Row {
    Row { kind, from, metric, us, per }
}

impl Measure {
    /// Kilowatt-hours stay in United States units: wood stoves and electricity are compared by them there too. A mass flow
    /// stays a mass flow: gallons would need a density.
    const fn row(self) -> Row {
        match self {
            Self::Temperature => row(Kind::Temperature, "degC", "degC", "degF"),
            Self::TemperatureDifference => row(Kind::TemperatureDifference, "K", "K", "degF"),
            Self::HeatingRate => row_per(Kind::TemperatureDifference, "K", "K", "degF", "/min"),
            Self::Mass => row(Kind::Mass, "kg", "kg", "lb"),
            Self::Volume => row(Kind::Volume, "m3", "L", "US gal"),
            Self::Length => row(Kind::Length, "m", "mm", "in"),
            Self::LongLength => row(Kind::Length, "m", "m", "ft"),
            Self::Minutes => row(Kind::Time, "s", "min", "min"),
            Self::Seconds => row(Kind::Time, "s", "s", "s"),
            Self::Hours => row(Kind::Time, "s", "h", "h"),
            Self::HeatFlow => row(Kind::Power, "W", "kW", "Btu/h"),
            Self::Energy => row(Kind::Energy, "MJ", "MJ", "Btu"),
            Self::CalorificValue => row(Kind::SpecificEnergy, "J/kg", "MJ/kg", "Btu/lb"),
            Self::WaterFlow => row(Kind::MassFlow, "kg/s", "kg/min", "lb/min"),
            Self::GasFlow => row(Kind::MassFlow, "kg/s", "g/s", "lb/h"),
            Self::BurnRate => row(Kind::MassFlow, "kg/h", "kg/h", "lb/h"),
            Self::FuelPerHeat => row_per(Kind::Mass, "kg", "kg", "lb", "/kWh"),
            Self::HeatCapacity => row(Kind::HeatCapacity, "J/K", "kJ/K", "Btu/degF"),
            Self::Conductance | Self::ConductanceByArea => row(Kind::Conductance, "W/K", "W/K", "Btu/(h degF)"),
            Self::Share => row(Kind::Fraction, "1", "%", "%"),
            Self::Ratio => row(Kind::Fraction, "1", "1", "1"),
        }
    }
}

impl From<Quantity> for Measure {
    fn from(quantity: Quantity) -> Self {
        match quantity {
            Quantity::HeatingRate => Self::HeatingRate,
            Quantity::HeatStored | Quantity::HeatDelivered | Quantity::FuelEnergy => Self::Energy,
            Quantity::HeatInput | Quantity::SteadyHeatInput | Quantity::CoilPower => Self::HeatFlow,
            Quantity::LossCoefficient | Quantity::ExchangerConductance => Self::Conductance,
            Quantity::ExchangerConductanceArea => Self::ConductanceByArea,
            Quantity::FuelPerHeat => Self::FuelPerHeat,
            Quantity::BurnRate => Self::BurnRate,
            Quantity::CoilFlow => Self::WaterFlow,
            Quantity::GasFlow => Self::GasFlow,
            Quantity::ReferenceTime => Self::Minutes,
            Quantity::ReferenceFuel => Self::Mass,
            Quantity::AirRatio | Quantity::ReferenceHeaterRatio | Quantity::CostPerHeat => Self::Ratio,
            Quantity::ThermalEfficiency
            | Quantity::ThermalEfficiencyUncredited
            | Quantity::ThermalEfficiencyGross
            | Quantity::ThermalEfficiencyGrossUncredited
            | Quantity::StoredFraction
            | Quantity::ExchangerEffectiveness
            | Quantity::FlueLoss
            | Quantity::Unaccounted => Self::Share,
        }
    }
}

/// A unit of display and the way to it.
#[derive(Debug, Clone, PartialEq)]
pub struct DisplayUnit {
    from: Unit,
    to: Unit,
    scale: f64,
    /// Symbol as the typography sets it; empty for a pure number.
    pub symbol: String,
}

impl DisplayUnit {
    /// The unit of a measure.
    pub(super) fn new(measure: Measure, units: Units, typography: Typography) -> Self {
        let row = measure.row();
        let name = if units == Units::Us { row.us } else { row.metric };
        let known = |symbol: &str| Unit::parse(symbol, row.kind).unwrap_or(Unit::si(row.kind));
        let (symbol, scale) = match (measure, units) {
            (Measure::ConductanceByArea, Units::Metric) => ("W/(m2 K)".to_owned(), 1.0),
            (Measure::ConductanceByArea, Units::Us) => ("Btu/(h ft2 degF)".to_owned(), square_foot()),
            (Measure::Ratio, _) => (String::new(), 1.0),
            _ => (format!("{name}{}", row.per), 1.0),
        };
        Self { from: known(row.from), to: known(name), scale, symbol: typography.symbol(&symbol) }
    }

    /// The same unit under another symbol.
    #[must_use]
    pub(super) fn named(self, symbol: impl Into<String>) -> Self {
        Self { symbol: symbol.into(), ..self }
    }

    /// A value in this unit.
    pub fn value(&self, value: f64) -> f64 {
        self.to.from_si(self.from.to_si(value)) * self.scale
    }

    /// A difference or an uncertainty in this unit.
    pub fn width(&self, width: f64) -> f64 {
        self.value(width) - self.value(0.0)
    }
}

/// A square foot in square metres.
fn square_foot() -> f64 {
    Unit::parse("ft2", Kind::Area).map_or(f64::NAN, |unit| unit.to_si(1.0))
}

impl Typography {
    /// A unit symbol of the table as it is set.
    fn symbol(self, symbol: &str) -> String {
        match self {
            Self::Plain => symbol.to_owned(),
            Self::Page if symbol == "US gal" => "US\u{a0}gal".to_owned(),
            Self::Page => symbol.replace("deg", "°").replace("m2", "m²").replace("ft2", "ft²").replace(' ', "·"),
        }
    }

    /// Value and unit, with a space that does not break on a page.
    pub fn join(self, value: &str, unit: &str) -> String {
        let is_one = value.trim_start_matches(['\u{b1}', '+', '-', '\u{2212}']) == "1";
        let unit = if is_one && unit == "percentage points" { "percentage point" } else { unit };
        if unit.is_empty() { value.to_owned() } else { format!("{value}{}{unit}", self.choose(" ", "\u{a0}")) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Measure; 22] = [
        Measure::Temperature,
        Measure::TemperatureDifference,
        Measure::HeatingRate,
        Measure::Mass,
        Measure::Volume,
        Measure::Length,
        Measure::LongLength,
        Measure::Minutes,
        Measure::Seconds,
        Measure::Hours,
        Measure::HeatFlow,
        Measure::Energy,
        Measure::CalorificValue,
        Measure::WaterFlow,
        Measure::GasFlow,
        Measure::BurnRate,
        Measure::FuelPerHeat,
        Measure::HeatCapacity,
        Measure::Conductance,
        Measure::ConductanceByArea,
        Measure::Share,
        Measure::Ratio,
    ];

    #[test]
    fn every_unit_of_the_table_is_known() {
        for measure in ALL {
            let row = measure.row();
            for symbol in [row.from, row.metric, row.us] {
                assert!(Unit::parse(symbol, row.kind).is_ok(), "{measure:?}: {symbol}");
            }
        }
    }

    /// NIST SP 811 (2008), appendix B.8: 1 lb = 0.453 592 37 kg, 1 gal (US) = 3.785 412 L, 1 Btu = 1.055 056 kJ,
    /// 1 Btu/h = 0.293 071 1 W, 1 Btu/(h ft2 degF) = 5.678 263 W/(m2 K), 1 Btu/lb = 2.326 kJ/kg.
    #[test]
    fn united_states_units_agree_with_published_factors() {
        let table = [
            (Measure::Temperature, 100.0, 212.0, "degF"),
            (Measure::TemperatureDifference, 1.0, 1.8, "degF"),
            (Measure::HeatingRate, 0.5, 0.9, "degF/min"),
            (Measure::Mass, 0.453_592_37, 1.0, "lb"),
            (Measure::Volume, 3.785_412e-3, 1.0, "US gal"),
            (Measure::HeatFlow, 0.293_071_1, 1.0, "Btu/h"),
            (Measure::Energy, 1.055_056e-3, 1.0, "Btu"),
            (Measure::CalorificValue, 2326.0, 1.0, "Btu/lb"),
            (Measure::BurnRate, 0.453_592_37, 1.0, "lb/h"),
            (Measure::GasFlow, 1.259_979e-4, 1.0, "lb/h"),
            (Measure::FuelPerHeat, 0.453_592_37, 1.0, "lb/kWh"),
            (Measure::Conductance, 0.527_527_9, 1.0, "Btu/(h degF)"),
            (Measure::ConductanceByArea, 5.678_263, 1.0, "Btu/(h ft2 degF)"),
        ];
        for (measure, from, to, symbol) in table {
            let unit = DisplayUnit::new(measure, Units::Us, Typography::Plain);
            assert!((unit.value(from) / to - 1.0).abs() < 1e-6, "{measure:?}: {}", unit.value(from));
            assert_eq!(unit.symbol, symbol);
        }
    }

    #[test]
    fn every_quantity_keeps_its_metric_value_up_to_a_power_of_ten_or_sixty() {
        for quantity in Quantity::ALL {
            let unit = DisplayUnit::new((*quantity).into(), Units::Metric, Typography::Plain);
            let factor = unit.value(1.0);
            assert!(
                [1e-3, 1.0, 60.0, 1.0 / 60.0, 100.0, 1e3].iter().any(|f| (factor / f - 1.0).abs() < 1e-12),
                "{unit:?}"
            );
        }
    }

    #[test]
    fn a_page_sets_symbols_with_their_signs() {
        let symbol = |m: Measure, units| DisplayUnit::new(m, units, Typography::Page).symbol;
        assert_eq!(symbol(Measure::ConductanceByArea, Units::Us), "Btu/(h·ft²·°F)");
        assert_eq!(symbol(Measure::ConductanceByArea, Units::Metric), "W/(m²·K)");
        assert_eq!(symbol(Measure::Temperature, Units::Metric), "°C");
    }
}
