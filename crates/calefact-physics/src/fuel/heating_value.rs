//! Calorific values: dry or as fired, net or gross.
//!
//! Source: ISO 18125:2017 and ISO 17225-1 annex, formulas from memory; the slope with moisture is checked in the tests
//! against a table printed in a boiler's installation manual.

/// Heat that evaporates water at 25 degC and constant pressure, J/kg, as ISO 18125 rounds it.
const LATENT_HEAT_25_C: f64 = 2.443e6;
/// Net over gross per unit mass fraction of hydrogen, and of oxygen and nitrogen, J/kg (212.2 and 0.8 J/g per %).
const HYDROGEN: f64 = 2.122e7;
const OXYGEN_NITROGEN: f64 = 8e4;

/// Net calorific value as fired, J/kg, from that of dry matter and wet-basis moisture.
///
/// q_ar = q_d (1 - m) - 2.443e6 m.
pub fn net_as_fired(ncv_dry: f64, moisture_wet: f64) -> f64 {
    ncv_dry * (1.0 - moisture_wet) - LATENT_HEAT_25_C * moisture_wet
}

/// Gross calorific value of dry matter at constant volume, J/kg, from the net one at constant pressure and the mass
/// fractions of hydrogen, oxygen and nitrogen.
///
/// q_gr = q_net + 212.2 H + 0.8 (O + N) in J/g with mass shares in % of dry matter.
pub fn gross_dry(ncv_dry: f64, hydrogen: f64, oxygen: f64, nitrogen: f64) -> f64 {
    ncv_dry + HYDROGEN * hydrogen + OXYGEN_NITROGEN * (oxygen + nitrogen)
}
