//! `[vessels.ID]`.

use crate::apparatus::{Material, Stated, Top, Vessel};
use crate::fact::DatasetFact;
use crate::toml_source::Table;

/// Words for what a vessel is made of.
pub const MATERIALS: [(&str, Material); 4] = [
    ("steel", Material::Steel),
    ("stainless", Material::Stainless),
    ("copper", Material::Copper),
    ("aluminium", Material::Aluminium),
];

/// Words for the top of a vessel.
pub const TOPS: [(&str, Top); 2] = [("closed", Top::Closed), ("open", Top::Open)];

/// Reads a vessel.
pub(super) fn vessel(table: &Table<'_>) -> Vessel {
    let stated = table.stated("heat_capacity");
    let material = table.word("material", &MATERIALS);
    let from_mass = from_mass(table, material);
    if stated.is_some() && from_mass.is_some() {
        table.report(DatasetFact::HeatCapacityTwice { table: table.path().into() });
    }
    Vessel {
        name: table.string("name"),
        heat_capacity: stated.or(from_mass),
        volume: table.stated("volume"),
        loss_coefficient: table.stated("loss_coefficient"),
        material,
        top: table.word("top", &TOPS),
    }
}

/// Heat capacity C = m c, J/K. A material alone narrows the range that stands for the heat capacity.
fn from_mass(table: &Table<'_>, material: Option<Material>) -> Option<Stated> {
    let mass = table.stated("mass")?;
    let Some(material) = material else {
        if table.item("material").is_none() {
            table.report(DatasetFact::MassWithoutMaterial { table: table.path().into() });
        }
        return None;
    };
    let c = material.specific_heat();
    Some(Stated { value: mass.value * c, std_uncertainty: mass.std_uncertainty.map(|u| u * c) })
}
