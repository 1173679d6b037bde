//! `[vessels.ID]`.

use super::limits::Limits;
use super::stated::stated;
use crate::apparatus::{Stated, Vessel};
use crate::toml_source::Table;
use calefact_units::Kind;

/// Specific heats near room temperature, J/(kg K). From memory of the table of metallic solids at 300 K in Incropera &
/// DeWitt, appendix A.1: plain carbon steel 434, AISI 304 477, pure copper 385, pure aluminium 903.
const MATERIALS: [(&str, f64); 4] = [("steel", 434.0), ("stainless", 477.0), ("copper", 385.0), ("aluminium", 903.0)];

/// Keys: `name`; `volume`; `heat_capacity` of the empty vessel, or `mass` and `material` (`steel`, `stainless`,
/// `copper`, `aluminium`); `loss_coefficient`, used only where no standing-loss trial exists. Each quantity may carry
/// `..._uncertainty` (one standard deviation).
pub(super) fn vessel(table: &Table<'_>) -> Vessel {
    // Zero is a statement, too: that the vessel is counted elsewhere, such as in the water.
    let direct = stated(table, "heat_capacity", "heat_capacity_uncertainty", Kind::HeatCapacity, Limits::NotNegative);
    let built = from_mass(table);
    if direct.is_some() && built.is_some() {
        let message = format!("[{}] gives both `heat_capacity` and `mass` with `material`", table.path());
        table.error("bad-value", &message, "keep one of them; `heat_capacity` is used");
    }
    Vessel {
        name: table.required_string("name").unwrap_or_default(),
        heat_capacity: direct.or(built),
        volume: stated(table, "volume", "volume_uncertainty", Kind::Volume, Limits::Positive),
        loss_coefficient: stated(
            table,
            "loss_coefficient",
            "loss_coefficient_uncertainty",
            Kind::Conductance,
            Limits::NotNegative,
        ),
    }
}

/// Heat capacity C = m c, J/K.
fn from_mass(table: &Table<'_>) -> Option<Stated> {
    let mass = stated(table, "mass", "mass_uncertainty", Kind::Mass, Limits::Positive);
    let material = table.optional("material");
    let (Some(mass), Some(material)) = (mass, &material) else {
        // A mass that is there but cannot be has its own finding.
        if table.optional("mass").is_some() != material.is_some() {
            let message = format!("[{}] needs both `mass` and `material` for a heat capacity", table.path());
            table.error("missing-key", &message, "give both, or `heat_capacity`");
        }
        return None;
    };
    let c = material.word(&MATERIALS)?;
    Some(Stated { value: mass.value * c, std_uncertainty: mass.std_uncertainty.map(|u| u * c) })
}
