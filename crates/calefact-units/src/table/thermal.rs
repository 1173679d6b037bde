//! Temperature, temperature difference and what is counted per kelvin.

use super::entry::{BTU, Entry, HOUR, LB, along, unit};
use crate::Kind;

/// One degree Fahrenheit (or Rankine) in kelvins.
const DEG_F: f64 = 5.0 / 9.0;

/// A scale of temperature by its line to degC: factor, offset and divisor.
const fn scale(symbol: &'static str, line: (f64, f64, f64), spellings: &'static [&'static str]) -> Entry {
    along(Kind::Temperature, symbol, line, spellings)
}

pub(crate) const TEMPERATURE: &[Entry] = &[
    scale(
        "degC",
        (1.0, 0.0, 1.0),
        &[
            "°C",
            "C",
            "Cel",
            "deg C",
            "degrees C",
            "degree C",
            "Celsius",
            "deg Celsius",
            "degrees Celsius",
            "centigrade",
        ],
    ),
    scale(
        "degF",
        (5.0, -160.0, 9.0),
        &["°F", "F", "[degF]", "deg F", "degrees F", "degree F", "Fahrenheit", "deg Fahrenheit", "degrees Fahrenheit"],
    ),
    scale("K", (100.0, -27_315.0, 100.0), &["kelvin", "kelvins", "°K", "degK"]),
    scale("degR", (100.0, -49_167.0, 180.0), &["°R", "[degR]", "deg R", "Rankine"]),
];

pub(crate) const DIFFERENCE: &[Entry] = &[
    difference("K", 1.0, &["kelvin", "kelvins", "delta K", "ΔK"]),
    difference("degC", 1.0, &["°C", "C", "Cel", "C°", "deg C", "degrees C", "Celsius", "delta degC", "Δ°C", "delta C"]),
    along(
        Kind::TemperatureDifference,
        "degF",
        (5.0, 0.0, 9.0),
        &["°F", "F", "[degF]", "F°", "deg F", "degrees F", "Fahrenheit", "delta degF", "Δ°F", "delta F"],
    ),
    along(Kind::TemperatureDifference, "degR", (5.0, 0.0, 9.0), &["°R", "[degR]", "deg R", "Rankine"]),
    difference("mK", 1e-3, &[]),
];

const fn difference(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::TemperatureDifference, symbol, factor, spellings)
}

const fn capacity(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::HeatCapacity, symbol, factor, spellings)
}

pub(crate) const HEAT_CAPACITY: &[Entry] = &[
    capacity("J/K", 1.0, &["J/°C", "J/degC", "J/C", "J/Cel"]),
    capacity("kJ/K", 1e3, &["kJ/°C", "kJ/degC", "kJ/C", "kJ/Cel"]),
    capacity("MJ/K", 1e6, &["MJ/°C", "MJ/degC", "MJ/Cel"]),
    capacity("mJ/K", 1e-3, &[]),
    capacity("Wh/K", HOUR, &["W h/K", "W.h/K", "Wh/°C", "Wh/degC"]),
    capacity("kWh/K", 1e3 * HOUR, &["kW.h/K", "kWh/°C", "kWh/degC"]),
    capacity("kcal/K", 4184.0, &["kcal/°C", "kcal/degC", "kcal_th/K"]),
    capacity("Btu/degF", BTU / DEG_F, &["Btu/°F", "Btu/F", "BTU/degF", "[Btu_IT]/[degF]"]),
];

const fn specific(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::SpecificHeat, symbol, factor, spellings)
}

pub(crate) const SPECIFIC_HEAT: &[Entry] = &[
    specific("J/(kg K)", 1.0, &["J/kg/K", "J/kg.K", "J/(kg degC)", "J/(kg °C)", "J/kg/°C", "J/kg/degC"]),
    specific(
        "kJ/(kg K)",
        1e3,
        &["kJ/kg/K", "J/(g K)", "J/g/K", "kJ/(kg degC)", "kJ/(kg °C)", "kJ/kg/°C", "kJ/kg/degC"],
    ),
    specific("Wh/(kg K)", HOUR, &["Wh/kg/K", "Wh/(kg °C)"]),
    specific(
        "kcal/(kg K)",
        4184.0,
        &["kcal/kg/K", "kcal/(kg °C)", "kcal/(kg degC)", "cal/(g K)", "cal/(g °C)", "cal/(g degC)", "cal/g/K"],
    ),
    specific(
        "Btu/(lb degF)",
        BTU / LB / DEG_F,
        &["Btu/(lb °F)", "Btu/(lb F)", "Btu/lb/°F", "Btu/lb/degF", "Btu/lb/F", "[Btu_IT]/[lb_av]/[degF]"],
    ),
];

const fn conductance(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Conductance, symbol, factor, spellings)
}

pub(crate) const CONDUCTANCE: &[Entry] = &[
    conductance("W/K", 1.0, &["W/°C", "W/degC", "W/C", "W/Cel", "J/s/K"]),
    conductance("kW/K", 1e3, &["kW/°C", "kW/degC", "kW/C", "kJ/s/K"]),
    conductance(
        "Btu/(h degF)",
        BTU / HOUR / DEG_F,
        &["Btu/(h °F)", "Btu/(hr °F)", "Btu/(hr degF)", "Btu/h/°F", "Btu/h/degF", "Btu/hr/°F", "Btu/h/F", "Btu/hr/F"],
    ),
    conductance("kcal/(h K)", 4184.0 / HOUR, &["kcal/(h °C)", "kcal/h/K", "kcal/h/°C"]),
];
