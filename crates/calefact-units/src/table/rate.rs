//! Pressure, mass flow and volume flow.

use super::entry::{Entry, FT, GAL_IMP, GAL_US, GRAVITY, HOUR, INCH, LB, MIN, unit};
use crate::Kind;

/// Density of conventional mercury (0 degC) in kg/m3.
const MERCURY: f64 = 13_595.1;
/// Density of conventional water in kg/m3.
const WATER: f64 = 1000.0;

const fn pressure(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Pressure, symbol, factor, spellings)
}

pub(crate) const PRESSURE: &[Entry] = &[
    pressure("Pa", 1.0, &["pascal", "pascals", "N/m2"]),
    pressure("mPa", 1e-3, &["millipascal"]),
    pressure("hPa", 1e2, &["hectopascal", "hectopascals"]),
    pressure("kPa", 1e3, &["kilopascal", "kilopascals"]),
    pressure("MPa", 1e6, &["megapascal", "megapascals"]),
    pressure("bar", 1e5, &["bars"]),
    pressure("mbar", 1e2, &["millibar", "millibars"]),
    pressure("atm", 101_325.0, &["atmosphere", "atmospheres"]),
    pressure("psi", LB * GRAVITY / (INCH * INCH), &["psia", "lbf/in2", "[psi]"]),
    pressure("inHg", MERCURY * GRAVITY * INCH, &["in Hg", "\"Hg", "inches Hg", "inch of mercury", "[in_i'Hg]"]),
    pressure("mmHg", MERCURY * GRAVITY * 1e-3, &["mm Hg", "mm[Hg]"]),
    pressure("inH2O", WATER * GRAVITY * INCH, &["in H2O", "\"H2O", "in wc", "in wg", "\"wc", "[in_i'H2O]"]),
    pressure("mmH2O", WATER * GRAVITY * 1e-3, &["mm H2O", "mm wc", "mm[H2O]"]),
];

const fn mass_flow(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::MassFlow, symbol, factor, spellings)
}

pub(crate) const MASS_FLOW: &[Entry] = &[
    mass_flow("kg/s", 1.0, &["kg/sec"]),
    mass_flow("kg/min", 1.0 / MIN, &[]),
    mass_flow("kg/h", 1.0 / HOUR, &["kg/hr", "kg/hour", "kgph"]),
    mass_flow("g/s", 1e-3, &["g/sec"]),
    mass_flow("g/min", 1e-3 / MIN, &[]),
    mass_flow("g/h", 1e-3 / HOUR, &["g/hr"]),
    mass_flow("lb/s", LB, &["lbs/s", "[lb_av]/s"]),
    mass_flow("lb/min", LB / MIN, &["lbs/min", "[lb_av]/min"]),
    mass_flow("lb/h", LB / HOUR, &["lb/hr", "lbs/h", "lbs/hr", "pph", "[lb_av]/h"]),
];

const fn volume_flow(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::VolumeFlow, symbol, factor, spellings)
}

pub(crate) const VOLUME_FLOW: &[Entry] = &[
    volume_flow("m3/s", 1.0, &[]),
    volume_flow("m3/h", 1.0 / HOUR, &["m3/hr", "cmh"]),
    volume_flow("L/s", 1e-3, &["l/s", "l/sec"]),
    volume_flow(
        "L/min",
        1e-3 / MIN,
        &["l/min", "lpm", "litre/min", "litres/min", "liter/min", "liters/min", "litres per minute", "dm3/min"],
    ),
    volume_flow("L/h", 1e-3 / HOUR, &["l/h", "l/hr", "lph", "litre/h", "litres/h", "liter/h", "liters/h"]),
    volume_flow("mL/s", 1e-6, &["ml/s", "cm3/s"]),
    volume_flow("mL/min", 1e-6 / MIN, &["ml/min", "cm3/min", "cc/min"]),
    volume_flow("gpm_us", GAL_US / MIN, &["us gpm", "US gal/min", "gal_us/min", "[gal_us]/min"]),
    volume_flow("gpm_imp", GAL_IMP / MIN, &["imp gpm", "imp gal/min", "gal_imp/min", "UK gpm", "[gal_br]/min"]),
    volume_flow("gph_us", GAL_US / HOUR, &["us gph", "US gal/h", "US gal/hr", "gal_us/h", "[gal_us]/h"]),
    volume_flow("gph_imp", GAL_IMP / HOUR, &["imp gph", "imp gal/h", "imp gal/hr", "gal_imp/h", "[gal_br]/h"]),
    volume_flow("cfm", FT * FT * FT / MIN, &["ft3/min", "cu ft/min", "[cft_i]/min"]),
];
