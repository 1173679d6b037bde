//! Ranges of the vessel: heat capacity and loss coefficient from its volume, taken as a closed upright cylinder.

use super::table::{self, Limits};
use calefact_data::apparatus::{Top, Vessel};
use std::f64::consts::PI;

/// Heat capacity of water per volume near room temperature, J/(m3 K).
const WATER: f64 = 4.18e6;

/// Heat capacity, J/K, of a vessel that holds `volume`, m3.
pub(crate) fn heat_capacity(vessel: Option<&Vessel>, volume: f64) -> Limits {
    match vessel.and_then(|v| v.material) {
        Some(material) => {
            let per_metre = material.density() * material.specific_heat();
            let (thin, thick) = table::wall(material);
            (thin * per_metre * surface(volume).0, thick * per_metre * surface(volume).1)
        }
        None => (table::VESSEL_SHARE.0 * WATER * volume, table::VESSEL_SHARE.1 * WATER * volume),
    }
}

/// Loss coefficient, W/K, of a vessel that holds `volume`, m3.
pub(crate) fn loss_coefficient(vessel: Option<&Vessel>, volume: f64) -> Limits {
    let wall = (table::WALL_TRANSFER.0 * surface(volume).0, table::WALL_TRANSFER.1 * surface(volume).1);
    match vessel.and_then(|v| v.top) {
        Some(Top::Closed) => wall,
        Some(Top::Open) | None => {
            let top = open_top(volume);
            (wall.0 + top.0, wall.1 + top.1)
        }
    }
}

/// Part of an open top in the loss coefficient, W/K.
pub(crate) fn open_top(volume: f64) -> Limits {
    let widest = 0.25 * PI * diameter(volume, table::HEIGHT.0).powi(2);
    (table::TOP_TRANSFER.0 * widest, table::TOP_TRANSFER.1 * widest)
}

/// Least and greatest outer surface, m2, of closed cylinders with heights of 1 to 2 diameters.
pub(crate) fn surface(volume: f64) -> Limits {
    let area = |height: f64| PI * diameter(volume, height).powi(2) * (0.5 + height);
    (area(table::HEIGHT.0), area(table::HEIGHT.1))
}

/// Diameter, m, of a cylinder whose height is so many diameters: V = pi/4 d^3 h.
fn diameter(volume: f64, height: f64) -> f64 {
    libm::cbrt(4.0 * volume / (PI * height))
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::apparatus::Material;

    /// A 200 L drum has a diameter of about 0.57 m, a height of about 0.88 m and 18 to 25 kg of steel (common practice, no
    /// source): 8 to 11 kJ/K. Bare, it loses about 11 W/(m2 K) on 2.1 m2.
    #[test]
    fn a_drum_lies_inside() {
        let within = |x: f64, (low, high): Limits| low < x && x < high;
        let steel = Vessel { material: Some(Material::Steel), ..Vessel::default() };
        for vessel in [None, Some(&steel)] {
            for kj in [8e3, 11e3] {
                assert!(within(kj, heat_capacity(vessel, 0.2)), "{:?}", heat_capacity(vessel, 0.2));
            }
            assert!(within(11.0 * 2.1, loss_coefficient(vessel, 0.2)));
        }
        assert!(heat_capacity(Some(&steel), 0.2).1 < 0.5 * heat_capacity(None, 0.2).1, "the material narrows it");
        let closed = Vessel { top: Some(Top::Closed), ..Vessel::default() };
        assert!(loss_coefficient(Some(&closed), 0.2).1 < 0.7 * loss_coefficient(None, 0.2).1);
    }

    /// 1 m3: h = d gives d = (4/pi)^(1/3) = 1.0839 m and 1.5 pi d^2 = 5.536 m2.
    #[test]
    fn surface_of_a_cubic_metre() {
        assert!((surface(1.0).0 - 5.536).abs() < 1e-3, "{:?}", surface(1.0));
        assert!(surface(1.0).1 > surface(1.0).0);
    }
}
