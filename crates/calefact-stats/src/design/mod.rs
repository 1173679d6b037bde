//! Fixed-effects designs.

use nalgebra::DMatrix;

/// Numerical rank: singular values above 1e-10 of the largest, columns scaled to unit length first.
pub(crate) fn rank(x: &DMatrix<f64>) -> usize {
    let mut scaled = x.clone();
    for mut column in scaled.column_iter_mut() {
        let norm = column.norm();
        if norm > 0.0 {
            column /= norm;
        }
    }
    let values = scaled.singular_values();
    let largest = values.max();
    values.iter().filter(|v| **v > 1e-10 * largest).count()
}
