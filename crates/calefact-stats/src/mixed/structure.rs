//! Random parts of the model: what each adds to the covariance matrix of the observations, and the blocks into which that
//! matrix falls.

use nalgebra::DMatrix;
use std::collections::BTreeMap;

/// One term theta G of the covariance matrix: G is zero between observations of different levels and, within a level,
/// a_i b_j + b_i a_j (halved for a variance, where a = b).
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Name for a reader, such as `day`.
    pub name: String,
    /// Whether theta is a variance (not below zero) or a covariance (either sign).
    pub is_variance: bool,
    codes: Vec<usize>,
    a: Vec<f64>,
    b: Vec<f64>,
}

impl Component {
    /// Independent error of each observation: G = I.
    pub(crate) fn residual(n: usize) -> Self {
        Self::intercepts("residual", &(0..n).collect::<Vec<_>>())
    }

    /// A random intercept for each level: G = 1 where two observations share a level. For a level nested in another, give
    /// codes that differ between the outer levels.
    pub fn intercepts(name: impl Into<String>, codes: &[usize]) -> Self {
        let one = vec![1.0; codes.len()];
        Self { name: name.into(), is_variance: true, codes: codes.to_vec(), a: one.clone(), b: one }
    }

    /// A random slope on `x` for each level, independent of any intercept: G = x_i x_j where two observations share one.
    pub fn slopes(name: impl Into<String>, codes: &[usize], x: &[f64]) -> Self {
        Self { name: name.into(), is_variance: true, codes: codes.to_vec(), a: x.to_vec(), b: x.to_vec() }
    }

    /// A random intercept and a random slope on `x` for each level, correlated: intercept variance, covariance, slope
    /// variance, in this order.
    pub fn intercepts_and_slopes(name: &str, codes: &[usize], x: &[f64]) -> [Self; 3] {
        let one = vec![1.0; codes.len()];
        let part = |what: &str, is_variance, a: &[f64], b: &[f64]| Self {
            name: format!("{name} {what}"),
            is_variance,
            codes: codes.to_vec(),
            a: a.to_vec(),
            b: b.to_vec(),
        };
        [part("intercept", true, &one, &one), part("covariance", false, &one, x), part("slope", true, x, x)]
    }

    /// Number of observations; `None` when its parts differ in length.
    pub(crate) fn len(&self) -> Option<usize> {
        let n = self.codes.len();
        (self.a.len() == n && self.b.len() == n).then_some(n)
    }

    fn entry(&self, i: usize, j: usize) -> f64 {
        if self.codes[i] != self.codes[j] {
            return 0.0;
        }
        let sum = self.a[i] * self.b[j] + self.b[i] * self.a[j];
        if self.is_variance { 0.5 * sum } else { sum }
    }

    /// The rows and columns of G that belong to some observations.
    pub(crate) fn among(&self, rows: &[usize]) -> DMatrix<f64> {
        DMatrix::from_fn(rows.len(), rows.len(), |i, j| self.entry(rows[i], rows[j]))
    }

    /// Sum of the diagonal of G.
    pub(crate) fn trace(&self) -> f64 {
        (0..self.codes.len()).map(|i| self.entry(i, i)).sum()
    }
}

/// Observations in groups that no component connects: the covariance matrix is zero between them.
pub(crate) fn blocks(n: usize, components: &[Component]) -> Vec<Vec<usize>> {
    let mut parent: Vec<usize> = (0..n).collect();
    for component in components {
        let mut first: BTreeMap<usize, usize> = BTreeMap::new();
        for (i, code) in component.codes.iter().enumerate() {
            let other = *first.entry(*code).or_insert(i);
            let (low, high) = ordered(root(&mut parent, i), root(&mut parent, other));
            parent[high] = low;
        }
    }
    let mut groups: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for i in 0..n {
        groups.entry(root(&mut parent, i)).or_default().push(i);
    }
    groups.into_values().collect()
}

fn ordered(a: usize, b: usize) -> (usize, usize) {
    (a.min(b), a.max(b))
}

/// Representative of the group of `i`, shortening the way there.
fn root(parent: &mut [usize], mut i: usize) -> usize {
    while parent[i] != i {
        parent[i] = parent[parent[i]];
        i = parent[i];
    }
    i
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn crossed_levels_join_blocks_and_nested_ones_do_not() {
        let outer = Component::intercepts("day", &[0, 0, 1, 1, 2]);
        let nested = Component::intercepts("load", &[0, 1, 2, 2, 3]);
        assert_eq!(blocks(5, &[outer.clone(), nested]), [vec![0, 1], vec![2, 3], vec![4]]);
        let crossed = Component::intercepts("operator", &[0, 1, 1, 0, 2]);
        assert_eq!(blocks(5, &[outer, crossed]), [vec![0, 1, 2, 3], vec![4]]);
    }
}
