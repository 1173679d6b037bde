//! Power, energy and energy per mass. A bare `Btu` is the international-table one, a bare `cal` the thermochemical.

use super::entry::{BTU, Entry, FT, GRAVITY, HOUR, LB, unit};
use crate::Kind;

/// Thermochemical calorie in joules.
const CAL: f64 = 4.184;
/// International-table calorie in joules.
const CAL_IT: f64 = 4.1868;
/// Thermochemical British thermal unit in joules: the calorie's share of [`BTU`].
const BTU_TH: f64 = BTU / CAL_IT * CAL;

const fn power(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Power, symbol, factor, spellings)
}

pub(crate) const POWER: &[Entry] = &[
    power("W", 1.0, &["watt", "watts", "J/s"]),
    power("mW", 1e-3, &["milliwatt", "milliwatts"]),
    power("kW", 1e3, &["kilowatt", "kilowatts", "kJ/s"]),
    power("MW", 1e6, &["megawatt", "megawatts", "MJ/s"]),
    power("kJ/h", 1e3 / HOUR, &["kJ/hr"]),
    power("MJ/h", 1e6 / HOUR, &["MJ/hr"]),
    power("kcal/h", 1e3 * CAL / HOUR, &["kcal/hr"]),
    power("Btu/h", BTU / HOUR, &["Btu/hr", "BTU per hour", "Btuh", "[Btu_IT]/h"]),
    power("kBtu/h", 1e3 * BTU / HOUR, &["kBtu/hr", "k[Btu_IT]/h"]),
    // 550 ft lbf/s.
    power("hp", 550.0 * FT * LB * GRAVITY, &["horsepower", "[HP]"]),
    // 75 kgf m/s.
    power("hp_metric", 75.0 * GRAVITY, &["metric hp", "PS", "cv"]),
    // Rounded in NIST SP 811 to six figures.
    power("hp_boiler", 9809.50, &["boiler hp", "boiler horsepower", "BHP"]),
];

const fn energy(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Energy, symbol, factor, spellings)
}

pub(crate) const ENERGY: &[Entry] = &[
    energy("J", 1.0, &["joule", "joules", "W s"]),
    energy("mJ", 1e-3, &["millijoule", "millijoules"]),
    energy("kJ", 1e3, &["kilojoule", "kilojoules"]),
    energy("MJ", 1e6, &["megajoule", "megajoules"]),
    energy("GJ", 1e9, &["gigajoule", "gigajoules"]),
    energy("Wh", HOUR, &["W h", "watt hour", "watt hours"]),
    energy("kWh", 1e3 * HOUR, &["kW h", "kilowatt hour", "kilowatt hours"]),
    energy("MWh", 1e6 * HOUR, &["MW h"]),
    energy("cal", CAL, &["cal_th", "calorie", "calories", "[cal_th]"]),
    energy("kcal", 1e3 * CAL, &["kcal_th", "kilocalorie", "kilocalories", "k[cal_th]"]),
    energy("cal_IT", CAL_IT, &["[cal_IT]"]),
    energy("kcal_IT", 1e3 * CAL_IT, &["k[cal_IT]"]),
    energy("Btu", BTU, &["BTU", "BTUs", "Btu_IT", "[Btu_IT]"]),
    energy("kBtu", 1e3 * BTU, &["k[Btu_IT]"]),
    energy("MMBtu", 1e6 * BTU, &[]),
    energy("Btu_th", BTU_TH, &["[Btu_th]"]),
    energy("therm_us", 105_480_400.0, &["us therm", "us therms"]),
    energy("therm_ec", 1e5 * BTU, &["ec therm", "uk therm", "uk therms"]),
];

const fn specific(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::SpecificEnergy, symbol, factor, spellings)
}

pub(crate) const SPECIFIC_ENERGY: &[Entry] = &[
    specific("J/kg", 1.0, &[]),
    specific("mJ/kg", 1e-3, &[]),
    specific("kJ/kg", 1e3, &["J/g"]),
    specific("MJ/kg", 1e6, &["GJ/t", "kJ/g"]),
    specific("Wh/kg", HOUR, &["W h/kg"]),
    specific("kWh/kg", 1e3 * HOUR, &["kW h/kg", "MWh/t"]),
    specific("kcal/kg", 1e3 * CAL, &["cal/g"]),
    // Exactly 2326 J/kg: the definition of the international-table Btu.
    specific("Btu/lb", 2326.0, &["BTU/lbs", "Btu per lb", "Btu_IT/lb", "[Btu_IT]/[lb_av]"]),
];
