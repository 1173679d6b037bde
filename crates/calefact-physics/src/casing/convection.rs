//! The correlation of Churchill and Chu for an upright wall, laminar and turbulent flow alike.

use crate::PhysicsError;

/// Mean Nusselt number of an upright wall from the Rayleigh number and the Prandtl number of air.
///
/// (0.825 + 0.387 Ra^(1/6)/(1 + (0.492/Pr)^(9/16))^(8/27))^2.
///
/// # Errors
/// If `rayleigh` is outside 0 to 1e12 or `prandtl` is not positive.
pub(super) fn nusselt(rayleigh: f64, prandtl: f64) -> Result<f64, PhysicsError> {
    let ra = PhysicsError::check("Rayleigh number", rayleigh, 0.0, 1e12)?;
    let pr = PhysicsError::positive("Prandtl number", prandtl)?;
    let spread = libm::pow(1.0 + libm::pow(0.492 / pr, 9.0 / 16.0), 8.0 / 27.0);
    let root = 0.825 + 0.387 * libm::pow(ra, 1.0 / 6.0) / spread;
    Ok(root * root)
}

#[cfg(test)]
mod tests {
    use super::nusselt;

    /// `ht.conv_free_immersed.Nu_vertical_plate_Churchill` of the library ht 1.2.0.
    #[test]
    fn nusselt_numbers_of_a_library() {
        for (prandtl, rayleigh, expected) in [
            (0.7, 1e5, 9.198_488_134_386_638),
            (0.7, 1e9, 122.615_057_663_336_07),
            (0.69, 5e10, 419.179_396_761_219_44),
        ] {
            let number = nusselt(rayleigh, prandtl).unwrap();
            assert!((number / expected - 1.0).abs() < 1e-10, "{number} is not {expected}");
        }
    }

    #[test]
    fn surfaces_beyond_the_correlation_are_refused() {
        assert!(nusselt(1e12, 0.7).is_ok());
        assert!(nusselt(1.001e12, 0.7).is_err());
        assert!(nusselt(1e9, 0.0).is_err());
    }
}
