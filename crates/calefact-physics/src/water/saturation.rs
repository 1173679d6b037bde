//! The boiling line: boiling temperature from pressure.
//!
//! Source: IAPWS-IF97 (2007 revision), region 4, equation 31, table 34.

use crate::kelvin::ZERO_C;

/// Cold end and critical end of the equation, MPa.
const P_RANGE: (f64, f64) = (611.212_677e-6, 22.064);

const N: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

/// Boiling temperature in degC at `p_pa` Pa; NaN outside 611.2 Pa to 22.064 MPa.
pub fn saturation_temperature(p_pa: f64) -> f64 {
    let p = p_pa / 1e6;
    if !(P_RANGE.0..=P_RANGE.1).contains(&p) {
        return f64::NAN;
    }
    let beta = p.sqrt().sqrt();
    let e = beta * beta + N[2] * beta + N[5];
    let f = N[0] * beta * beta + N[3] * beta + N[6];
    let g = N[1] * beta * beta + N[4] * beta + N[7];
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    (N[9] + d - ((N[9] + d) * (N[9] + d) - 4.0 * (N[8] + N[9] * d)).sqrt()) / 2.0 - ZERO_C
}
