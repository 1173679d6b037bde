//! `reports/README.md` lists every code of a finding with its meaning, as the `CODES` tables beside the facts have them.
//!
//! With `CALEFACT_UPDATE` set the list is written anew.

use super::{files_with, read};
use calefact_tests::root;
use std::collections::BTreeMap;
use syn::visit::{self, Visit};
use syn::{Expr, ExprLit, ImplItemConst, ItemConst, Lit};

const START: &str = "| code | meaning |\n|---|---|\n";

/// Codes and meanings of the `CODES` tables of a file.
#[derive(Default)]
struct Codes(Vec<(String, String)>);

impl Codes {
    fn take(&mut self, table: &Expr) {
        let Expr::Reference(table) = table else { return };
        let Expr::Array(rows) = &*table.expr else { return };
        for row in &rows.elems {
            let Expr::Tuple(row) = row else { continue };
            if let [code, meaning] = &row.elems.iter().filter_map(text).collect::<Vec<_>>()[..] {
                self.0.push((code.clone(), meaning.clone()));
            }
        }
    }
}

impl Visit<'_> for Codes {
    fn visit_item_const(&mut self, item: &ItemConst) {
        if item.ident == "CODES" {
            self.take(&item.expr);
        }
        visit::visit_item_const(self, item);
    }

    fn visit_impl_item_const(&mut self, item: &ImplItemConst) {
        if item.ident == "CODES" {
            self.take(&item.expr);
        }
        visit::visit_impl_item_const(self, item);
    }
}

fn text(expr: &Expr) -> Option<String> {
    match expr {
        Expr::Lit(ExprLit { lit: Lit::Str(text), .. }) => Some(text.value()),
        _ => None,
    }
}

#[test]
fn the_list_of_codes_is_complete() {
    let mut codes = Codes::default();
    for path in files_with("rs") {
        let source = read(&path);
        if source.contains("const CODES") {
            codes.visit_file(&syn::parse_file(&source).expect("Rust"));
        }
    }
    let mut meanings: BTreeMap<String, String> = BTreeMap::new();
    for (code, meaning) in codes.0 {
        let known = meanings.entry(code.clone()).or_insert_with(|| meaning.clone());
        assert_eq!(*known, meaning, "the code {code} has two meanings");
    }
    assert!(meanings.len() > 5, "the tables of codes were not found");
    let rows: Vec<String> = meanings.iter().map(|(code, meaning)| format!("| `{code}` | {meaning} |\n")).collect();
    let wanted = rows.concat();
    let path = root().join("reports/README.md");
    let page = read(&path);
    let (before, rest) = page.split_once(START).expect("the list");
    let end = rest.find("\n\n").map_or(rest.len(), |blank| blank + 1);
    if std::env::var_os("CALEFACT_UPDATE").is_some() {
        std::fs::write(&path, format!("{before}{START}{wanted}{}", &rest[end..])).expect("the page can be written");
        return;
    }
    assert_eq!(rest[..end], wanted, "run with CALEFACT_UPDATE=1");
}
