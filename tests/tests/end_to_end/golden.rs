//! The demo's tables are known to the last digit: any change of a number or of a word is seen, and has to be wanted.

use super::demo::DEMO;
use calefact_tests::root;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

/// Where the hashes are kept, as `sha256sum` writes them.
fn kept() -> PathBuf {
    root().join("tests/data/golden/hill-nursery.sha256")
}

#[test]
fn the_tables_of_the_demo_are_unchanged() {
    let made = hashes();
    if std::env::var("CALEFACT_GOLDEN").is_ok_and(|v| v == "write") {
        let lines: Vec<String> = made.iter().map(|(name, hash)| format!("{hash}  {name}\n")).collect();
        fs::write(kept(), lines.concat()).expect("the hashes are written");
    }
    let text = fs::read_to_string(kept()).expect("the hashes of the demo's tables");
    let kept: BTreeMap<String, String> =
        text.lines().filter_map(|l| l.split_once("  ")).map(|(hash, name)| (name.into(), hash.into())).collect();
    let names: std::collections::BTreeSet<&String> = kept.keys().chain(made.keys()).collect();
    let changed: Vec<&String> = names.into_iter().filter(|name| kept.get(*name) != made.get(*name)).collect();
    assert!(changed.is_empty(), "{}", message(&changed));
}

/// The hash of each table, by the file's name.
fn hashes() -> BTreeMap<String, String> {
    let entries = fs::read_dir(DEMO.folder.join("tables")).expect("the tables").map(|e| e.expect("an entry").path());
    let csv = entries.filter(|path| path.extension().is_some_and(|e| e == "csv"));
    let hash = |path: PathBuf| {
        let digest = Sha256::digest(fs::read(&path).expect("a table"));
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        (name, digest.iter().map(|byte| format!("{byte:02x}")).collect::<Vec<_>>().concat())
    };
    csv.map(hash).collect()
}

fn message(changed: &[&String]) -> String {
    format!(
        "these tables of the demo changed: {changed:?}\n\
         the new ones are in {}\n\
         To see what changed, run the demo at the last commit too and compare the two folders with `diff`.\n\
         If every change is wanted, run `CALEFACT_GOLDEN=write cargo test -p calefact-tests --test end_to_end golden` \
         and explain the change in the commit.",
        DEMO.folder.join("tables").display()
    )
}
