//! Mass and volume. They never stand in for each other: a density is the reader's business.

use super::entry::{Entry, FT, GAL_IMP, GAL_US, INCH, LB, unit};
use crate::Kind;

const fn mass(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Mass, symbol, factor, spellings)
}

pub(crate) const MASS: &[Entry] = &[
    mass("kg", 1.0, &["kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"]),
    mass("g", 1e-3, &["gm", "gms", "gram", "grams", "gramme", "grammes"]),
    mass("mg", 1e-6, &["milligram", "milligrams"]),
    mass("t", 1e3, &["tonne", "tonnes", "metric ton", "metric tons", "Mg"]),
    mass("lb", LB, &["lbs", "lbm", "pound", "pounds", "#", "[lb_av]"]),
    mass("oz", LB / 16.0, &["ozs", "ounce", "ounces", "[oz_av]"]),
    mass("stone", 14.0 * LB, &["stones", "[stone_av]"]),
    mass("short_ton", 2000.0 * LB, &["short tons", "us ton", "us tons", "ton_us", "[ston_av]"]),
    mass("long_ton", 2240.0 * LB, &["long tons", "imperial ton", "imp ton", "ton_imp", "[lton_av]"]),
];

const fn volume(symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    unit(Kind::Volume, symbol, factor, spellings)
}

pub(crate) const VOLUME: &[Entry] = &[
    volume("m3", 1.0, &["cubic metre", "cubic metres", "cubic meter", "cubic meters", "cbm"]),
    volume("L", 1e-3, &["l", "ℓ", "ltr", "ltrs", "lt", "liter", "liters", "litre", "litres", "dm3"]),
    volume("mL", 1e-6, &["ml", "milliliter", "milliliters", "millilitre", "millilitres", "cm3", "cc"]),
    volume("cL", 1e-5, &["cl", "centilitre", "centilitres"]),
    volume("dL", 1e-4, &["dl", "decilitre", "decilitres"]),
    volume("hL", 0.1, &["hl", "hectolitre", "hectolitres"]),
    volume(
        "gal_us",
        GAL_US,
        &["US gal", "us gallon", "us gallons", "gal (US)", "gallon_us", "gallons_us", "USG", "[gal_us]"],
    ),
    volume(
        "gal_imp",
        GAL_IMP,
        &[
            "imp gal",
            "imperial gal",
            "imperial gallon",
            "imperial gallons",
            "gallon_imp",
            "gallons_imp",
            "UK gal",
            "UK gallon",
            "UK gallons",
            "gal_uk",
            "[gal_br]",
        ],
    ),
    volume("qt_us", GAL_US / 4.0, &["us qt", "us quart", "us quarts", "[qt_us]"]),
    volume("qt_imp", GAL_IMP / 4.0, &["imp qt", "imperial quart", "imperial quarts", "uk quart", "[qt_br]"]),
    volume("pt_us", GAL_US / 8.0, &["us pt", "us pint", "us pints", "[pt_us]"]),
    volume("pt_imp", GAL_IMP / 8.0, &["imp pt", "imperial pint", "imperial pints", "uk pint", "uk pints", "[pt_br]"]),
    volume("fl_oz_us", GAL_US / 128.0, &["us fl oz", "us fluid ounce", "[foz_us]"]),
    volume("fl_oz_imp", GAL_IMP / 160.0, &["imp fl oz", "imperial fluid ounce", "uk fl oz", "[foz_br]"]),
    volume("in3", INCH * INCH * INCH, &["cu in", "cubic inch", "cubic inches", "[cin_i]"]),
    volume("ft3", FT * FT * FT, &["cu ft", "cuft", "cubic foot", "cubic feet", "[cft_i]"]),
    // A stacked cord, 128 ft3 of wood, bark and air.
    volume("cord", 128.0 * FT * FT * FT, &["cords", "[crd_us]"]),
];
