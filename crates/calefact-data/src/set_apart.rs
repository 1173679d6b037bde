//! Ids of a rig that is kept apart from others, such as that of another person's bundle.

use crate::apparatus::Apparatus;
use crate::register::RegisterRow;
use std::collections::{BTreeMap, BTreeSet};

/// Puts a mark before the ids of all trials, and before those ids of the apparatus that mean something else in `others`; the names of
/// these get it, too.
pub(crate) fn set_apart(mark: &str, (own, rows): (&mut Apparatus, &mut [RegisterRow]), others: &Apparatus) {
    let stoves = rename(mark, &mut own.stoves, &others.stoves, |entry| &mut entry.name);
    let fuels = rename(mark, &mut own.fuels, &others.fuels, |entry| &mut entry.name);
    let exchangers = rename(mark, &mut own.exchangers, &others.exchangers, |entry| &mut entry.name);
    let vessels = rename(mark, &mut own.vessels, &others.vessels, |entry| &mut entry.name);
    rename(mark, &mut own.instruments, &others.instruments, |entry| &mut entry.name);
    for row in rows {
        row.trial = marked(mark, &row.trial);
        for (id, renamed) in [(&mut row.stove, &stoves), (&mut row.fuel, &fuels), (&mut row.exchanger, &exchangers)] {
            *id = id.take().map(|id| if renamed.contains(&id) { marked(mark, &id) } else { id });
        }
        if vessels.contains(&row.vessel) {
            row.vessel = marked(mark, &row.vessel);
        }
    }
}

fn marked(mark: &str, id: &str) -> String {
    format!("{mark}:{id}")
}

/// Renames the entries of which another is known under the same id; gives these ids.
fn rename<T: Clone + PartialEq>(
    mark: &str,
    own: &mut BTreeMap<String, T>,
    others: &BTreeMap<String, T>,
    name: impl Fn(&mut T) -> &mut String,
) -> BTreeSet<String> {
    let is_other = |(id, entry): &(&String, &T)| others.get(*id).is_some_and(|other| other != *entry);
    let renamed: BTreeSet<String> = own.iter().filter(is_other).map(|(id, _)| id.clone()).collect();
    for id in &renamed {
        if let Some(mut entry) = own.remove(id) {
            let shown = name(&mut entry);
            *shown = format!("{shown} ({mark})");
            own.insert(marked(mark, id), entry);
        }
    }
    renamed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::apparatus::Stove;

    #[test]
    fn only_what_means_something_else_is_renamed() {
        let with = |name: &str| {
            let stove = |name: &str| Stove { name: name.into(), ..Stove::default() };
            let stoves = BTreeMap::from([("box".to_owned(), stove(name)), ("rocket".to_owned(), stove("Rocket"))]);
            Apparatus { stoves, ..Apparatus::default() }
        };
        let mut own = with("Their box");
        set_apart("hill", (&mut own, &mut []), &with("Our box"));
        let names: Vec<(&str, &str)> = own.stoves.iter().map(|(id, s)| (id.as_str(), s.name.as_str())).collect();
        assert_eq!(names, [("hill:box", "Their box (hill)"), ("rocket", "Rocket")]);
    }
}
