//! A bent or S-shaped course of residuals, found by an F test: it sees in a dozen readings what runs of signs cannot.

use crate::course::OrthogonalPolynomials;
use crate::ftest::FTest;

/// p-value of a parabola and a cubic in the order of some residuals, beyond the straight line that the fit has taken out: F with
/// two degrees of freedom above the line and n - `free` - 2 below it, for a fit with `free` parameters (N. R. Draper and
/// H. Smith, Applied Regression Analysis, extra sum of squares). `None` where no degree of freedom is left.
pub fn trend_p(residuals: &[f64], free: usize) -> Option<f64> {
    let n = residuals.len();
    let rest = n.checked_sub(free + 2).filter(|rest| *rest > 0)? as f64;
    let x: Vec<f64> = (0..n).map(|i| 2.0 * i as f64 / (n - 1) as f64 - 1.0).collect();
    let about = |degree: usize| {
        let fit = OrthogonalPolynomials::new(&x, degree)?.about(residuals)?;
        Some(fit.residuals.iter().map(|r| r * r).sum::<f64>())
    };
    let (line, cubic) = (about(1)?, about(3)?);
    let p = FTest::new((line - cubic) / 2.0 / (cubic / rest), 2.0, rest).p_value;
    p.is_finite().then_some(p)
}
