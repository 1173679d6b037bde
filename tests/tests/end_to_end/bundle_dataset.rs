//! Bundles of other people as datasets of a pipeline, and in the book.

use super::bundle::{published, sealed};
use super::calefact;
use calefact_tests::{TinyDataset, Workspace};
use std::fs;

/// A pipeline that reads its own four burns, and those of a neighbour who has another box stove.
fn beside_a_neighbour(w: &Workspace) {
    published(TinyDataset::new().with("name = \"Box stove\"", "name = \"Old box\"")).write(w);
    assert_eq!(sealed(w, "neighbour.zip", &[]).code, 0);
    assert_eq!(sealed(w, "folder", &[]).code, 0);
    let mut own = TinyDataset::new();
    own.pipeline = own.pipeline.replace("[\"data\"]", "[\"data\", \"neighbour.zip\"]");
    own.write(w);
}

#[test]
fn a_bundle_is_a_dataset_of_a_rig_apart() {
    let w = Workspace::new();
    beside_a_neighbour(&w);
    let outcome = calefact(w.path(), &["run", "pipeline.toml", "--out", "out"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let trials = super::table(&w.join("out/tables/trials.csv"));
    let stoves: Vec<(&str, &str)> = trials.iter().map(|t| (t["trial"].as_str(), t["stove"].as_str())).collect();
    assert_eq!(stoves.len(), 8);
    assert!(stoves.contains(&("b1", "box")) && stoves.contains(&("neighbour:b1", "neighbour:box")), "{stoves:?}");
    assert!(stoves.contains(&("neighbour:r1", "rocket")), "what is described the same is the same: {stoves:?}");
    let manifest = fs::read_to_string(w.join("out/manifest.json")).expect("a manifest");
    assert!(manifest.contains("\"neighbour.zip/datasets/data/logs/b1.csv\""), "{manifest}");
    assert!(!manifest.contains("/tmp"), "{manifest}");
    let first = w.files("out");
    let text = fs::read_to_string(w.join("pipeline.toml")).expect("a pipeline");
    w.write("pipeline.toml", text.replace("neighbour.zip", "folder"));
    assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", "again"]).code, 0);
    let again = w.files("again/tables");
    let numbers = |table: &[u8]| String::from_utf8_lossy(table).replace("folder", "neighbour");
    for name in ["estimates.csv", "trials.csv"] {
        assert_eq!(numbers(&again[name]), numbers(&first[&format!("tables/{name}")]), "{name}");
    }
    let outcome = sealed(&w, "other", &[]);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
}

#[test]
fn a_damaged_bundle_is_left_out_and_the_rest_is_answered() {
    let w = Workspace::new();
    beside_a_neighbour(&w);
    let path = w.join("neighbour.zip");
    let mut bytes = fs::read(&path).expect("an archive");
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(&path, bytes).expect("an archive");
    let outcome = calefact(w.path(), &["run", "pipeline.toml", "--out", "out"]);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert_eq!(outcome.stderr.matches("error bundle-refused").count(), 1, "{}", outcome.stderr);
    assert_eq!(super::table(&w.join("out/tables/trials.csv")).len(), 4);
}

#[test]
fn the_book_takes_a_bundle() {
    let w = Workspace::new();
    beside_a_neighbour(&w);
    let mut own = TinyDataset::new().with("\"four-burns\"", "\"own\"");
    own.register = own.register.replace(",120,", ",121,");
    own.write(&w);
    let outcome = calefact(w.path(), &["book", "pipeline.toml", "--with", "neighbour.zip", "--out", "book"]);
    assert!(!outcome.stderr.contains("bundle"), "{}", outcome.stderr);
    let rigs: Vec<String> = super::table(&w.join("book/tables/book.csv"))
        .into_iter()
        .map(|mut r| r.remove("rig").unwrap_or_default())
        .collect();
    assert!(rigs.iter().any(|rig| *rig != rigs[0]), "{rigs:?}\n{}", outcome.stderr);
    w.write("folder/extra.csv", "x");
    let outcome = calefact(w.path(), &["book", "pipeline.toml", "--with", "folder", "--out", "book"]);
    assert!(outcome.code == 1 && outcome.stderr.contains("bundle-refused"), "{}", outcome.stderr);
}
