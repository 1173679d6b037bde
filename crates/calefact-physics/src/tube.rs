//! Copper water tube.
//!
//! Source: ASTM B88, types L and M (from memory). The outside diameter is the nominal size and an eighth of an inch.

/// Inch in metres.
const INCH: f64 = 0.0254;

/// Thermal conductivity of copper C12200, W/(m K) (from memory).
pub const COPPER_CONDUCTIVITY: f64 = 340.0;
/// Density of copper, kg/m3 (from memory).
pub const COPPER_DENSITY: f64 = 8940.0;

/// Wall of a copper tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wall {
    /// Medium.
    L,
    /// Light.
    M,
}

/// One nominal size, lengths in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Nominal size as spoken, in inches.
    pub nominal: &'static str,
    /// Outside diameter.
    pub outside: f64,
    /// Wall of type L.
    pub wall_l: f64,
    /// Wall of type M.
    pub wall_m: f64,
}

impl Size {
    const fn inches(nominal: &'static str, outside: f64, wall_l: f64, wall_m: f64) -> Self {
        Self { nominal, outside: outside * INCH, wall_l: wall_l * INCH, wall_m: wall_m * INCH }
    }

    /// Inside diameter, m.
    pub const fn inside(&self, wall: Wall) -> f64 {
        self.outside - 2.0 * self.wall(wall)
    }

    /// Wall thickness, m.
    pub const fn wall(&self, wall: Wall) -> f64 {
        match wall {
            Wall::L => self.wall_l,
            Wall::M => self.wall_m,
        }
    }
}

/// Sizes a coil is wound from.
pub const SIZES: [Size; 4] = [
    Size::inches("3/8", 0.500, 0.035, 0.025),
    Size::inches("1/2", 0.625, 0.040, 0.028),
    Size::inches("3/4", 0.875, 0.045, 0.032),
    Size::inches("1", 1.125, 0.050, 0.035),
];

/// The size of a nominal name such as `"1/2"`.
pub fn size(nominal: &str) -> Option<&'static Size> {
    SIZES.iter().find(|s| s.nominal == nominal.trim())
}
