//! The house rules that a program can check: how files open and how long they are, which snapshots are in use, that every code
//! of a finding is explained, and that no two files of a crate need each other.
//!
//! What clippy can check (no `unwrap`, no printing, documented items) stands in the workspace's lints instead.

mod circles;
mod codes;
mod layout;
mod module_tree;
mod references;
mod snapshots;

use calefact_tests::root;
use std::fs;
use std::path::{Path, PathBuf};

/// Every file below `crates` and `tests` with this extension, in order.
fn files_with(extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for folder in ["crates", "tests"] {
        collect(&root().join(folder), extension, &mut found);
    }
    found.sort();
    assert!(!found.is_empty(), "no .{extension} file was found");
    found
}

fn collect(folder: &Path, extension: &str, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            collect(&path, extension, found);
        } else if path.extension().is_some_and(|e| e == extension) {
            found.push(path);
        }
    }
}

/// A path as people name it: from the root of the repository.
fn shown(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}

/// A text file.
fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}
