//! Figures behind the cautions a report shows. They warn; local codes and licensed practice decide.
//!
//! Sources are secondary where said so; published lists of scald times differ, and no conclusion should rest on one.

/// Degrees Fahrenheit in degC, rounded as a cell of a log is: a reading of just the limit has reached it.
const fn celsius(fahrenheit: f64) -> f64 {
    (5.0 * fahrenheit - 160.0) / 9.0
}

/// Flue gas below this, degC, lets tar condense as creosote: 250 degF (Alaska DEC Division of Air Quality brochure,
/// quoted in a secondary source). The dew point of the water itself lies far lower.
pub const CREOSOTE_FLUE_GAS: f64 = celsius(250.0);

/// Melting begins, degC: tin-lead 50-50 solder, and the eutectic in any tin-lead joint (from memory).
pub const SOLDER_TIN_LEAD: f64 = 183.0;
/// Melting begins, degC: lead-free tin-silver and tin-copper solders, 217 to 227, stated low (from memory).
pub const SOLDER_LEAD_FREE: f64 = 220.0;
/// Greatest service temperature of soldered copper joints, degC: 250 degF (Copper Development Association, Copper Tube
/// Handbook, table 14.4a).
pub const SOLDERED_JOINT_SERVICE: f64 = celsius(250.0);

/// Water in a tub never above this, degC: 104 degF (US CPSC release 79-071, 1979; UL 1563 clause 32.1).
pub const TUB_LIMIT: f64 = 40.0;
/// Error of a tub's thermometer or thermostat to reckon with, K: 4 degF (the same release).
pub const TUB_THERMOSTAT_ERROR: f64 = 4.0 / 1.8;

/// Water that scalds within minutes, degC: 120 degF, second-degree burn in about 8 min (after Moritz and Henriques
/// 1947, secondary source).
pub const SCALD_SLOW: f64 = celsius(120.0);
/// Water that scalds within seconds, degC: 140 degF, second-degree burn in about 3 s (the same).
pub const SCALD_FAST: f64 = 60.0;

/// Bacteria such as legionella grow between these, degC (WHO 2007, quoted in a secondary source).
pub const LEGIONELLA_GROWTH: (f64, f64) = (25.0, 45.0);
/// Hot water is stored above this, degC: 140 degF (ASHRAE Guideline 12-2000, 4.1.6, quoted in a secondary source).
pub const LEGIONELLA_STORE: f64 = 60.0;

/// Distance of a coil outlet to the boiling point of the place that calls for a caution, K (common practice, no
/// source): the weather moves the boiling point by about 0.85 K, a class 2 probe errs by 2.5 K.
pub const COIL_BOIL_MARGIN: f64 = 5.0;
/// Volume of steam over that of the water it came from at 1 atm (IAPWS-IF97: 1603.6).
pub const STEAM_EXPANSION: f64 = 1603.6;
