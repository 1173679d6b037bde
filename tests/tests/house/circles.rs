//! No two files of a crate need each other, directly or by way of others: the modules of a crate can be read from the bottom up.
//!
//! A file *needs* another when its code names an item that the other defines: in a path, in a private import, or inside a
//! macro call. The name is followed through imports and re-exports to the file that defines the item, so that
//!
//! * declaring a module (`mod fit;`), naming one, or passing its items on (`pub use fit::Line;`) is no need: a parent may
//!   gather its children's items while the children use types that the parent defines;
//! * a parent that calls its children's functions needs them, and then they may not need the parent: what both need stands in a
//!   third file.
//!
//! Code for tests does not count. Methods do not count either: their type was named somewhere.

use super::module_tree::{Module, ModuleTree};
use calefact_tests::root;
use std::collections::{BTreeMap, BTreeSet};

/// What each file needs, with the names it needs it for.
type Needs = BTreeMap<String, BTreeMap<String, BTreeSet<String>>>;

#[test]
fn no_two_files_need_each_other() {
    let mut circles = Vec::new();
    for folder in std::fs::read_dir(root().join("crates")).expect("the crates") {
        let library = folder.expect("an entry").path().join("src/lib.rs");
        circles.extend(circles_among(&needs(&ModuleTree::read(&library))));
    }
    circles.sort();
    assert!(circles.is_empty(), "files that need each other:\n\n{}", circles.join("\n"));
}

/// The check sees a circle through imports, paths, macros and re-exports, and none where there is none.
#[test]
fn circles_are_seen() {
    let tree = ModuleTree::read(&root().join("tests/tests/house/example/lib.rs"));
    let needs = needs(&tree);
    let pairs: Vec<String> = needs
        .iter()
        .flat_map(|(file, others)| others.keys().map(move |other| format!("{} {}", short(file), short(other))))
        .collect();
    assert_eq!(pairs, ["a.rs b.rs", "b.rs c.rs", "c.rs a.rs", "d.rs lib.rs"]);
    assert_eq!(circles_among(&needs).len(), 1);
}

fn short(file: &str) -> &str {
    file.rsplit('/').next().unwrap_or(file)
}

fn needs(tree: &ModuleTree) -> Needs {
    let mut needs = Needs::new();
    for (place, module) in &tree.modules {
        for path in &module.references {
            let Some((other, name)) = definition(tree, place, path, 0) else { continue };
            if other.file != module.file {
                let others = needs.entry(module.file.clone()).or_default();
                others.entry(other.file.clone()).or_default().insert(name);
            }
        }
    }
    needs
}

/// The module that defines what a path names, seen from the module at `place`, and the item's name.
fn definition<'a>(
    tree: &'a ModuleTree,
    place: &[String],
    path: &[String],
    depth: usize,
) -> Option<(&'a Module, String)> {
    let (first, rest) = path.split_first()?;
    // Re-exports can lead round in a circle of globs.
    if depth > 20 {
        return None;
    }
    match first.as_str() {
        "crate" => definition(tree, &[], rest, depth + 1),
        "self" => definition(tree, place, rest, depth + 1),
        "super" => definition(tree, place.split_last()?.1, rest, depth + 1),
        name => {
            let child = [place, std::slice::from_ref(first)].concat();
            if tree.modules.contains_key(&child) {
                return definition(tree, &child, rest, depth + 1);
            }
            let module = tree.modules.get(place)?;
            if module.items.contains(name) {
                return Some((module, name.to_owned()));
            }
            if let Some(import) = module.imports.get(name) {
                return definition(tree, place, &[import, rest].concat(), depth + 1);
            }
            let mut own = module.globs.iter().filter(|glob| within_crate(tree, place, glob));
            own.find_map(|glob| definition(tree, place, &[glob, path].concat(), depth + 1))
        }
    }
}

/// Whether a path starts at a module of the crate rather than at another crate.
fn within_crate(tree: &ModuleTree, place: &[String], path: &[String]) -> bool {
    let Some(first) = path.first() else { return false };
    let child = [place, std::slice::from_ref(first)].concat();
    ["crate", "self", "super"].contains(&first.as_str()) || tree.modules.contains_key(&child)
}

/// Each set of files that all need each other, with why.
fn circles_among(needs: &Needs) -> Vec<String> {
    let reach: BTreeMap<&String, BTreeSet<&String>> = needs.keys().map(|file| (file, reached(needs, file))).collect();
    let mutual = |a: &String, b: &String| reach[a].contains(b) && reach.get(b).is_some_and(|back| back.contains(a));
    let circles: BTreeSet<Vec<&String>> = needs
        .keys()
        .map(|file| needs.keys().filter(|other| mutual(file, other)).collect::<Vec<_>>())
        .filter(|circle| !circle.is_empty())
        .collect();
    circles.iter().map(|circle| explained(needs, circle)).collect()
}

fn reached<'a>(needs: &'a Needs, from: &String) -> BTreeSet<&'a String> {
    let (mut seen, mut open) = (BTreeSet::new(), vec![from]);
    while let Some(file) = open.pop() {
        let next: Vec<&String> = needs.get(file).into_iter().flat_map(|m| m.keys()).collect();
        for other in next {
            if seen.insert(other) {
                open.push(other);
            }
        }
    }
    seen
}

fn explained(needs: &Needs, circle: &[&String]) -> String {
    let mut lines = vec![format!("{} files:\n", circle.len())];
    for file in circle {
        for (other, names) in needs[*file].iter().filter(|(other, _)| circle.contains(other)) {
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            lines.push(format!("  {file} needs {} of {other}\n", names.join(", ")));
        }
    }
    lines.concat()
}
