//! How a source file opens, and how long it may be.

use super::{files_with, read, shown};

/// Lines a file may have.
const LONGEST: usize = 350;

#[test]
fn every_file_opens_with_its_documentation() {
    let silent: Vec<String> =
        files_with("rs").iter().filter(|p| !read(p).starts_with("//! ")).map(|p| shown(p)).collect();
    assert!(silent.is_empty(), "these files do not open with `//!`: {silent:#?}");
}

#[test]
fn no_file_is_too_long() {
    let lines = |path: &std::path::PathBuf| read(path).lines().count();
    let long: Vec<String> = files_with("rs")
        .iter()
        .filter(|p| lines(p) > LONGEST)
        .map(|p| format!("{} ({} lines)", shown(p), lines(p)))
        .collect();
    assert!(long.is_empty(), "these files have more than {LONGEST} lines: {long:#?}");
}
