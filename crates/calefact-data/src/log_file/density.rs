//! Density of water, to turn a volume flow into a mass flow.

/// Density of liquid water at 1 atm in kg/m3 at `t` degC, 0 to 150.
///
/// Kell, J. Chem. Eng. Data 20 (1975) 97:
/// rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4 - 280.54253e-12 t^5)
/// / (1 + 16.879850e-3 t). Temperatures outside are taken at the nearer end.
pub(super) fn water(t: f64) -> f64 {
    const TOP: [f64; 6] = [-280.542_53e-12, 105.563_02e-9, -46.170_461e-6, -7.987_040_1e-3, 16.945_176, 999.839_52];
    let t = t.clamp(0.0, 150.0);
    TOP.iter().fold(0.0_f64, |sum, c| sum.mul_add(t, *c)) / 16.879_850e-3_f64.mul_add(t, 1.0)
}

#[cfg(test)]
mod tests {
    use super::water;

    /// IAPWS-95 at 0.101325 MPa; the scales of temperature of 1968 and 1990 differ by less than this tolerance.
    #[test]
    fn agrees_with_iapws_95() {
        for (t, rho) in [(5.0, 999.9666), (20.0, 998.2072), (40.0, 992.2164), (60.0, 983.1958), (90.0, 965.3096)] {
            assert!((water(t) - rho).abs() < 0.03, "{t}: {}", water(t));
        }
    }
}
