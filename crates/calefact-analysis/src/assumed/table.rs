//! The one table of ranges for inputs that nobody recorded.
//!
//! Only limits are known of such an input: its value is the middle of the range and its standard uncertainty half the width
//! over the square root of three (rectangular, GUM 4.3.7). Each range carries the mark of its reason: P, a published figure;
//! C, common practice, no source; R, reasoning given beside it. Who shares an assumed input is in [`owner`](super::owner).

use crate::fact::AssumedInput;
use calefact_data::apparatus::{Composition, FuelClass, Material};
use calefact_physics::fuel::typical;

/// Lower and upper end.
pub(crate) type Limits = (f64, f64);

/// Heat capacity of a vessel as a share of that of its water when full. R: a drum of 18 to 25 kg of steel for 200 L is 1 to
/// 1.5 %, only plastic foil is below 0.5 %; a heavier vessel (cast iron: 3 kg/L is 33 %) has to state its own.
pub(crate) const VESSEL_SHARE: Limits = (0.005, 0.08);

/// Wall of a vessel of a stated material, m; its heat capacity is that of a closed cylinder of this wall. C: sheet of which
/// drums, boilers and pots are made.
pub(crate) const fn wall(material: Material) -> Limits {
    match material {
        Material::Steel => (0.6e-3, 3e-3),
        Material::Stainless | Material::Copper => (0.5e-3, 2e-3),
        Material::Aluminium => (1e-3, 5e-3),
    }
}

/// Height of a vessel over its diameter. C: drums, boilers and pots.
pub(crate) const HEIGHT: Limits = (1.0, 2.0);

/// Heat transfer through the wall of a vessel to still air, W/(m2 K). P: bare steel loses about 2 BTU/(ft2 h degF), 11 W/(m2
/// K), at 60 degC in still air (The Engineering ToolBox, heat loss from open water tanks); 0.5 is about 8 cm of mineral wool.
pub(crate) const WALL_TRANSFER: Limits = (0.5, 12.0);

/// Heat transfer of a top that is open or not stated, on top of that of the wall, W/(m2 K). P: evaporation and convection of
/// an open surface at 60 degC come to 5 to 8 BTU/(ft2 h degF), 28 to 45 W/(m2 K) (same table).
pub(crate) const TOP_TRANSFER: Limits = (0.0, 50.0);

/// Air less the tank's temperature at the start, K, of a tank that starts below [`WARM`]. R: water drawn cold stands within
/// that of the air in most places.
pub(crate) const AIR_ABOVE_START: Limits = (-15.0, 20.0);

/// Air wherever people burn wood, degC. R: fires are rarely lit outside of these.
pub(crate) const AIR: Limits = (-30.0, 45.0);

/// Air beside a tank that starts warm, degC: its start says nothing of the air. C.
pub(crate) const AIR_BESIDE_WARM: Limits = (-15.0, 35.0);

/// Tank temperature from which its start is not that of water drawn cold, degC. R: tap and well water is below it.
pub(crate) const WARM: f64 = 30.0;

/// Kindling as a share of the fuel mass. C: a handful of sticks; none if it was counted as fuel.
pub(crate) const KINDLING: Limits = (0.0, 0.08);

/// Wood left over as a share of the fuel mass. C.
pub(crate) const LEFTOVER_FUEL: Limits = (0.0, 0.15);

/// Char left over as a share of the fuel mass. C: the bed of charcoal of a batch.
pub(crate) const LEFTOVER_CHAR: Limits = (0.0, 0.06);

/// Moisture of firewood, wet basis. P: classes M20 and M25 of ISO 17225-5 bracket firewood as sold, from memory.
pub(crate) const MOISTURE: Limits = (0.12, 0.30);

/// Words in the name of a fuel or in a further register column that narrow its moisture. C; fresh wood is about half water.
pub(crate) const MOISTURE_WORDS: [(&str, Limits); 3] =
    [("kiln", (0.08, 0.15)), ("seasoned", (0.15, 0.25)), ("fresh", (0.35, 0.55))];

/// Net calorific value of dry wood of no class, J/kg. P: ISO 17225-1, table of typical values, from memory.
pub(crate) const CALORIFIC_VALUE: Limits = (17.9e6, 20.2e6);

/// Standard uncertainty of a net calorific value that is stated without any, J/kg. C.
pub(crate) const STATED_CALORIFIC_VALUE: f64 = 0.3e6;

/// Net calorific value of char, J/kg. P: default of the IPCC 2006 Guidelines, 29.5 MJ/kg, volume 2, table 1.2, from memory;
/// both ends C.
pub(crate) const CHAR_VALUE: Limits = (28e6, 33e6);

/// Relative standard uncertainty of a char's calorific value that is stated without any. C.
pub(crate) const STATED_CHAR_VALUE: f64 = 0.1;

/// Composition of dry wood of no class: the mean of both classes. R: they differ by a twenty-fifth in carbon and less in
/// gross value, which every other input of the flue gas exceeds, so no range is carried.
pub(crate) fn composition() -> Composition {
    let [a, b] = [FuelClass::Coniferous, FuelClass::Broadleaf].map(|class| typical(class).composition());
    let mean = |x: f64, y: f64| 0.5 * (x + y);
    Composition {
        c: mean(a.c, b.c),
        h: mean(a.h, b.h),
        o: mean(a.o, b.o),
        n: mean(a.n, b.n),
        s: mean(a.s, b.s),
        ash: mean(a.ash, b.ash),
    }
}

/// Standard uncertainty that is left of an assumed input once it is recorded, as a share of that of its range. C: weighed or
/// read with the instruments of a shed; a class leaves the range of its typical values; a stated tolerance is about a third of
/// the assumed one.
pub(crate) const fn left_when_recorded(input: AssumedInput) -> f64 {
    match input {
        AssumedInput::VesselHeatCapacity
        | AssumedInput::LossCoefficient
        | AssumedInput::AirTemperature
        | AssumedInput::KindlingMass
        | AssumedInput::LeftoverFuel
        | AssumedInput::LeftoverChar => 0.1,
        AssumedInput::MoistureBasis => 0.0,
        AssumedInput::CalorificValue => 0.6,
        _ => 1.0 / 3.0,
    }
}
