//! The apparatus of several datasets as one.

use calefact_analysis::fact::PipelineFact;
use calefact_analysis::finding::Finding;
use calefact_data::{Apparatus, ApparatusKind};
use std::collections::BTreeMap;
use std::path::Path;

/// Joins the apparatus of a further dataset to what is there. An id names one thing throughout a pipeline: the same id with
/// another description is an error, since trials of two stoves would be taken for repeats of one.
pub(super) fn join(into: &mut Apparatus, from: &Apparatus, dataset: &Path, findings: &mut Vec<Finding>) {
    into.invented |= from.invented;
    if into.title.is_empty() {
        into.title.clone_from(&from.title);
        into.site.clone_from(&from.site);
    }
    let mut clash = |kind, id: &str| {
        let fact = PipelineFact::ApparatusConflict { kind, id: id.into(), dataset: dataset.into() };
        findings.push(Finding::error(fact));
    };
    join_entries(&mut into.stoves, &from.stoves, |id| clash(ApparatusKind::Stove, id));
    join_entries(&mut into.fuels, &from.fuels, |id| clash(ApparatusKind::Fuel, id));
    join_entries(&mut into.exchangers, &from.exchangers, |id| clash(ApparatusKind::Exchanger, id));
    join_entries(&mut into.vessels, &from.vessels, |id| clash(ApparatusKind::Vessel, id));
    join_entries(&mut into.instruments, &from.instruments, |id| clash(ApparatusKind::Instrument, id));
}

fn join_entries<T: Clone + PartialEq>(
    into: &mut BTreeMap<String, T>,
    from: &BTreeMap<String, T>,
    mut clash: impl FnMut(&str),
) {
    for (id, entry) in from {
        match into.get(id) {
            Some(there) if there != entry => clash(id),
            Some(_) => {}
            None => {
                into.insert(id.clone(), entry.clone());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::apparatus::Stove;

    fn with_stove(name: &str) -> Apparatus {
        let stove = Stove { name: name.into(), ..Stove::default() };
        Apparatus { stoves: BTreeMap::from([("box".to_string(), stove)]), ..Apparatus::default() }
    }

    #[test]
    fn the_same_entry_twice_is_one_and_another_is_an_error() {
        let mut findings = Vec::new();
        let mut all = with_stove("Box");
        join(&mut all, &with_stove("Box"), Path::new("b"), &mut findings);
        assert_eq!((all.stoves.len(), findings.len()), (1, 0));
        join(&mut all, &with_stove("Other"), Path::new("c"), &mut findings);
        assert_eq!((findings[0].code(), all.stoves["box"].name.as_str()), ("apparatus-conflict", "Box"));
    }
}
