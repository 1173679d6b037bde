//! Last digits: a few Gauss-Newton steps after the search, which stops once the sum of squares no longer shrinks in its
//! own last digit, where the parameters have only half of theirs.

use super::CurveModel;
use super::problem::jacobian_matrix;
use nalgebra::DVector;

/// Takes undamped steps while each is shorter than the one before it and the sum of squares does not grow.
pub(super) fn polish<M: CurveModel>(model: &M, y: &[f64], start: &[f64]) -> Vec<f64> {
    let mut p = start.to_vec();
    let mut rss = residuals(model, y, &p).norm_squared();
    let mut last = f64::INFINITY;
    for _ in 0..20 {
        let Some(step) = step(model, y, &p) else { break };
        let next: Vec<f64> = p.iter().zip(step.iter()).map(|(p, s)| p + s).collect();
        let size = p.iter().zip(step.iter()).map(|(p, s)| (s / p.abs().max(f64::MIN_POSITIVE)).powi(2)).sum::<f64>();
        let next_rss = residuals(model, y, &next).norm_squared();
        let grew = next_rss.is_nan() || next_rss > rss * (1.0 + 1e-9);
        if grew || size > 0.9 * last || size > 1e-6 {
            break;
        }
        (p, rss, last) = (next, next_rss, size);
        if size < 1e-26 {
            break;
        }
    }
    p
}

fn residuals<M: CurveModel>(model: &M, y: &[f64], p: &[f64]) -> DVector<f64> {
    let mut out = DVector::zeros(y.len());
    model.predict(p, out.as_mut_slice());
    DVector::from_column_slice(y) - out
}

/// The Gauss-Newton step, by QR of the Jacobian with unit columns; `None` if it is not of full rank.
fn step<M: CurveModel>(model: &M, y: &[f64], p: &[f64]) -> Option<DVector<f64>> {
    let mut j = jacobian_matrix(model, p, y.len());
    let scale: Vec<f64> = j.column_iter().map(|c| c.norm()).collect();
    j.column_iter_mut().zip(&scale).for_each(|(mut c, s)| c /= *s);
    let mut rhs = residuals(model, y, p);
    let qr = j.qr();
    qr.q_tr_mul(&mut rhs);
    let mut step = qr.r().solve_upper_triangular(&rhs.rows(0, p.len()).into_owned())?;
    step.iter_mut().zip(&scale).for_each(|(v, s)| *v /= s);
    step.iter().all(|v| v.is_finite()).then_some(step)
}
