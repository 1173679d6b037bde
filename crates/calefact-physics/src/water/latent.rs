//! Latent heat of evaporation, from the slope of the boiling line.
//!
//! Source: IAPWS SR1-86(1992), "Revised Supplementary Release on Saturation Properties of Ordinary Water Substance":
//! equations 1 to 3 for saturation pressure and the two saturated densities, tied by Clausius and Clapeyron.

use crate::ZERO_C;

/// Critical temperature K, pressure Pa, density kg/m3.
const T_C: f64 = 647.096;
const P_C: f64 = 22.064e6;
const RHO_C: f64 = 322.0;

/// (exponent, coefficient) in 1 - T/T_C of ln(p/p_c) T/T_c, of rho_liquid/rho_c - 1, of ln(rho_vapour/rho_c).
const PRESSURE: [(f64, f64); 6] = [
    (1.0, -7.859_517_83),
    (1.5, 1.844_082_59),
    (3.0, -11.786_649_7),
    (3.5, 22.680_741_1),
    (4.0, -15.961_871_9),
    (7.5, 1.801_225_02),
];
const LIQUID: [(f64, f64); 6] = [
    (1.0 / 3.0, 1.992_740_64),
    (2.0 / 3.0, 1.099_653_42),
    (5.0 / 3.0, -0.510_839_303),
    (16.0 / 3.0, -1.754_934_79),
    (43.0 / 3.0, -45.517_035_2),
    (110.0 / 3.0, -6.746_944_50e5),
];
const VAPOUR: [(f64, f64); 6] = [
    (2.0 / 6.0, -2.031_502_40),
    (4.0 / 6.0, -2.683_029_40),
    (8.0 / 6.0, -5.386_264_92),
    (18.0 / 6.0, -17.299_160_5),
    (37.0 / 6.0, -44.758_658_1),
    (71.0 / 6.0, -63.920_106_3),
];

fn sum(terms: &[(f64, f64)], theta: f64) -> f64 {
    terms.iter().map(|&(e, c)| c * theta.powf(e)).sum()
}

/// Heat in J/kg that evaporates water at `t_c` degC and its own boiling pressure; NaN outside 0 to 373 degC.
///
/// L = T (dp/dT) (1/rho'' - 1/rho').
pub fn latent_heat(t_c: f64) -> f64 {
    let t = t_c + ZERO_C;
    if !(0.0..=373.0).contains(&t_c) {
        return f64::NAN;
    }
    let theta = 1.0 - t / T_C;
    let exponent = sum(&PRESSURE, theta);
    let slope: f64 = PRESSURE.iter().map(|&(e, c)| c * e * theta.powf(e - 1.0)).sum();
    let pressure = P_C * (T_C / t * exponent).exp();
    // T dp/dT, from ln(p/p_c) = (T_c/T) f(theta).
    let t_dp_dt = -pressure * (slope + T_C / t * exponent);
    let liquid = RHO_C * (1.0 + sum(&LIQUID, theta));
    let vapour = RHO_C * sum(&VAPOUR, theta).exp();
    t_dp_dt * (1.0 / vapour - 1.0 / liquid)
}
