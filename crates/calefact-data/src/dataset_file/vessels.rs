//! `[vessels.ID]`.

use crate::apparatus::{Stated, Vessel};
use crate::fact::DatasetFact;
use crate::toml_source::Table;

/// Specific heats near room temperature, J/(kg K). From memory of the table of metallic solids at 300 K in Incropera &
/// DeWitt, appendix A.1: plain carbon steel 434, AISI 304 477, pure copper 385, pure aluminium 903.
pub(super) const MATERIALS: [(&str, f64); 4] =
    [("steel", 434.0), ("stainless", 477.0), ("copper", 385.0), ("aluminium", 903.0)];

/// Reads a vessel.
pub(super) fn vessel(table: &Table<'_>) -> Vessel {
    let stated = table.stated("heat_capacity");
    let from_mass = from_mass(table);
    if stated.is_some() && from_mass.is_some() {
        table.report(DatasetFact::HeatCapacityTwice { table: table.path().into() });
    }
    Vessel {
        name: table.string("name"),
        heat_capacity: stated.or(from_mass),
        volume: table.stated("volume"),
        loss_coefficient: table.stated("loss_coefficient"),
    }
}

/// Heat capacity C = m c, J/K.
fn from_mass(table: &Table<'_>) -> Option<Stated> {
    let (given, missing) = match (table.item("mass").is_some(), table.item("material").is_some()) {
        (true, false) => ("mass", "material"),
        (false, true) => ("material", "mass"),
        _ => {
            let (mass, c) = (table.stated("mass")?, table.word("material", &MATERIALS)?);
            return Some(Stated { value: mass.value * c, std_uncertainty: mass.std_uncertainty.map(|u| u * c) });
        }
    };
    table.report(DatasetFact::HalfHeatCapacity { table: table.path().into(), given, missing });
    None
}
