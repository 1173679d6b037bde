//! Molar enthalpies of the gases in a flue.
//!
//! Sources: N2 and O2 by the Shomate equation of the NIST Chemistry WebBook (coefficients of NIST-JANAF, 4th edition);
//! CO2, H2O and CO by the seven-coefficient polynomials of GRI-Mech 3.0, because the Shomate sets of CO2 and CO begin
//! at 298 K and that of water vapour at 500 K, above the temperatures of a room and of a cool flue.

use crate::kelvin::ZERO_C;

/// Gas constant, J/(mol K) (SI, exact to the digits given).
const R: f64 = 8.314_462_618;
/// Reference temperature of the enthalpies, K.
const REFERENCE: f64 = 298.15;

/// A gas of the flue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Species {
    /// Nitrogen.
    N2,
    /// Oxygen.
    O2,
    /// Carbon dioxide.
    Co2,
    /// Water vapour.
    H2o,
    /// Carbon monoxide.
    Co,
}

/// A polynomial of one species in one span of temperature.
struct Fit {
    /// Lower and upper end, K.
    span: (f64, f64),
    form: Form,
}

#[derive(Clone, Copy)]
enum Form {
    /// A to F of H = A t + B t^2/2 + C t^3/3 + D t^4/4 - E/t + F in kJ/mol, t = T/1000.
    Shomate([f64; 6]),
    /// a1 to a6 of H/(R T) = a1 + a2 T/2 + a3 T^2/3 + a4 T^3/4 + a5 T^4/5 + a6/T.
    Nasa([f64; 6]),
}

impl Form {
    /// J/mol at `t` K, on the scale of the source.
    const fn enthalpy(self, t: f64) -> f64 {
        match self {
            Self::Shomate([a, b, c, d, e, f]) => {
                let k = t / 1000.0;
                1000.0 * (k * (a + k * (b / 2.0 + k * (c / 3.0 + k * d / 4.0))) - e / k + f)
            }
            Self::Nasa([a, b, c, d, e, f]) => {
                R * (t * (a + t * (b / 2.0 + t * (c / 3.0 + t * (d / 4.0 + t * e / 5.0)))) + f)
            }
        }
    }
}

const fn shomate(low: f64, high: f64, c: [f64; 6]) -> Fit {
    Fit { span: (low, high), form: Form::Shomate(c) }
}

/// The two spans of a GRI-Mech species, 200 to 1000 and 1000 to 3500 K.
const fn gri(low: [f64; 6], high: [f64; 6]) -> [Fit; 2] {
    [Fit { span: (200.0, 1000.0), form: Form::Nasa(low) }, Fit { span: (1000.0, 3500.0), form: Form::Nasa(high) }]
}

const N2: [Fit; 2] = [
    shomate(100.0, 500.0, [28.98641, 1.853_978, -9.647_459, 16.63537, 0.000_117, -8.671_914]),
    shomate(500.0, 2000.0, [19.50583, 19.88705, -8.598_535, 1.369_784, 0.527_601, -4.935_202]),
];
const O2: [Fit; 2] = [
    shomate(100.0, 700.0, [31.32234, -20.23531, 57.86644, -36.50624, -0.007_374, -8.903_471]),
    shomate(700.0, 2000.0, [30.03235, 8.772_972, -3.988_133, 0.788_313, -0.741_599, -11.32468]),
];

const CO2_LOW: [f64; 6] =
    [2.356_773_52, 8.984_596_77e-3, -7.123_562_69e-6, 2.459_190_22e-9, -1.436_995_48e-13, -4.837_196_97e4];
const CO2_HIGH: [f64; 6] =
    [3.857_460_29, 4.414_370_26e-3, -2.214_814_04e-6, 5.234_901_88e-10, -4.720_841_64e-14, -4.875_916_6e4];
const H2O_LOW: [f64; 6] =
    [4.198_640_56, -2.036_434_1e-3, 6.520_402_11e-6, -5.487_970_62e-9, 1.771_978_17e-12, -3.029_372_67e4];
const H2O_HIGH: [f64; 6] =
    [3.033_992_49, 2.176_918_04e-3, -1.640_725_18e-7, -9.704_198_7e-11, 1.682_009_92e-14, -3.000_429_71e4];
const CO_LOW: [f64; 6] =
    [3.579_533_47, -6.103_536_8e-4, 1.016_814_33e-6, 9.070_058_84e-10, -9.044_244_99e-13, -1.434_408_6e4];
const CO_HIGH: [f64; 6] =
    [2.715_185_61, 2.062_527_43e-3, -9.988_257_71e-7, 2.300_530_08e-10, -2.036_477_16e-14, -1.415_187_24e4];

const CO2: [Fit; 2] = gri(CO2_LOW, CO2_HIGH);
const H2O: [Fit; 2] = gri(H2O_LOW, H2O_HIGH);
const CO: [Fit; 2] = gri(CO_LOW, CO_HIGH);

/// Molar enthalpy in J/mol at `t_c` degC above that at 25 degC; NaN outside the published range (N2, O2: -173 to
/// 1727 degC; CO2, H2O, CO: -73 to 3227 degC).
pub(super) fn molar_enthalpy(species: Species, t_c: f64) -> f64 {
    let fits = match species {
        Species::N2 => &N2,
        Species::O2 => &O2,
        Species::Co2 => &CO2,
        Species::H2o => &H2O,
        Species::Co => &CO,
    };
    let kelvin = t_c + ZERO_C;
    let fit = fits.iter().find(|f| (f.span.0..=f.span.1).contains(&kelvin));
    // The lower span holds the reference temperature.
    fit.map_or(f64::NAN, |f| f.form.enthalpy(kelvin) - fits[0].form.enthalpy(REFERENCE))
}
