//! Counting: from the hits of many replicates to one row a quantity, the same for any number of threads.

use super::design::Design;
use super::replicate::{self, Hit, Of};
use rayon::prelude::*;

/// Level of all intervals.
const NOMINAL: f64 = 0.95;

/// One row of the table.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    /// Quantity.
    pub(crate) quantity: &'static str,
    /// Name of the design.
    pub(crate) design: &'static str,
    /// Burns a group; 1 for single burns; standing-loss nights for the loss coefficient and in designs on nights.
    pub(crate) n: usize,
    /// Intervals that held the truth.
    pub(crate) held: usize,
    /// Replicates that gave the quantity.
    pub(crate) reps: usize,
    /// Mean width of the intervals.
    pub(crate) width: f64,
}

impl Cell {
    /// Share of intervals that held.
    pub(crate) fn coverage(&self) -> f64 {
        self.held as f64 / self.reps as f64
    }

    /// Its standard error, sqrt(p (1 - p) / reps) with p = (held + 1) / (reps + 2), so that it is never zero.
    pub(crate) fn error(&self) -> f64 {
        let p = (self.held as f64 + 1.0) / (self.reps as f64 + 2.0);
        (p * (1.0 - p) / self.reps as f64).sqrt()
    }

    /// The row as CSV.
    pub(crate) fn csv(&self, seed: u64) -> String {
        let Self { quantity, design, n, reps, .. } = self;
        let (coverage, error, width) = (self.coverage(), self.error(), self.width);
        format!("{quantity},{design},{n},{NOMINAL},{coverage:.4},{error:.4},{reps},{seed},{width:.4}")
    }
}

/// Header of the table.
pub(crate) const HEADER: &str = "quantity,design,n,nominal,coverage,mc_error,reps,seed,mean_width";

/// All rows of one design: first those of single burns and of nights, over all sizes together, then size by size. `reps` is taken times the
/// design's own share.
pub(crate) fn cells(design: &Design, seed: u64, reps: usize) -> Vec<Cell> {
    let reps = (reps as f64 * design.share).round() as usize;
    let mut cells = Vec::new();
    for &n in design.sizes {
        let hits: Vec<Vec<Hit>> =
            (0..reps).into_par_iter().map(|index| replicate::run(design, n, seed, index)).collect();
        for hit in hits.iter().flatten() {
            count(&mut cells, design, n, hit);
        }
    }
    for cell in &mut cells {
        cell.width /= cell.reps as f64;
    }
    cells
}

/// Adds a hit to its row, which is made where there is none yet.
fn count(cells: &mut Vec<Cell>, design: &Design, n: usize, hit: &Hit) {
    let n = match hit.of {
        Of::Group => n,
        Of::Burn if !design.by_nights => 1,
        _ => design.nights,
    };
    let at = cells.iter().position(|c| c.quantity == hit.quantity && c.n == n).unwrap_or_else(|| {
        cells.push(Cell { quantity: hit.quantity, design: design.name, n, held: 0, reps: 0, width: 0.0 });
        cells.len() - 1
    });
    let cell = &mut cells[at];
    cell.held += usize::from(hit.held());
    cell.reps += 1;
    cell.width += hit.upper - hit.lower;
}
