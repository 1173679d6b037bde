//! The files that went in, with their hashes.

use super::grid::{Grid, Names, head};
use crate::manifest::Hashed;

/// Files shown; all are in `manifest.json`.
pub(super) const MOST: usize = 40;

/// The table, if anything went in.
pub(super) fn grid(inputs: &[Hashed]) -> Option<Grid> {
    let rows = |f: &Hashed| vec![f.path.clone(), f.bytes.to_string(), f.sha256.clone()];
    (!inputs.is_empty()).then(|| Grid {
        caption: format!("The {} files this report was computed from.", inputs.len()),
        head: head(&[("File", false), ("Bytes", true), ("SHA-256", false)]),
        rows: inputs.iter().take(MOST).map(rows).collect(),
        names: Names::None,
    })
}
