//! Length, area, time and pure numbers.

use super::entry::{Entry, FT, HOUR, INCH, MIN, unit};
use crate::Kind;

const fn length(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Length, symbol, factor, spellings)
}

pub(crate) const LENGTH: &[Entry] = &[
    length("m", 1.0, &["metre", "metres", "meter", "meters"]),
    length("mm", 1e-3, &["millimetre", "millimetres", "millimeter", "millimeters"]),
    length("cm", 1e-2, &["centimetre", "centimetres", "centimeter", "centimeters"]),
    length("km", 1e3, &["kilometre", "kilometres", "kilometer", "kilometers"]),
    length("in", INCH, &["\"", "''", "inch", "inches", "[in_i]"]),
    length("ft", FT, &["'", "foot", "feet", "[ft_i]"]),
    length("yd", 3.0 * FT, &["yard", "yards", "[yd_i]"]),
    length("mi", 5280.0 * FT, &["mile", "miles", "[mi_i]"]),
];

const fn area(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Area, symbol, factor, spellings)
}

pub(crate) const AREA: &[Entry] = &[
    area("m2", 1.0, &["sq m", "square metre", "square metres", "square meter", "square meters"]),
    area("cm2", 1e-4, &["sq cm"]),
    area("mm2", 1e-6, &["sq mm"]),
    area("in2", INCH * INCH, &["sq in", "square inch", "square inches", "[sin_i]"]),
    area("ft2", FT * FT, &["sq ft", "sqft", "square foot", "square feet", "[sft_i]"]),
];

const fn time(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Time, symbol, factor, spellings)
}

pub(crate) const TIME: &[Entry] = &[
    time("s", 1.0, &["sec", "secs", "second", "seconds"]),
    time("ms", 1e-3, &["msec", "millisecond", "milliseconds"]),
    time("min", MIN, &["mins", "minute", "minutes"]),
    time("h", HOUR, &["hr", "hrs", "hour", "hours"]),
    time("d", 24.0 * HOUR, &["day", "days"]),
];

const fn fraction(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Fraction, symbol, factor, spellings)
}

pub(crate) const FRACTION: &[Entry] = &[
    fraction("1", 1.0, &["-", "fraction", "ratio", "kg/kg", "m3/m3"]),
    fraction("%", 1e-2, &["percent", "per cent", "pct", "vol%", "% vol", "vol.-%", "mass%", "wt%"]),
    fraction("ppth", 1e-3, &["‰", "permille", "per mille", "[ppth]", "g/kg"]),
    fraction("ppm", 1e-6, &["ppmv", "[ppm]", "mg/kg"]),
    fraction("ppb", 1e-9, &["ppbv", "[ppb]"]),
];
