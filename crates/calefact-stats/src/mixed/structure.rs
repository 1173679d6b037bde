//! Random parts of the model: what each adds to the covariance matrix of the observations.

use nalgebra::DMatrix;

/// One term theta G of the covariance matrix.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Name for a reader, such as `day`.
    pub name: String,
    /// G, symmetric, one row and column an observation.
    pub matrix: DMatrix<f64>,
    /// Whether theta is a variance (not below zero) or a covariance (either sign).
    pub is_variance: bool,
}

impl Component {
    /// Independent error of each observation: G = I.
    pub(crate) fn residual(n: usize) -> Self {
        Self { name: "residual".into(), matrix: DMatrix::identity(n, n), is_variance: true }
    }

    /// A random intercept for each level: G = 1 where two observations share a level. For a level nested in another, give
    /// codes that differ between the outer levels.
    pub fn intercepts(name: impl Into<String>, codes: &[usize]) -> Self {
        let one = vec![1.0; codes.len()];
        Self { name: name.into(), matrix: products(codes, &one, &one), is_variance: true }
    }

    /// A random intercept and a random slope on `x` for each level, correlated: intercept variance, covariance, slope
    /// variance, in this order.
    pub fn intercepts_and_slopes(name: &str, codes: &[usize], x: &[f64]) -> [Self; 3] {
        let one = vec![1.0; codes.len()];
        let cross = products(codes, &one, x) + products(codes, x, &one);
        let part = |what: &str, matrix, is_variance| Self { name: format!("{name} {what}"), matrix, is_variance };
        [
            part("intercept", products(codes, &one, &one), true),
            part("covariance", cross, false),
            part("slope", products(codes, x, x), true),
        ]
    }
}

/// a_i b_j where observations i and j share a level, else 0.
fn products(codes: &[usize], a: &[f64], b: &[f64]) -> DMatrix<f64> {
    let n = codes.len();
    DMatrix::from_fn(n, n, |i, j| if codes[i] == codes[j] { a[i] * b[j] } else { 0.0 })
}
