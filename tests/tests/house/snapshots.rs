//! Snapshots that no test compares with any more would stay for ever: each must belong to a test function.

use super::{files_with, read, shown};
use std::path::Path;

/// A snapshot is named `BINARY__MODULES__TEST.snap`, with `-2` and so on for the second of a test, and its test stands in a
/// source file of the folder above `snapshots`.
#[test]
fn every_snapshot_belongs_to_a_test() {
    let stale: Vec<String> = files_with("snap").iter().filter(|p| !in_use(p)).map(|p| shown(p)).collect();
    assert!(stale.is_empty(), "no test compares with these snapshots; delete them: {stale:#?}");
}

fn in_use(snapshot: &Path) -> bool {
    let stem = snapshot.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let name = stem.rsplit("__").next().unwrap_or_default();
    let test = name.rsplit_once('-').filter(|(_, n)| n.parse::<u32>().is_ok()).map_or(name, |(test, _)| test);
    let compares = |text: &str| text.contains("insta::assert_") && text.contains(&format!("fn {test}()"));
    let folder = snapshot.parent().and_then(Path::parent).expect("a folder above `snapshots`");
    let beside = std::fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    beside.filter(|p| p.extension().is_some_and(|e| e == "rs")).any(|p| compares(&read(&p)))
}
