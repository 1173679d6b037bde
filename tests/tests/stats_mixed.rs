//! Mixed models against lme4, lmerTest, pbkrtest, SAS and MixedModels.jl output and closed forms.

mod stats_support;

use calefact_stats::contrast::{Contrast, ContrastKind};
use calefact_stats::mixed::{Component, Criterion, DofMethod, MixedFit};
use nalgebra::DMatrix;
use stats_support::{Results, agree, codes, number, rows};
use std::collections::BTreeMap;

type Rows = Vec<BTreeMap<String, String>>;

fn column(data: &[BTreeMap<String, String>], name: &str) -> Vec<f64> {
    data.iter().map(|r| number(r, name)).collect()
}

fn intercept(n: usize) -> DMatrix<f64> {
    DMatrix::from_element(n, 1, 1.0)
}

fn fit(y: &[f64], x: &DMatrix<f64>, random: Vec<Component>, criterion: Criterion) -> MixedFit {
    MixedFit::new(y, x, random, criterion).expect("fit")
}

fn ask(fit: &MixedFit, l: &[f64], method: DofMethod) -> Contrast {
    fit.contrast(l, ContrastKind::Difference, method, 0.95).expect("contrast")
}

/// Columns: intercept, then one indicator for each level but the first of every factor named.
fn treatment(data: &[BTreeMap<String, String>], factors: &[&str]) -> DMatrix<f64> {
    let mut columns = vec![vec![1.0; data.len()]];
    for factor in factors {
        let (code, names) = codes(data, factor);
        columns.extend((1..names.len()).map(|k| code.iter().map(|&c| f64::from(u8::from(c == k))).collect()));
    }
    DMatrix::from_fn(data.len(), columns.len(), |i, j| columns[j][i])
}

/// Dyestuff (Davies & Goldsmith): REML equals the ANOVA estimates exactly; -2 log L by MixedModels.jl.
#[test]
fn dyestuff() {
    let (Some(data), Some(r)) = (rows("mixed/dyestuff.csv"), Results::read("mixed/results.csv")) else { return };
    let (batch, _) = codes(&data, "batch");
    let y = column(&data, "yield_g");
    let f = fit(&y, &intercept(30), vec![Component::intercepts("batch", &batch)], Criterion::Reml);
    agree("batch", f.variances[1].1, 1764.05, 1e-9);
    agree("residual", f.residual_variance(), 2451.25, 1e-9);
    agree("-2 log L", f.deviance, 319.654_276_842_257_6, 1e-12);
    for method in [DofMethod::KenwardRoger, DofMethod::Satterthwaite] {
        let mean = ask(&f, &[1.0], method);
        agree("se", mean.effect_uncertainty, r.get("Dyestuff", "se mean = sqrt(MSB/30)"), 1e-9);
        agree("df", mean.dof, 5.0, 1e-7);
        agree("low", mean.interval.lower, r.get("Dyestuff", "95% CI mean lo (t5)"), 1e-9);
    }
    for (effect, name) in f.block_effects(1, &batch).iter().zip(["A", "B", "C", "D", "E", "F"]) {
        agree(name, *effect, r.get("Dyestuff", &format!("REML BLUP {name}")), 1e-7);
    }
    let ml = fit(&y, &intercept(30), vec![Component::intercepts("batch", &batch)], Criterion::Ml);
    agree("ML -2 log L", ml.deviance, 327.327_059_881_135, 1e-12);
    agree("ML batch", ml.variances[1].1, r.get("Dyestuff", "ML sigma2_batch"), 1e-8);
    agree("ML se", ml.covariance[(0, 0)].sqrt(), r.get("Dyestuff", "ML se(mean)"), 1e-9);
    assert!(ml.contrast(&[1.0], ContrastKind::Difference, DofMethod::KenwardRoger, 0.95).is_err());
}

#[test]
fn dyestuff_unbalanced() {
    let (Some(data), Some(r)) = (rows("mixed/dyestuff_unbalanced.csv"), Results::read("mixed/results.csv")) else {
        return;
    };
    let (batch, _) = codes(&data, "batch");
    let random = vec![Component::intercepts("batch", &batch)];
    let f = fit(&column(&data, "yield_g"), &intercept(data.len()), random, Criterion::Reml);
    let get = |q: &str| r.get("Dyestuff_unbalanced", q);
    agree("batch", f.variances[1].1, get("REML sigma2_batch"), 1e-7);
    agree("residual", f.residual_variance(), get("REML sigma2_resid"), 1e-7);
    agree("mean", f.beta[0], get("mean"), 1e-10);
    agree("log L", -0.5 * f.deviance, get("REML logLik"), 1e-12);
    agree("se", f.covariance[(0, 0)].sqrt(), get("se"), 1e-8);
    let (kr, sat) = (ask(&f, &[1.0], DofMethod::KenwardRoger), ask(&f, &[1.0], DofMethod::Satterthwaite));
    agree("KR se", kr.effect_uncertainty, get("KR adjusted se"), 1e-8);
    agree("KR df", kr.dof, get("KR ddf"), 1e-7);
    agree("Satterthwaite df", sat.dof, get("Satterthwaite ddf (observed info)"), 1e-6);
}

/// Pastes: casks within batches; lme4 and MixedModels.jl.
#[test]
fn pastes() {
    let (Some(data), Some(r)) = (rows("mixed/pastes.csv"), Results::read("mixed/results.csv")) else { return };
    let (batch, _) = codes(&data, "batch");
    let (cask, _) = codes(&data, "sample");
    let y = column(&data, "strength");
    let random = || vec![Component::intercepts("batch", &batch), Component::intercepts("cask", &cask)];
    let f = fit(&y, &intercept(60), random(), Criterion::Reml);
    let get = |q: &str| r.get("Pastes", q);
    agree("batch", f.variances[1].1, get("REML sigma2_batch"), 1e-7);
    agree("cask", f.variances[2].1, get("REML sigma2_cask_in_batch"), 1e-7);
    agree("residual", f.residual_variance(), get("REML sigma2_resid"), 1e-7);
    agree("-2 log L", f.deviance, get("REML -2logLik"), 1e-11);
    let mean = ask(&f, &[1.0], DofMethod::KenwardRoger);
    agree("se", mean.effect_uncertainty, get("REML se"), 1e-8);
    agree("KR df", mean.dof, get("KR ddf"), 1e-6);
    agree("ML -2 log L", fit(&y, &intercept(60), random(), Criterion::Ml).deviance, 247.994_465_862_495_5, 1e-11);
}

/// sleepstudy with a random slope: lme4's published figures, pbkrtest's 17 degrees of freedom.
#[test]
fn sleepstudy() {
    let (Some(data), Some(r)) = (rows("mixed/sleepstudy.csv"), Results::read("mixed/results.csv")) else { return };
    let (subject, _) = codes(&data, "Subject");
    let days = column(&data, "Days");
    let x = DMatrix::from_fn(180, 2, |i, j| if j == 0 { 1.0 } else { days[i] });
    let random = || Component::intercepts_and_slopes("subject", &subject, &days).to_vec();
    let f = fit(&column(&data, "Reaction"), &x, random(), Criterion::Reml);
    let get = |q: &str| r.get("sleepstudy", q);
    for (i, name) in ["REML resid var", "REML var intercept", "REML cov int,slope", "REML var slope"].iter().enumerate()
    {
        agree(name, f.variances[i].1, get(name), 1e-6);
    }
    agree("-2 log L", f.deviance, get("REML -2logLik"), 1e-11);
    let slope = ask(&f, &[0.0, 1.0], DofMethod::KenwardRoger);
    agree("slope", slope.effect, get("REML beta1"), 1e-9);
    agree("KR df", slope.dof, 17.0, 1e-6);
    agree("KR F", slope.statistic().powi(2), get("KR F Days"), 1e-7);
    agree("KR p", slope.p_value, get("KR p Days"), 1e-6);
    let ml = fit(&column(&data, "Reaction"), &x, random(), Criterion::Ml);
    agree("ML -2 log L", ml.deviance, 1_751.939_344_463_668_2, 1e-11);
}

fn shoes(data: &Rows) -> (MixedFit, Contrast, Contrast) {
    let (boy, _) = codes(data, "boy");
    let x = treatment(data, &["material"]);
    let f = fit(&column(data, "wear"), &x, vec![Component::intercepts("boy", &boy)], Criterion::Reml);
    let (kr, sat) = (ask(&f, &[0.0, 1.0], DofMethod::KenwardRoger), ask(&f, &[0.0, 1.0], DofMethod::Satterthwaite));
    (f, kr, sat)
}

/// pbkrtest's and lmerTest's printed output for the shoes data: F 11.215 on 9.000, p 0.008539; equal to the paired t test.
#[test]
fn shoes_balanced() {
    let (Some(data), Some(r)) = (rows("mixed/shoes.csv"), Results::read("mixed/results.csv")) else { return };
    let (f, kr, sat) = shoes(&data);
    agree("boy", f.variances[1].1, r.get("shoes_balanced", "sigma2_boy"), 1e-7);
    agree("t", kr.statistic().abs(), r.get("shoes_balanced", "paired t").abs(), 1e-8);
    agree("KR p", kr.p_value, r.get("shoes_balanced", "KR p"), 1e-6);
    agree("KR df", kr.dof, 9.0, 1e-7);
    agree("Satterthwaite df", sat.dof, 9.0, 1e-6);
    let test = f.f_test(&DMatrix::from_row_slice(1, 2, &[0.0, 1.0])).expect("F");
    assert!((test.f - 11.215).abs() < 5e-4 && (test.p_value - 0.008_539).abs() < 5e-7);
}

/// Two observations removed: KR F 5.9893 on 7.021904, p 0.04418; Satterthwaite F 6.00 on 7.010863.
#[test]
fn shoes_unbalanced() {
    let (Some(data), Some(r)) = (rows("mixed/shoes.csv"), Results::read("mixed/results.csv")) else { return };
    let gone = |row: &BTreeMap<String, String>| {
        (row["boy"] == "1" && row["material"] == "A") || (row["boy"] == "2" && row["material"] == "B")
    };
    let kept: Rows = data.into_iter().filter(|row| !gone(row)).collect();
    assert_eq!(kept.len(), 18);
    let (f, kr, sat) = shoes(&kept);
    let get = |q: &str| r.get("shoes_unbalanced", q);
    agree("effect", kr.effect.abs(), get("beta_B-A").abs(), 1e-8);
    agree("residual", f.residual_variance(), get("sigma2_resid"), 1e-7);
    agree("KR se", kr.effect_uncertainty, get("KR adjusted se"), 1e-8);
    agree("KR F", kr.statistic().powi(2), get("KR F"), 1e-7);
    assert!((kr.dof - 7.021_904).abs() < 5e-7 && (kr.p_value - 0.044_18).abs() < 5e-6);
    assert!((sat.dof - 7.010_863).abs() < 1e-6);
    agree("Satterthwaite F", sat.statistic().powi(2), get("Satterthwaite F"), 1e-7);
}

/// beets split plot (pbkrtest's article, J. Stat. Softw. 59(9)): harvest F 15.21 on (1, 2), sow F 101 on (4, 20).
#[test]
fn beets() {
    let (Some(data), Some(r)) = (rows("mixed/beets.csv"), Results::read("mixed/results.csv")) else { return };
    let joined: Rows = data
        .into_iter()
        .map(|mut row| {
            let plot = format!("{}:{}", row["block"], row["harvest"]);
            row.insert("plot".into(), plot);
            row
        })
        .collect();
    let (plot, _) = codes(&joined, "plot");
    let x = treatment(&joined, &["block", "harvest", "sow"]);
    let f = fit(&column(&joined, "sugpct"), &x, vec![Component::intercepts("plot", &plot)], Criterion::Reml);
    let get = |q: &str| r.get("beets_sugpct", q);
    agree("whole plot", f.variances[1].1, get("REML sigma2_wholeplot"), 1e-5);
    agree("residual", f.residual_variance(), get("REML sigma2_resid"), 1e-6);
    let row = |k: usize| (0..8).map(move |j| f64::from(u8::from(j == k)));
    let harvest = f.f_test(&DMatrix::from_row_iterator(1, 8, row(3))).expect("harvest");
    let sow = f.f_test(&DMatrix::from_row_iterator(4, 8, (4..8).flat_map(row))).expect("sow");
    agree("harvest F", harvest.f, get("harvest KR F"), 1e-5);
    agree("harvest df", harvest.denominator_dof, 2.0, 1e-4);
    agree("sow F", sow.f, 101.0, 1e-5);
    agree("sow df", sow.denominator_dof, 20.0, 1e-4);
}

/// SAS PROC MIXED: block variance 0, interaction F 0.99565 as in ordinary least squares.
#[test]
fn zero_block_variance_is_least_squares() {
    let Some(data) = rows("mixed/sas_glm101.csv") else { return };
    let (block, _) = codes(&data, "f");
    let (a, b) = (column(&data, "a"), column(&data, "b"));
    let x = DMatrix::from_fn(data.len(), 4, |i, j| [1.0, a[i] - 1.0, b[i] - 1.0, (a[i] - 1.0) * (b[i] - 1.0)][j]);
    let f = fit(&column(&data, "y"), &x, vec![Component::intercepts("block", &block)], Criterion::Reml);
    assert!(f.variances[1].1 == 0.0);
    let c = ask(&f, &[0.0, 0.0, 0.0, 1.0], DofMethod::KenwardRoger);
    assert!((c.statistic().powi(2) - 0.995_65).abs() < 5e-6);
    agree("df", c.dof, 6.0, 1e-9);
}

/// e-Handbook 3.5.1 furnace data: 21 runs x 4 zones x 2 wafers, balanced, so REML equals the nested analysis of variance.
#[test]
fn furnace_nested() {
    let (Some(data), Some(r)) = (rows("groups/furnace.csv"), Results::read("groups/ehandbook_results.csv")) else {
        return;
    };
    let (run, _) = codes(&data, "run");
    let zone: Vec<usize> = data.iter().zip(&run).map(|(row, run)| 10 * run + number(row, "zone") as usize).collect();
    let random = vec![Component::intercepts("run", &run), Component::intercepts("zone", &zone)];
    let f = fit(&column(&data, "thickness"), &intercept(data.len()), random, Criterion::Reml);
    agree("run", f.variances[1].1, r.get("FURNACE", "var comp run"), 1e-7);
    agree("zone", f.variances[2].1, r.get("FURNACE", "var comp zone[run]"), 1e-7);
    agree("wafer", f.residual_variance(), r.get("FURNACE", "var comp within"), 1e-7);
    agree("se", f.covariance[(0, 0)].sqrt(), r.get("FURNACE", "se mean = sqrt(MS run/168)"), 1e-8);
}
