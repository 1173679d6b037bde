//! Shared by the end-to-end checks: the root of the repository, a folder for each check, a tiny dataset, and the worlds of the
//! coverage study.
//!
//! The checks themselves are in `tests/`, one folder or file a topic.

mod dataset;
mod folder;
pub mod fuzz;
pub mod worlds;

pub use dataset::TinyDataset;
pub use folder::Workspace;

use std::path::{Path, PathBuf};

/// The root of the cargo workspace.
pub fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}
