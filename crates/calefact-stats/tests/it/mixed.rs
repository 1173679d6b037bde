//! Mixed models against lme4, pbkrtest and SAS output and closed forms.

use crate::data::{Row, agree, column, number, only, table};
use calefact_stats::contrast::{Contrast, ContrastKind};
use calefact_stats::design::Factor;
use calefact_stats::mixed::{MixedError, MixedFit};
use nalgebra::{DMatrix, DVector};

/// Level codes of a text column, in order of first appearance.
fn codes(rows: &[Row], column: &str) -> Vec<usize> {
    let labels: Vec<&str> = rows.iter().map(|row| row[column].as_str()).collect();
    Factor::from_labels(column, &labels).codes
}

fn intercept(n: usize) -> DMatrix<f64> {
    DMatrix::from_element(n, 1, 1.0)
}

fn contrast(fit: &MixedFit, l: &[f64]) -> Contrast {
    fit.contrast(l, ContrastKind::Difference, 0.95).expect("contrast")
}

/// Dyestuff (Davies & Goldsmith 1972): REML equals the analysis-of-variance estimates exactly; -2 log L by MixedModels.jl.
#[test]
fn dyestuff() {
    let rows = table("mixed/dyestuff.csv");
    let f = MixedFit::new(&column(&rows, "yield"), &intercept(30), Some(&codes(&rows, "batch"))).expect("fit");
    agree("batch", f.block_variance, 1764.05, 1e-9);
    agree("residual", f.residual_variance, 2451.25, 1e-9);
    agree("-2 log L", f.deviance, 319.654_276_842_257_6, 1e-12);
    let mean = contrast(&f, &[1.0]);
    agree("se", mean.effect_uncertainty, (11_271.5_f64 / 30.0).sqrt(), 1e-9);
    agree("df", mean.dof, 5.0, 1e-7);
    agree("low", mean.interval.lower, 1_477.673_352_808_596_7, 1e-9);
    // Balanced: v = (MSB + 4 MSW) / 5 with MSB on 5 and MSW on 24 degrees of freedom, so 2 v^2 / Var(v) is Satterthwaite's.
    let (msb, msw) = (11_271.5_f64, 2_451.25_f64);
    let (total, dof) = f.total_variance();
    agree("total", total, (msb + 4.0 * msw) / 5.0, 1e-9);
    agree("its df", dof, (msb + 4.0 * msw).powi(2) / (msb * msb / 5.0 + 16.0 * msw * msw / 24.0), 1e-7);
}

/// The same with eight observations removed, by a separate REML and Kenward-Roger calculation.
#[test]
fn dyestuff_unbalanced() {
    let rows = table("mixed/dyestuff-unbalanced.csv");
    let y = column(&rows, "yield");
    let f = MixedFit::new(&y, &intercept(rows.len()), Some(&codes(&rows, "batch"))).expect("fit");
    agree("batch", f.block_variance, 1_736.279_989_220_873_6, 1e-7);
    agree("residual", f.residual_variance, 2_665.027_858_820_167_7, 1e-7);
    agree("mean", f.beta[0], 1_523.972_171_678_797, 1e-10);
    agree("log L", -0.5 * f.deviance, -117.155_472_511_228_57, 1e-12);
    agree("se", f.covariance[(0, 0)].sqrt(), 20.428_527_641_825_2, 1e-8);
    let mean = contrast(&f, &[1.0]);
    agree("KR se", mean.effect_uncertainty, 20.511_114_610_521_194, 1e-8);
    agree("KR df", mean.dof, 4.933_141_797_784_499, 1e-7);
}

fn shoes(rows: &[Row]) -> (MixedFit, Contrast) {
    let x = DMatrix::from_fn(rows.len(), 2, |i, j| f64::from(u8::from(j == 0 || rows[i]["material"] == "B")));
    let f = MixedFit::new(&column(rows, "wear"), &x, Some(&codes(rows, "boy"))).expect("fit");
    let c = contrast(&f, &[0.0, 1.0]);
    (f, c)
}

/// pbkrtest's printed output for the shoes data (Box, Hunter & Hunter): F 11.215 on 9.000, p 0.008539; equal to the paired t
/// test, t 3.348876536.
#[test]
fn shoes_balanced() {
    let (f, c) = shoes(&table("mixed/shoes.csv"));
    agree("boy", f.block_variance, 6.100_888_888_888_788, 1e-7);
    agree("residual", f.residual_variance, 0.074_944_444_444_444_55, 1e-7);
    agree("t", (c.effect / c.effect_uncertainty).abs(), 3.348_876_536_221_576, 1e-8);
    agree("p", c.p_value, 0.008_538_780_717_598_948, 1e-6);
    agree("df", c.dof, 9.0, 1e-7);
    let test = f.f_test(&DMatrix::from_row_slice(1, 2, &[0.0, 1.0])).expect("F");
    assert!((test.f - 11.215).abs() < 5e-4 && (test.p_value - 0.008_539).abs() < 5e-7);
}

/// Two observations removed: KR F 5.9893 on 7.021904, p 0.04418.
#[test]
fn shoes_unbalanced() {
    let gone = |row: &Row| matches!((row["boy"].as_str(), row["material"].as_str()), ("1", "A") | ("2", "B"));
    let kept: Vec<Row> = table("mixed/shoes.csv").into_iter().filter(|row| !gone(row)).collect();
    let (f, c) = shoes(&kept);
    agree("effect", c.effect.abs(), 0.346_046_666_327_434_86, 1e-8);
    agree("residual", f.residual_variance, 0.079_974_139_139_920_46, 1e-7);
    agree("boy", f.block_variance, 6.299_343_919_785_927, 1e-7);
    agree("KR se", c.effect_uncertainty, 0.141_398_815_400_508_83, 1e-8);
    assert!((c.dof - 7.021_904).abs() < 5e-7 && (c.p_value - 0.044_18).abs() < 5e-6);
}

/// Columns of the beets split plot: intercept, blocks, harvest, sowing dates.
fn beets_design(rows: &[Row]) -> DMatrix<f64> {
    let indicator = |i: usize, name: &str, level: &str| f64::from(u8::from(rows[i][name] == level));
    DMatrix::from_fn(rows.len(), 8, |i, j| match j {
        0 => 1.0,
        1 | 2 => indicator(i, "block", ["2", "3"][j - 1]),
        3 => indicator(i, "harvest", "2"),
        _ => indicator(i, "sow", ["2", "3", "4", "5"][j - 4]),
    })
}

/// beets split plot (Halekoh & Højsgaard 2014, J. Stat. Softw. 59(9)): harvest F 15.21 on (1, 2), sow F 101 on (4, 20).
#[test]
fn beets() {
    let mut rows = table("mixed/beets.csv");
    for row in &mut rows {
        let plot = format!("{}:{}", row["block"], row["harvest"]);
        row.insert("plot".into(), plot);
    }
    let f = MixedFit::new(&column(&rows, "sugar"), &beets_design(&rows), Some(&codes(&rows, "plot"))).expect("fit");
    agree("whole plot", f.block_variance, 0.000_766_666_666_67, 1e-5);
    agree("residual", f.residual_variance, 0.0025, 1e-6);
    let select = |columns: &[usize]| DMatrix::from_fn(columns.len(), 8, |i, j| f64::from(u8::from(columns[i] == j)));
    let (harvest, sow) = (f.f_test(&select(&[3])).expect("harvest"), f.f_test(&select(&[4, 5, 6, 7])).expect("sow"));
    assert!((harvest.p_value - 0.0599).abs() < 5e-5);
    agree("harvest F", harvest.f, 15.210_526_315_8, 1e-5);
    agree("harvest df", harvest.denominator_dof, 2.0, 1e-4);
    agree("sow F", sow.f, 101.0, 1e-5);
    agree("sow df", sow.denominator_dof, 20.0, 1e-4);
    agree("sow rows", sow.numerator_dof, 4.0, 0.0);
}

/// Three simulated sets fitted by lme4 (stored in statsmodels' tests, 7 digits; lme4 stops at about 1e-5 of a variance).
#[test]
fn lme4_on_simulated_sets() {
    let wanted = table("mixed/lme4.csv");
    for set in ["0", "2", "4"] {
        let rows = table(&format!("mixed/simulated-{set}.csv"));
        let width = rows[0].len() - 2;
        let x = DMatrix::from_fn(rows.len(), width, |i, j| number(&rows[i], &format!("x{}", j + 1)));
        let f = MixedFit::new(&column(&rows, "y"), &x, Some(&codes(&rows, "group"))).expect("fit");
        for row in only(&wanted, "set", set) {
            let place = |name: &str| number(row, name) as usize;
            let (got, tolerance) = match row["quantity"].as_str() {
                "beta" => (f.beta[place("row")], 2e-4),
                "log_likelihood" => (-0.5 * f.deviance, 1e-6),
                "residual_variance" => (f.residual_variance, 2e-4),
                "block_variance" => (f.block_variance, 2e-4),
                "covariance" => (f.covariance[(place("row"), place("column"))], 2e-4),
                other => panic!("unknown quantity {other}"),
            };
            let want = number(row, "value");
            assert!((got - want).abs() <= tolerance * want.abs().max(1e-3), "{row:?}: {got}");
        }
    }
}

/// SAS PROC MIXED, 2 x 2 with unequal cells in two blocks (figures as in lmerTest's tests): block variance 0, interaction F
/// 0.99565 as in ordinary least squares.
#[test]
fn zero_block_variance_is_least_squares() {
    let a = [0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.0, 1.0];
    let b = [0.0, 0.0, 1.0, 0.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.0];
    let blocks = [0, 1, 0, 0, 0, 1, 0, 1, 0, 0];
    let y = [12.0, 14.0, 11.0, 20.0, 17.0, 23.0, 35.0, 46.0, 15.0, 16.0];
    let x = DMatrix::from_fn(10, 4, |i, j| [1.0, a[i], b[i], a[i] * b[i]][j]);
    let f = MixedFit::new(&y, &x, Some(&blocks)).expect("fit");
    assert!(f.block_variance == 0.0);
    let c = contrast(&f, &[0.0, 0.0, 0.0, 1.0]);
    assert!(((c.effect / c.effect_uncertainty).powi(2) - 0.995_65).abs() < 5e-6);
    agree("df", c.dof, 6.0, 1e-9);
    agree("total df", f.total_variance().1, 6.0, 1e-9);
}

/// Two levels over five blocks of unequal size, with a covariate.
fn uneven() -> (Vec<f64>, DMatrix<f64>, Vec<usize>) {
    let blocks = vec![0, 0, 0, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 4];
    let x = DMatrix::from_fn(14, 3, |i, j| match j {
        0 => 1.0,
        1 => f64::from(u8::from(i % 3 == 1)),
        _ => ((i * 7) % 11) as f64,
    });
    let noise = [0.3, -0.2, 0.1, 0.5, -0.4, 0.0, 0.2, -0.6, 0.4, 0.1, -0.3, 0.25, -0.15, 0.05];
    let y = (0..14).map(|i| 3.0 + 1.5 * x[(i, 1)] + 0.2 * x[(i, 2)] + blocks[i] as f64 * 0.4 + noise[i]).collect();
    (y, x, blocks)
}

/// -2 ln restricted likelihood by the definition, with V written out (Searle, Casella & McCulloch 1992, 6.6).
fn dense_deviance(y: &[f64], x: &DMatrix<f64>, blocks: &[usize], s: f64, t: f64) -> f64 {
    let n = y.len();
    let v = DMatrix::from_fn(n, n, |i, j| {
        f64::from(u8::from(i == j)) * s + f64::from(u8::from(blocks[i] == blocks[j])) * t
    });
    let inverse = v.clone().try_inverse().expect("positive definite");
    let xvx = x.transpose() * &inverse * x;
    let y = DVector::from_column_slice(y);
    let beta = xvx.clone().try_inverse().expect("full rank") * x.transpose() * &inverse * &y;
    let rest = &y - x * beta;
    let constant = (n - x.ncols()) as f64 * libm::log(2.0 * std::f64::consts::PI);
    constant + libm::log(v.determinant()) + libm::log(xvx.determinant()) + rest.dot(&(inverse * &rest))
}

#[test]
fn the_likelihood_is_that_of_dense_matrices_and_at_its_peak() {
    let (y, x, blocks) = uneven();
    let f = MixedFit::new(&y, &x, Some(&blocks)).expect("fit");
    let (s, t) = (f.residual_variance, f.block_variance);
    let dense = |s: f64, t: f64| dense_deviance(&y, &x, &blocks, s, t);
    agree("deviance", f.deviance, dense(s, t), 1e-10);
    for (more_s, more_t) in [(1.02, 1.0), (0.98, 1.0), (1.0, 1.02), (1.0, 0.98), (1.02, 0.98)] {
        assert!(dense(s * more_s, t * more_t) > f.deviance);
    }
}

#[test]
fn weights_give_the_contrast_and_cancel_a_common_error() {
    let (y, x, blocks) = uneven();
    for blocks in [None, Some(blocks.as_slice())] {
        let f = MixedFit::new(&y, &x, blocks).expect("fit");
        let w = f.weights(&[0.0, 1.0, 0.0]);
        let value: f64 = w.iter().zip(&y).map(|(w, y)| w * y).sum();
        assert!((value - f.beta[1]).abs() < 1e-10 && w.iter().sum::<f64>().abs() < 1e-12);
    }
    let plain = MixedFit::new(&y, &x, None).expect("fit");
    agree("df", plain.total_variance().1, 11.0, 1e-6);
    assert!(plain.block_variance == 0.0);
}

/// Variances scale with the square of the response, whatever its unit.
#[test]
fn variances_scale_with_the_unit() {
    let (y, x, blocks) = uneven();
    let f = MixedFit::new(&y, &x, Some(&blocks)).expect("fit");
    for unit in [1e-6, 1e6] {
        let scaled: Vec<f64> = y.iter().map(|v| unit * v).collect();
        let g = MixedFit::new(&scaled, &x, Some(&blocks)).expect("fit");
        agree("residual", g.residual_variance, f.residual_variance * unit * unit, 1e-6);
        agree("block", g.block_variance, f.block_variance * unit * unit, 1e-6);
    }
}

#[test]
fn errors_name_their_reason() {
    let (y, x, blocks) = uneven();
    let run = |y: &[f64], x: &DMatrix<f64>, blocks: Option<&[usize]>| MixedFit::new(y, x, blocks).expect_err("no fit");
    assert_eq!(run(&y[..13], &x, None), MixedError::Sizes);
    assert_eq!(run(&y, &x, Some(&blocks[..13])), MixedError::Sizes);
    assert_eq!(run(&y[..3], &x.rows(0, 3).into_owned(), None), MixedError::RankDeficient);
    let twin = DMatrix::from_fn(14, 2, |i, j| (i * (j + 1)) as f64);
    assert_eq!(run(&y, &twin, None), MixedError::RankDeficient);
    assert_eq!(run(&[2.0; 14], &intercept(14), None), MixedError::NoScatter);
    let f = MixedFit::new(&y, &x, Some(&blocks)).expect("fit");
    assert!(matches!(f.contrast(&[1.0], ContrastKind::Difference, 0.95), Err(MixedError::Sizes)));
    assert!(matches!(f.f_test(&DMatrix::zeros(1, 2)), Err(MixedError::Sizes)) && f.weights(&[1.0]).is_empty());
    let twice = DMatrix::from_row_slice(2, 3, &[0.0, 1.0, 0.0, 0.0, 1.0, 0.0]);
    assert!(matches!(f.f_test(&twice), Err(MixedError::RankDeficient)));
}
