//! Density, enthalpy and heat capacity of liquid water at 0.1 MPa.
//!
//! Source: IAPWS SR6-08(2011), "Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa", equations 1
//! to 3 and tables 1 to 3. The pressure of the place matters nothing here: 0.1 MPa against 0.08 MPa changes the
//! density by 0.01 kg/m3 and the enthalpy by 0.02 kJ/kg.

use crate::kelvin::ZERO_C;

/// Temperatures the formulation is stated for, degC. Outside it the functions of this file return NaN.
const RANGE_C: (f64, f64) = (-20.0, 110.0);

/// Specific gas constant of the release, J/(kg K).
const R: f64 = 461.518_05;
/// Reducing temperature, K.
const T_R: f64 = 10.0;
/// Poles of the two series, K.
const T_A: f64 = 593.0;
const T_B: f64 = 232.0;
/// Pressure of the release, Pa.
const P_0: f64 = 1e5;

/// (exponent, coefficient) of the caloric series in alpha and beta.
const A_G: [(i32, f64); 3] = [(4, -1.661_470_539e5), (5, 2.708_781_640e6), (7, -1.557_191_544e8)];
const B_G: [(i32, f64); 4] = [(2, -8.237_426_256e-1), (3, 1.908_956_353), (4, -2.017_597_384), (5, 8.546_361_348e-1)];
/// The terms of the caloric part that are no series; the second one belongs to the entropy alone.
const C_1: f64 = -2.452_093_414e2;
const C_3: f64 = -8.983_025_854;

/// (exponent, coefficient) of the volume series.
const A_V: [(i32, f64); 5] =
    [(4, 6.744_584_46e3), (5, -2.225_216_04e5), (7, 1.002_312_47e8), (8, -1.635_521_18e9), (9, 8.322_996_58e9)];
const B_V: [(i32, f64); 6] = [
    (1, 5.785_452_92e-3),
    (2, -1.531_956_65e-2),
    (3, 3.113_378_59e-2),
    (4, -4.235_462_41e-2),
    (5, 3.387_135_07e-2),
    (6, -1.199_467_61e-2),
];
const A_5: f64 = 1.937_631_57e-2;

/// The reduced variables tau, alpha, beta; none outside the range.
fn reduced(t_c: f64) -> Option<(f64, f64, f64)> {
    let t = t_c + ZERO_C;
    (RANGE_C.0..=RANGE_C.1).contains(&t_c).then(|| (t / T_R, T_R / (T_A - t), T_R / (t - T_B)))
}

fn sum(terms: &[(i32, f64)], x: f64, weight: impl Fn(f64) -> f64) -> f64 {
    terms.iter().map(|&(n, c)| c * x.powi(n) * weight(f64::from(n))).sum()
}

/// Density in kg/m3 of liquid water at `t_c` degC.
pub fn density(t_c: f64) -> f64 {
    reduced(t_c).map_or(f64::NAN, |(_, a, b)| {
        let volume = A_5 + sum(&A_V, a, |_| 1.0) + sum(&B_V, b, |_| 1.0);
        P_0 / (R * T_R * volume)
    })
}

/// Specific enthalpy in J/kg of liquid water at `t_c` degC; zero is the liquid at its triple point, as in steam tables.
///
/// h = g - T dg/dT, with the derivative of the release's series taken term by term.
///
/// ```
/// use calefact_physics::water::{density, enthalpy};
///
/// // 100 L read at 15 degC, heated to 60 degC.
/// let heat = 0.1 * density(15.0) * (enthalpy(60.0) - enthalpy(15.0));
/// assert!((heat / 1e6 - 18.80).abs() < 0.01);
/// ```
pub fn enthalpy(t_c: f64) -> f64 {
    reduced(t_c).map_or(f64::NAN, |(tau, a, b)| {
        let series = sum(&A_G, a, |n| 1.0 - n * tau * a) + sum(&B_G, b, |m| 1.0 + m * tau * b);
        R * T_R * (C_1 - C_3 * tau + series)
    })
}

/// Isobaric heat capacity in J/(kg K) of liquid water at `t_c` degC.
///
/// c_p = -T d2g/dT2.
pub fn heat_capacity(t_c: f64) -> f64 {
    reduced(t_c).map_or(f64::NAN, |(tau, a, b)| {
        let second = |n: f64| n * (n + 1.0);
        -R * (C_3 + tau * (a * a * sum(&A_G, a, second) + b * b * sum(&B_G, b, second)))
    })
}
