//! Gives the command its version: that of the package, and the commit where the sources are a git checkout.
//!
//! Never fails: without git or without a checkout the version stands alone.

use std::path::Path;
use std::process::Command;

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    let version = env!("CARGO_PKG_VERSION");
    let shown = commit().map_or_else(|| version.to_owned(), |commit| format!("{version} ({commit})"));
    println!("cargo::rustc-env=CALEFACT_VERSION={shown}");
}

/// The commit, if this package lies in a checkout of its own repository and not in somebody else's.
fn commit() -> Option<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().ok()?;
    let checkout = Path::new(&git(&["rev-parse", "--show-toplevel"])?).canonicalize().ok()?;
    if checkout != root {
        return None;
    }
    // Both change when a commit is made or another one is checked out.
    for file in ["HEAD", "logs/HEAD"] {
        let path = git(&["rev-parse", "--path-format=absolute", "--git-path", file])?;
        if Path::new(&path).exists() {
            println!("cargo::rerun-if-changed={path}");
        }
    }
    git(&["rev-parse", "--short", "HEAD"])
}

/// What git answers, if it can.
fn git(args: &[&str]) -> Option<String> {
    let output = Command::new("git").args(args).output().ok().filter(|output| output.status.success())?;
    let text = String::from_utf8(output.stdout).ok()?.trim().to_owned();
    (!text.is_empty()).then_some(text)
}
