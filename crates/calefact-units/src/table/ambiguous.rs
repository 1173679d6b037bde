//! Spellings with two meanings that differ by more than a reading's error. They are refused with the choices.

use crate::Kind;

/// Spellings of one kind that could mean either of two units.
#[derive(Debug)]
pub(crate) struct Ambiguous {
    pub(crate) kind: Kind,
    pub(crate) spellings: &'static [&'static str],
    pub(crate) choices: &'static str,
}

const fn two(kind: Kind, choices: &'static str, spellings: &'static [&'static str]) -> Ambiguous {
    Ambiguous { kind, spellings, choices }
}

/// Compared without regard to case, after every exact spelling.
pub(crate) const AMBIGUOUS: &[Ambiguous] = &[
    two(
        Kind::Volume,
        "gal_us (3.785 L) or gal_imp (4.546 L)",
        &["gal", "gals", "gallon", "gallons", "liquid gallon", "liq gal"],
    ),
    two(Kind::Volume, "qt_us (0.946 L) or qt_imp (1.137 L)", &["qt", "qts", "quart", "quarts"]),
    two(Kind::Volume, "pt_us (0.473 L) or pt_imp (0.568 L)", &["pt", "pts", "pint", "pints"]),
    two(Kind::Volume, "fl_oz_us (29.57 mL) or fl_oz_imp (28.41 mL)", &["fl oz", "floz", "fluid ounce", "fluid ounces"]),
    // The ounce of mass is a unit of another kind; of a volume it can only be meant as one of these.
    two(
        Kind::Volume,
        "fl_oz_us (29.57 mL), fl_oz_imp (28.41 mL) or, by mass, [oz_av] (28.35 g)",
        &["oz", "ozs", "ounce", "ounces"],
    ),
    two(Kind::Volume, "mL (millilitre) or ML (megalitre)", &["ml"]),
    two(Kind::VolumeFlow, "mL/min (millilitre) or ML/min (megalitre)", &["ml/min"]),
    two(
        Kind::VolumeFlow,
        "gpm_us (3.785 L/min) or gpm_imp (4.546 L/min)",
        &["gpm", "gal/min", "gallon/min", "gallons/min", "gallons per minute"],
    ),
    two(
        Kind::VolumeFlow,
        "gph_us (3.785 L/h) or gph_imp (4.546 L/h)",
        &["gph", "gal/h", "gal/hr", "gallons/h", "gallons per hour"],
    ),
    two(Kind::Mass, "t (1000 kg), short_ton (907.2 kg) or long_ton (1016 kg)", &["ton", "tons"]),
    two(Kind::Mass, "mg (milligram) or Mg (tonne)", &["mg"]),
    two(Kind::Power, "mW (milliwatt) or MW (megawatt)", &["mw"]),
    two(Kind::Energy, "mJ (millijoule) or MJ (megajoule)", &["mj"]),
    two(Kind::Energy, "kBtu (thousand) or MMBtu (million)", &["MBtu"]),
    two(Kind::Energy, "therm_us (105 480 400 J) or therm_ec (105 505 585 J)", &["therm", "therms"]),
    two(Kind::Pressure, "mPa (millipascal) or MPa (megapascal)", &["mpa"]),
    two(Kind::SpecificEnergy, "mJ/kg (millijoule) or MJ/kg (megajoule)", &["mj/kg"]),
    two(Kind::HeatCapacity, "mJ/K (millijoule) or MJ/K (megajoule)", &["mj/k"]),
];
