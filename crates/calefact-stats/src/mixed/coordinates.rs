//! Observations gathered into coordinates whose covariance is diagonal, and the way back to single observations.
//!
//! In a block of n observations the mean (times sqrt n) has variance s + n t, the deviations from it have variance s, and
//! the two are independent. Coordinates of equal variance enter likelihood and tests only through their number and the
//! cross products of response and design, so each set is replaced by the triangle of its QR decomposition. The fit takes
//! time linear in the number of observations.

use nalgebra::{DMatrix, DVector};
use std::collections::BTreeMap;

/// Coordinates of equal variance s + size t.
pub(super) struct Coordinates {
    /// Triangle of the design.
    pub(super) x: DMatrix<f64>,
    /// Response in the same coordinates.
    pub(super) y: DVector<f64>,
    /// Observations a block for block means, zero for deviations within blocks.
    pub(super) size: f64,
    /// How many coordinates the triangle stands for.
    pub(super) count: f64,
}

/// All coordinates of `y` and `x`: deviations within blocks, then block means by block size; one set without blocks.
pub(super) fn gather(y: &[f64], x: &DMatrix<f64>, blocks: Option<&[usize]>) -> Vec<Coordinates> {
    let mut rows = joined(y, x);
    let Some(codes) = blocks else { return vec![triangle(&rows, y.len() as f64, 0.0)] };
    let sizes = sizes(codes);
    let mut means = DMatrix::zeros(sizes.len(), rows.ncols());
    for (j, column) in rows.as_mut_slice().chunks_exact_mut(y.len()).enumerate() {
        for (block, sum) in sums(column, codes, sizes.len()).into_iter().enumerate() {
            means[(block, j)] = sum / sizes[block];
        }
        codes.iter().zip(column).for_each(|(&code, value)| *value -= means[(code, j)]);
    }
    let mut by_size: BTreeMap<u64, Vec<usize>> = BTreeMap::new();
    for (block, &n) in sizes.iter().enumerate().filter(|(_, n)| **n > 0.0) {
        by_size.entry(n as u64).or_default().push(block);
    }
    let used: usize = by_size.values().map(Vec::len).sum();
    let mut sets = vec![triangle(&rows, (y.len() - used) as f64, 0.0)];
    for (size, equal) in by_size {
        let scaled = means.select_rows(&equal) * (size as f64).sqrt();
        sets.push(triangle(&scaled, equal.len() as f64, size as f64));
    }
    sets
}

/// One row [x, y] an observation.
fn joined(y: &[f64], x: &DMatrix<f64>) -> DMatrix<f64> {
    let mut rows = x.clone().insert_column(x.ncols(), 0.0);
    rows.column_mut(x.ncols()).copy_from_slice(y);
    rows
}

/// A set with the cross products of `rows`, in at most one row a column.
fn triangle(rows: &DMatrix<f64>, count: f64, size: f64) -> Coordinates {
    let reduced = if rows.nrows() > rows.ncols() { rows.clone().qr().r() } else { rows.clone() };
    let p = reduced.ncols() - 1;
    Coordinates { x: reduced.columns(0, p).into_owned(), y: reduced.column(p).into_owned(), size, count }
}

/// Number of observations of each block.
fn sizes(codes: &[usize]) -> Vec<f64> {
    sums(&vec![1.0; codes.len()], codes, codes.iter().max().map_or(0, |most| most + 1))
}

/// Sum of a column's values in each block.
fn sums(values: &[f64], codes: &[usize], blocks: usize) -> Vec<f64> {
    let mut sums = vec![0.0; blocks];
    codes.iter().zip(values).for_each(|(&code, value)| sums[code] += value);
    sums
}

/// V^-1 X: each column less t / (s + n t) times the sum of its block, over s.
pub(super) fn whitened(x: &DMatrix<f64>, blocks: Option<&[usize]>, s: f64, t: f64) -> DMatrix<f64> {
    let mut out = x.clone();
    for column in out.as_mut_slice().chunks_exact_mut(x.nrows()) {
        if let Some(codes) = blocks {
            let sizes = sizes(codes);
            let mut shares = sums(column, codes, sizes.len());
            shares.iter_mut().zip(&sizes).for_each(|(sum, n)| *sum *= t / (s + n * t));
            codes.iter().zip(column.iter_mut()).for_each(|(&code, value)| *value -= shares[code]);
        }
        for value in column {
            *value /= s;
        }
    }
    out
}
