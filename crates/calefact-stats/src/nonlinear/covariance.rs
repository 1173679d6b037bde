//! Covariance of the parameters from the final Jacobian, and the tests that tell an optimum from a false one.

use crate::fit_error::FitError;
use nalgebra::{DMatrix, DVector};

/// Smallest singular value of the column-scaled Jacobian, relative to the largest, that still counts: the NIST sets stay
/// above 1e-8.
const RANK_TOLERANCE: f64 = 1e-12;
/// A parameter moved by its whole size that moves the curve by less than this share of its variation is suspect.
const DEAD_EFFECT: f64 = 1e-6;
/// And so is one whose standard uncertainty is this many times its size. Both together make a false optimum.
const UNKNOWN: f64 = 1e3;

/// (J'J)^-1 by QR, then singular value decomposition of R with unit columns: J'J is never formed.
pub(super) fn inverse_normal(jacobian: DMatrix<f64>) -> Result<DMatrix<f64>, FitError> {
    let p = jacobian.ncols();
    let scale: Vec<f64> = jacobian.column_iter().map(|c| c.norm()).collect();
    if let Some(parameter) = scale.iter().position(|s| !s.is_finite() || *s <= 0.0) {
        return Err(FitError::Saturated { parameter });
    }
    let mut scaled = jacobian;
    scaled.column_iter_mut().zip(&scale).for_each(|(mut c, s)| c /= *s);
    let svd = scaled.qr().r().svd(false, true);
    let largest = svd.singular_values.max();
    let rank = svd.singular_values.iter().filter(|s| **s > RANK_TOLERANCE * largest).count();
    let (Some(v_t), true) = (svd.v_t, rank == p) else {
        return Err(FitError::RankDeficient { rank, parameters: p });
    };
    let half = DMatrix::from_fn(p, p, |i, k| v_t[(k, i)] / svd.singular_values[k] / scale[i]);
    Ok(&half * half.transpose())
}

/// Where a search came to rest, with what judges it.
pub(super) struct Rest<'a> {
    pub parameters: &'a [f64],
    pub start: &'a [f64],
    pub jacobian: &'a DMatrix<f64>,
    pub y: &'a [f64],
    pub residual_sd: f64,
}

/// Refuses a saturated curve: one parameter moved by its own size (the larger of where it began and where it ended)
/// changes the curve by a negligible part of the data's variation, and its uncertainty is a great many times its size.
///
/// BoxBOD of the NIST sets from its first start ends so: b2 = 110.9, where every exponential is zero.
pub(super) fn refuse_saturation(rest: &Rest<'_>) -> Result<(), FitError> {
    let y = DVector::from_column_slice(rest.y);
    let variation = y.add_scalar(-y.mean()).norm();
    for (j, column) in rest.jacobian.column_iter().enumerate() {
        let size = rest.parameters[j].abs().max(rest.start[j].abs());
        let norm = column.norm();
        let dead = norm * size < DEAD_EFFECT * variation;
        let unknown = rest.residual_sd > UNKNOWN * size * norm;
        if dead && unknown && size > 0.0 {
            return Err(FitError::Saturated { parameter: j });
        }
    }
    Ok(())
}
