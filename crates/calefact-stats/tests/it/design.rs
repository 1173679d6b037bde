//! Designs: means of levels, slopes and interactions from their rows, against closed forms and SAS.

use crate::data::agree;
use calefact_stats::contrast::{Contrast, ContrastKind};
use calefact_stats::design::{Basis, Covariate, Design, DesignError, Factor, Variable};
use calefact_stats::mixed::MixedFit;

fn factor(name: &str, labels: &[&str]) -> Variable {
    Variable::Factor(Factor::from_labels(name, labels))
}

fn covariate(name: &str, values: &[f64]) -> Variable {
    Variable::Covariate(Covariate { name: name.into(), values: values.to_vec() })
}

fn fit(design: &Design, y: &[f64]) -> MixedFit {
    let kept = Basis::new(&design.matrix).kept;
    MixedFit::new(y, &design.matrix.select_columns(&kept), None).expect("fit")
}

/// The combination `row` of a fit; `None` where it cannot be estimated.
fn estimate(design: &Design, fit: &MixedFit, row: &[f64]) -> Option<Contrast> {
    let l = design.estimable(row)?;
    Some(fit.contrast(&l, ContrastKind::Difference, 0.95).expect("contrast"))
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Analysis of covariance in closed form: slope b = sum of within-group products / within-group squares of x, adjusted mean
/// of a group = its mean - b (its mean x - overall mean x), u^2 = s^2 (1/n + (mean x of the group - overall)^2 / Sxx).
#[test]
fn adjusted_means_in_closed_form() {
    let (labels, x) = (["a", "a", "a", "b", "b", "b", "b"], [1.0, 2.0, 4.0, 3.0, 5.0, 6.0, 9.0]);
    let y = [2.1, 2.9, 5.2, 3.0, 5.1, 5.8, 9.3];
    let design = Design::new(vec![factor("g", &labels), covariate("x", &x)], &[]).expect("design");
    let f = fit(&design, &y);
    let groups = [0..3, 3..7];
    let about = |v: &[f64], r: &std::ops::Range<usize>, i: usize| v[i] - mean(&v[r.clone()]);
    let sum = |a: &[f64], b: &[f64]| -> f64 {
        groups.iter().flat_map(|r| r.clone().map(move |i| about(a, r, i) * about(b, r, i))).sum()
    };
    let (sxx, sxy, syy) = (sum(&x, &x), sum(&x, &y), sum(&y, &y));
    let (slope, variance) = (sxy / sxx, (syy - sxy * sxy / sxx) / 4.0);
    let got = estimate(&design, &f, &design.slope_row(1)).expect("slope");
    agree("slope", got.effect, slope, 1e-11);
    agree("its u", got.effect_uncertainty, (variance / sxx).sqrt(), 1e-10);
    for (r, row) in groups.iter().zip(design.marginal_rows(0).expect("factor")) {
        let got = estimate(&design, &f, &row).expect("mean");
        let off = mean(&x[r.clone()]) - mean(&x);
        agree("mean", got.effect, mean(&y[r.clone()]) - slope * off, 1e-11);
        agree("its u", got.effect_uncertainty, (variance * (1.0 / r.len() as f64 + off * off / sxx)).sqrt(), 1e-10);
        agree("its df", got.dof, 4.0, 1e-9);
    }
    assert!(design.marginal_rows(1).is_none() && design.marginal_rows(2).is_none());
}

/// Marginal means of a cell-means model are the plain averages of the cell means, whatever the numbers in the cells: closed
/// form. SAS GLM gives F 0.99565 for the interaction of these figures (quoted in lmerTest's tests).
#[test]
fn interaction_of_two_factors() {
    let (a, b) =
        (["1", "1", "1", "2", "2", "2", "2", "2", "1", "2"], ["1", "1", "2", "1", "2", "2", "2", "2", "2", "1"]);
    let y = [12.0, 14.0, 11.0, 20.0, 17.0, 23.0, 35.0, 46.0, 15.0, 16.0];
    let design = Design::new(vec![factor("a", &a), factor("b", &b)], &[vec![1, 0]]).expect("design");
    let f = fit(&design, &y);
    let test = f.f_test(&design.last_term_rows().expect("interaction")).expect("F");
    assert!((test.f - 0.995_65).abs() < 5e-6);
    agree("numerator", test.numerator_dof, 1.0, 0.0);
    agree("denominator", test.denominator_dof, 6.0, 1e-9);
    let cell = |i: &str, j: &str| {
        let own: Vec<f64> = (0..10).filter(|&k| a[k] == i && b[k] == j).map(|k| y[k]).collect();
        mean(&own)
    };
    for (level, row) in ["1", "2"].into_iter().zip(design.marginal_rows(0).expect("factor")) {
        let got = estimate(&design, &f, &row).expect("mean").effect;
        agree("marginal mean", got, 0.5 * (cell(level, "1") + cell(level, "2")), 1e-10);
    }
}

/// A slope is the average over the levels when it differs between them.
#[test]
fn a_slope_is_averaged_over_the_levels() {
    let (labels, x) = (["a", "a", "a", "b", "b", "b"], [0.0, 1.0, 2.0, 0.0, 1.0, 2.0]);
    let y = [0.0, 1.1, 1.9, 0.0, 2.9, 6.1];
    let design = Design::new(vec![factor("g", &labels), covariate("x", &x)], &[vec![0, 1]]).expect("design");
    let got = estimate(&design, &fit(&design, &y), &design.slope_row(1)).expect("slope");
    agree("slope", got.effect, 0.5 * (1.9 / 2.0 + 6.1 / 2.0), 1e-11);
}

/// With an empty cell the main means of an interaction model cannot be formed; those of levels with all cells can.
#[test]
fn empty_cells_leave_only_complete_levels() {
    let (stove, fuel) =
        (["box", "box", "box", "box", "rocket", "rocket"], ["oak", "oak", "pine", "pine", "oak", "oak"]);
    let design = Design::new(vec![factor("stove", &stove), factor("fuel", &fuel)], &[vec![0, 1]]).expect("design");
    let f = fit(&design, &[1.0, 1.2, 2.0, 2.4, 3.0, 3.1]);
    let rows = design.marginal_rows(0).expect("factor");
    agree("box", estimate(&design, &f, &rows[0]).expect("box").effect, 0.5 * (1.1 + 2.2), 1e-12);
    assert!(estimate(&design, &f, &rows[1]).is_none() && design.last_term_rows().is_none());
    let aliased = design.aliased();
    assert_eq!(
        aliased.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["`stove=rocket × fuel=pine` cannot be estimated: no trial with stove=rocket, fuel=pine"]
    );
}

#[test]
fn unusable_variables_name_their_reason() {
    let error = |variables: Vec<Variable>, interactions: &[Vec<usize>]| {
        Design::new(variables, interactions).expect_err("no design").to_string()
    };
    let (two, long) = (|| factor("stove", &["box", "rocket"]), covariate("air", &[1.0, 2.0, 3.0]));
    assert_eq!(error(vec![two(), long], &[]), "`air` has 3 values where the others have 2");
    assert_eq!(
        error(vec![factor("fuel", &["oak", "oak"])], &[]),
        "`fuel` has only one level here, so there is nothing to compare"
    );
    assert_eq!(
        error(vec![covariate("air", &[1.0, f64::NAN])], &[]),
        "`air` is missing or not a number for some trials"
    );
    let wrong = DesignError::Interaction.to_string();
    for interaction in [vec![0, 0], vec![0], vec![0, 2], vec![]] {
        let variables = vec![two(), factor("fuel", &["oak", "pine"])];
        assert_eq!(error(variables, std::slice::from_ref(&interaction)), wrong, "{interaction:?}");
    }
}
