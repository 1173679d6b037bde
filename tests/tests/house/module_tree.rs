//! The modules of one crate: which file holds each, what it defines, what it imports and what its code refers to.
//!
//! Code for tests is left out. What the references mean is worked out in `circles`.

use super::references::References;
use super::{read, shown};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use syn::visit::Visit;

/// A path as segments: `crate::fit::Line` or a module's place below the root of the crate.
pub(crate) type Segments = Vec<String>;

/// One module, in a file of its own or inside another's.
#[derive(Debug, Default)]
pub(crate) struct Module {
    /// The file that holds it.
    pub(crate) file: String,
    /// Names it defines.
    pub(crate) items: BTreeSet<String>,
    /// Names it imports or re-exports, with the path as written.
    pub(crate) imports: BTreeMap<String, Segments>,
    /// Paths whose every name it imports or re-exports.
    pub(crate) globs: Vec<Segments>,
    /// Paths that its code refers to, as written.
    pub(crate) references: BTreeSet<Segments>,
}

/// All modules of a crate, by their place below its root.
#[derive(Debug, Default)]
pub(crate) struct ModuleTree {
    pub(crate) modules: BTreeMap<Segments, Module>,
}

impl ModuleTree {
    /// Reads a crate from the file of its root.
    pub(crate) fn read(root: &Path) -> Self {
        let mut tree = Self::default();
        let folder = root.parent().expect("a folder").to_path_buf();
        tree.add_file(&[], root, &folder);
        tree
    }

    /// Adds the module in a file, and those it declares; `folder` is where their files are.
    fn add_file(&mut self, place: &[String], file: &Path, folder: &Path) {
        let syntax = syn::parse_file(&read(file)).unwrap_or_else(|e| panic!("{}: {e}", shown(file)));
        self.add(place, &syntax.items, file, folder);
    }

    fn add(&mut self, place: &[String], items: &[syn::Item], file: &Path, folder: &Path) {
        let mut found = References::default();
        for item in items {
            found.visit_item(item);
        }
        let module = Module {
            file: shown(file),
            items: items.iter().filter_map(defined_name).collect(),
            imports: found.imports,
            globs: found.globs,
            references: found.paths,
        };
        self.modules.insert(place.to_vec(), module);
        for child in found.modules {
            self.add_child(place, &child, file, folder);
        }
    }

    fn add_child(&mut self, parent: &[String], child: &syn::ItemMod, file: &Path, folder: &Path) {
        let name = child.ident.to_string();
        let place = [parent, std::slice::from_ref(&name)].concat();
        let folder = folder.join(&name);
        match &child.content {
            Some((_, items)) => self.add(&place, items, file, &folder),
            None => self.add_file(&place, &file_of(&folder), &folder),
        }
    }
}

/// `name.rs`, or `name/mod.rs`.
fn file_of(folder: &Path) -> PathBuf {
    let plain = folder.with_extension("rs");
    if plain.exists() { plain } else { folder.join("mod.rs") }
}

fn defined_name(item: &syn::Item) -> Option<String> {
    let name = match item {
        syn::Item::Const(i) => &i.ident,
        syn::Item::Enum(i) => &i.ident,
        syn::Item::Fn(i) => &i.sig.ident,
        syn::Item::Macro(i) => i.ident.as_ref()?,
        syn::Item::Static(i) => &i.ident,
        syn::Item::Struct(i) => &i.ident,
        syn::Item::Trait(i) => &i.ident,
        syn::Item::Type(i) => &i.ident,
        syn::Item::Union(i) => &i.ident,
        _ => return None,
    };
    Some(name.to_string())
}
