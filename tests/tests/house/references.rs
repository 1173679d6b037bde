//! The names that a piece of code refers to: paths in code, private imports, and paths inside macros.
//!
//! A re-export (`pub use`) is kept as an import only: it passes a name on and uses nothing. Code for tests is passed over.

use super::module_tree::Segments;
use proc_macro2::{TokenStream, TokenTree};
use std::collections::{BTreeMap, BTreeSet};
use syn::visit::{self, Visit};

/// References found in the items of one module.
#[derive(Default)]
pub(crate) struct References {
    /// Names imported or re-exported, with the path as written.
    pub(crate) imports: BTreeMap<String, Segments>,
    /// Paths imported or re-exported with `*`.
    pub(crate) globs: Vec<Segments>,
    /// Paths referred to, as written.
    pub(crate) paths: BTreeSet<Segments>,
    /// Modules declared, except those for tests.
    pub(crate) modules: Vec<syn::ItemMod>,
}

impl<'ast> Visit<'ast> for References {
    fn visit_item(&mut self, item: &'ast syn::Item) {
        if !for_tests(item) {
            visit::visit_item(self, item);
        }
    }

    fn visit_item_mod(&mut self, module: &'ast syn::ItemMod) {
        self.modules.push(module.clone());
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        let re_export = !matches!(item.vis, syn::Visibility::Inherited);
        self.add_use(&item.tree, &[], re_export);
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        self.paths.insert(path.segments.iter().map(|s| s.ident.to_string()).collect());
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, call: &'ast syn::Macro) {
        visit::visit_macro(self, call);
        self.add_tokens(call.tokens.clone());
    }
}

impl References {
    fn add_use(&mut self, tree: &syn::UseTree, before: &[String], re_export: bool) {
        let with = |ident: &syn::Ident| [before, &[ident.to_string()]].concat();
        match tree {
            syn::UseTree::Path(p) => self.add_use(&p.tree, &with(&p.ident), re_export),
            syn::UseTree::Group(g) => g.items.iter().for_each(|t| self.add_use(t, before, re_export)),
            syn::UseTree::Glob(_) => self.globs.push(before.to_vec()),
            syn::UseTree::Name(n) if n.ident == "self" => {
                let name = before.last().cloned().unwrap_or_default();
                self.add_import(name, before.to_vec(), re_export);
            }
            syn::UseTree::Name(n) => self.add_import(n.ident.to_string(), with(&n.ident), re_export),
            syn::UseTree::Rename(r) => self.add_import(r.rename.to_string(), with(&r.ident), re_export),
        }
    }

    fn add_import(&mut self, name: String, path: Segments, re_export: bool) {
        if !re_export {
            self.paths.insert(path.clone());
        }
        self.imports.insert(name, path);
    }

    /// Names joined by `::` among the tokens of a macro call, but no field or method.
    fn add_tokens(&mut self, tokens: TokenStream) {
        let (mut path, mut after) = (Segments::new(), ' ');
        for token in tokens {
            match token {
                TokenTree::Ident(name) if after == ':' && !path.is_empty() => path.push(name.to_string()),
                TokenTree::Ident(name) => {
                    self.add_path(&mut path);
                    if after != '.' {
                        path.push(name.to_string());
                    }
                }
                TokenTree::Punct(p) if p.as_char() == ':' => {
                    after = ':';
                    continue;
                }
                TokenTree::Punct(p) => {
                    self.add_path(&mut path);
                    after = p.as_char();
                    continue;
                }
                TokenTree::Group(group) => {
                    self.add_path(&mut path);
                    self.add_tokens(group.stream());
                }
                TokenTree::Literal(_) => self.add_path(&mut path),
            }
            after = ' ';
        }
        self.add_path(&mut path);
    }

    fn add_path(&mut self, path: &mut Segments) {
        if !path.is_empty() {
            self.paths.insert(std::mem::take(path));
        }
    }
}

/// Whether an item is compiled for tests only.
fn for_tests(item: &syn::Item) -> bool {
    let attributes = match item {
        syn::Item::Fn(i) => &i.attrs,
        syn::Item::Impl(i) => &i.attrs,
        syn::Item::Mod(i) => &i.attrs,
        syn::Item::Use(i) => &i.attrs,
        syn::Item::Const(i) => &i.attrs,
        syn::Item::Struct(i) => &i.attrs,
        _ => return false,
    };
    let is_test = |tokens: &TokenStream| tokens.clone().into_iter().any(|t| t.to_string() == "test");
    attributes.iter().any(|a| matches!(&a.meta, syn::Meta::List(l) if l.path.is_ident("cfg") && is_test(&l.tokens)))
}
