//! The common case of one random intercept a block, or none, for any number of observations.
//!
//! In a block of n observations the mean (times sqrt n) has variance s + n t, the deviations from it have variance s, and
//! the two are independent: an orthogonal change of coordinates after which V is diagonal. Coordinates of equal variance
//! enter likelihood and tests only through their number and the cross products of response and design, so each set is
//! replaced by the triangle of its QR decomposition. The fit is the same as the dense one, in time linear in n.

use crate::mixed::fit::{Whitened, check};
use crate::mixed::maximise::{Settled, settle};
use crate::mixed::state::{Block, Model};
use crate::mixed::structure::Component;
use crate::mixed::{Criterion, MixedError, MixedFit};
use nalgebra::{DMatrix, DVector};
use std::collections::BTreeMap;

impl MixedFit {
    /// Fits `y` on `design` with a random intercept for each level of `blocks` (name and level of each observation), or by
    /// least squares without. Same result as [`MixedFit::new`] with [`Component::intercepts`].
    ///
    /// # Errors
    /// As [`MixedFit::new`], except that no number of observations is too large.
    pub fn with_intercepts(
        y: &[f64],
        design: &DMatrix<f64>,
        blocks: Option<(&str, &[usize])>,
        criterion: Criterion,
    ) -> Result<Self, MixedError> {
        let random: Vec<Component> = blocks.iter().map(|(name, codes)| Component::intercepts(*name, codes)).collect();
        check(y.len(), design, &random)?;
        let mut components = vec![Component::residual(y.len())];
        components.extend(random);
        let names = components.iter().map(|c| c.name.clone()).collect();
        let codes = blocks.map(|b| b.1);
        let model = Model {
            observations: y.len(),
            parameters: design.ncols(),
            components,
            criterion,
            blocks: gathered(y, design, codes),
        };
        let settled = settle(&model, y, |kept| select(&model, kept))?;
        let whitened = whiten(y, design, codes, &settled);
        Self::finish(names, settled, whitened)
    }
}

/// The model of some of the components.
fn select(model: &Model, kept: &[usize]) -> Model {
    let cut = |block: &Block| Block {
        rows: Vec::new(),
        y: block.y.clone(),
        x: block.x.clone(),
        g: kept.iter().map(|&i| block.g[i].clone()).collect(),
        repeat: block.repeat,
    };
    Model {
        components: kept.iter().map(|&i| model.components[i].clone()).collect(),
        blocks: model.blocks.iter().map(cut).collect(),
        ..*model
    }
}

/// One row [x, y] an observation.
fn joined(y: &[f64], x: &DMatrix<f64>) -> DMatrix<f64> {
    let mut rows = x.clone().insert_column(x.ncols(), 0.0);
    rows.column_mut(x.ncols()).copy_from_slice(y);
    rows
}

/// Number of observations of each block.
fn sizes(codes: &[usize]) -> Vec<f64> {
    let mut sizes = vec![0.0; codes.iter().max().map_or(0, |most| most + 1)];
    for &code in codes {
        sizes[code] += 1.0;
    }
    sizes
}

/// Sum of a column's values in each block.
fn sums(values: &[f64], codes: &[usize], blocks: usize) -> Vec<f64> {
    let mut sums = vec![0.0; blocks];
    codes.iter().zip(values).for_each(|(&code, value)| sums[code] += value);
    sums
}

/// All coordinates as blocks of one row: deviations within blocks, then block means by block size.
fn gathered(y: &[f64], x: &DMatrix<f64>, codes: Option<&[usize]>) -> Vec<Block> {
    let mut rows = joined(y, x);
    let Some(codes) = codes else { return triangle(&rows, y.len() as f64, &[1.0]) };
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
    let mut blocks = triangle(&rows, (y.len() - used) as f64, &[1.0, 0.0]);
    for (size, of_size) in by_size {
        let scaled = means.select_rows(&of_size) * (size as f64).sqrt();
        blocks.extend(triangle(&scaled, of_size.len() as f64, &[1.0, size as f64]));
    }
    blocks
}

/// `count` coordinates with the cross products of `rows` and the given G_i, as at most one row a column. The last row
/// stands for all coordinates not yet counted.
fn triangle(rows: &DMatrix<f64>, count: f64, g: &[f64]) -> Vec<Block> {
    let reduced = if rows.nrows() > rows.ncols() { rows.clone().qr().r() } else { rows.clone() };
    let (last, p) = (reduced.nrows() - 1, reduced.ncols() - 1);
    let block = |i: usize| Block {
        rows: Vec::new(),
        y: DVector::from_element(1, reduced[(i, p)]),
        x: reduced.view((i, 0), (1, p)).into_owned(),
        g: g.iter().map(|g| DMatrix::from_element(1, 1, *g)).collect(),
        repeat: if i == last { count - last as f64 } else { 1.0 },
    };
    (0..=last).map(block).collect()
}

/// V^-1 v = (v - t / (s + n t) times the block's sum of v) / s, for residuals and columns of the design.
fn whiten(y: &[f64], x: &DMatrix<f64>, codes: Option<&[usize]>, settled: &Settled) -> Whitened {
    let (s, t) = (settled.variances[0], settled.variances.get(1).copied().unwrap_or(0.0));
    let codes = codes.map(|codes| (codes, sizes(codes)));
    let solve = |values: &mut [f64]| {
        if let Some((codes, sizes)) = &codes {
            let mut shares = sums(values, codes, sizes.len());
            shares.iter_mut().zip(sizes).for_each(|(sum, n)| *sum *= t / (s + n * t));
            codes.iter().zip(values.iter_mut()).for_each(|(&code, value)| *value -= shares[code]);
        }
        for value in values {
            *value /= s;
        }
    };
    let mut py = DVector::from_column_slice(y) - x * &settled.state.beta;
    solve(py.as_mut_slice());
    let mut vx = x.clone();
    vx.as_mut_slice().chunks_exact_mut(y.len()).for_each(solve);
    Whitened { py, vx }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::contrast::ContrastKind;
    use crate::mixed::DofMethod;

    /// Two levels over five blocks of unequal size, with a covariate.
    fn case() -> (Vec<f64>, DMatrix<f64>, Vec<usize>) {
        let codes = vec![0, 0, 0, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 4];
        let x = DMatrix::from_fn(14, 3, |i, j| match j {
            0 => 1.0,
            1 => f64::from(u8::from(i % 3 == 1)),
            _ => ((i * 7) % 11) as f64,
        });
        let noise = [0.3, -0.2, 0.1, 0.5, -0.4, 0.0, 0.2, -0.6, 0.4, 0.1, -0.3, 0.25, -0.15, 0.05];
        let y = (0..14).map(|i| 3.0 + 1.5 * x[(i, 1)] + 0.2 * x[(i, 2)] + codes[i] as f64 * 0.4 + noise[i]).collect();
        (y, x, codes)
    }

    #[test]
    fn the_gathered_fit_is_the_dense_fit() {
        let (y, x, codes) = case();
        let fast = MixedFit::with_intercepts(&y, &x, Some(("day", &codes)), Criterion::Reml).unwrap();
        let dense = MixedFit::new(&y, &x, vec![Component::intercepts("day", &codes)], Criterion::Reml).unwrap();
        assert!((fast.deviance - dense.deviance).abs() < 1e-9, "{} {}", fast.deviance, dense.deviance);
        for (a, b) in fast.variances.iter().zip(&dense.variances) {
            assert!((a.1 - b.1).abs() < 1e-7 && a.0 == b.0 && a.1 > 0.0, "{a:?} {b:?}");
        }
        let l = [0.0, 1.0, 0.0];
        for method in [DofMethod::KenwardRoger, DofMethod::Satterthwaite] {
            let of = |fit: &MixedFit| fit.contrast(&l, ContrastKind::Difference, method, 0.95).unwrap();
            let (a, b) = (of(&fast), of(&dense));
            assert!((a.effect - b.effect).abs() < 1e-8 && (a.dof / b.dof - 1.0).abs() < 1e-6);
            assert!((a.effect_uncertainty / b.effect_uncertainty - 1.0).abs() < 1e-7);
        }
        for (a, b) in fast.weights(&l).iter().zip(dense.weights(&l)) {
            assert!((a - b).abs() < 1e-7);
        }
        assert!((fast.block_effects(1, &codes)[4] - dense.block_effects(1, &codes)[4]).abs() < 1e-6);
    }

    #[test]
    fn weights_give_the_contrast_and_cancel_a_common_error() {
        let (y, x, codes) = case();
        for blocks in [None, Some(("day", codes.as_slice()))] {
            let fit = MixedFit::with_intercepts(&y, &x, blocks, Criterion::Reml).unwrap();
            let w = fit.weights(&[0.0, 1.0, 0.0]);
            let value: f64 = w.iter().zip(&y).map(|(w, y)| w * y).sum();
            assert!((value - fit.beta[1]).abs() < 1e-10 && w.iter().sum::<f64>().abs() < 1e-12);
        }
        let plain = MixedFit::with_intercepts(&y, &x, None, Criterion::Reml).unwrap();
        assert!((plain.total_variance().1 - 11.0).abs() < 1e-6, "{:?}", plain.total_variance());
    }

    #[test]
    fn many_observations_take_no_dense_matrix() {
        let n = 4000;
        let codes: Vec<usize> = (0..n).map(|i| i % 2).collect();
        let x = DMatrix::from_fn(n, 2, |i, j| if j == 0 { 1.0 } else { f64::from(u8::from(i % 3 == 0)) });
        let y: Vec<f64> = (0..n).map(|i| (i as f64 * 0.7).sin() + codes[i] as f64 + x[(i, 1)]).collect();
        let fit = MixedFit::with_intercepts(&y, &x, Some(("crew", &codes)), Criterion::Reml).unwrap();
        assert!((fit.beta[1] - 1.0).abs() < 0.1);
    }
}
