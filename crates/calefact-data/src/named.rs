//! From what a person calls an apparatus to its id.

use crate::apparatus::{Fuel, FuelClass};
use crate::text::header::{canonical, same_name};
use crate::{Apparatus, ApparatusKind, RegisterRow};

/// Fuels that need no entry: wood of a class alone. Softwood is that of conifers, hardwood that of broadleaves; common practice, no
/// source.
const USUAL_FUELS: [(&str, FuelClass); 2] = [("softwood", FuelClass::Coniferous), ("hardwood", FuelClass::Broadleaf)];

/// The id that a text means: one as written, or the one entry whose id or name differs from it in case and spaces alone, or
/// one of the usual fuels.
pub(crate) fn id(apparatus: &Apparatus, kind: ApparatusKind, text: &str) -> Option<String> {
    if apparatus.has(kind, text) {
        return Some(text.to_owned());
    }
    let entries = apparatus.entries(kind);
    let is_it =
        |(id, name): &&(&str, &str)| canonical(id) == canonical(text) || !name.is_empty() && same_name(name, text);
    let mut found = entries.iter().filter(is_it);
    if let (Some((id, _)), None) = (found.next(), found.next()) {
        return Some((*id).to_owned());
    }
    let usual = USUAL_FUELS.iter().find(|(id, _)| kind == ApparatusKind::Fuel && *id == canonical(text));
    usual.map(|(id, _)| (*id).to_owned())
}

/// Adds the usual fuels that rows name and no entry describes.
pub(crate) fn add_usual_fuels(apparatus: &mut Apparatus, rows: &[RegisterRow]) {
    for (id, class) in USUAL_FUELS {
        if rows.iter().any(|row| row.fuel.as_deref() == Some(id)) {
            let fuel = || Fuel { name: id.into(), class: Some(class), ..Fuel::default() };
            apparatus.fuels.entry(id.into()).or_insert_with(fuel);
        }
    }
}
