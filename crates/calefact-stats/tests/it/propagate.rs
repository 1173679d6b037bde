//! Worked examples of the GUM and of EURACHEM, and closed forms for errors that two means share.

use calefact_stats::dist::t_quantile;
use calefact_stats::propagate::{correlated, covariance, first_order, sensitivities};
use calefact_stats::uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use nalgebra::DMatrix;

#[track_caller]
fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "got {got:e}, want {want:e}");
}

fn book(dofs: &[(&str, f64)]) -> ErrorSources {
    let info = |dof| SourceInfo { label: String::new(), shared: false, dof, shape: Shape::Normal };
    dofs.iter().map(|(name, dof)| (Source::from(*name), info(*dof))).collect()
}

/// JCGM 100:2008 H.1, an end gauge in nm: l = l_s + d - l_s (da theta + alpha dtheta). Printed: u_c 32 nm, 16 degrees of
/// freedom, U99 93 nm. From unrounded inputs: 31.6639, 16.752; the 25.6 the Guide prints for d comes from rounding u(d) to
/// 9.7, unrounded it is 25.447.
#[test]
fn gum_h1_end_gauge() {
    let d = UncertainValue::new(215.0, "d-bar", 5.8).with("d1", 3.9).with("d2", 6.7);
    let book = book(&[("l_s", 18.0), ("d-bar", 24.0), ("d1", 5.0), ("d2", 8.0), ("da", 50.0), ("dtheta", 2.0)]);
    close(d.std_uncertainty(), 9.681_941_954, 1e-9);
    close(d.dof(&book), 25.447_250_78, 1e-8);
    let root3 = 3.0_f64.sqrt();
    let inputs = [
        UncertainValue::new(50_000_623.0, "l_s", 25.0),
        d,
        UncertainValue::new(0.0, "da", 1e-6 / root3),
        UncertainValue::new(-0.1, "theta-bar", 0.2).with("cycle", 0.5 / 2.0_f64.sqrt()),
        UncertainValue::new(11.5e-6, "alpha", 2e-6 / root3),
        UncertainValue::new(0.0, "dtheta", 0.05 / root3),
    ];
    let l = &first_order(&inputs, |x| vec![x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5])])[0];
    close(l.value, 50_000_838.0, 0.5);
    close(l.std_uncertainty(), 31.663_879_11, 1e-6);
    close(l.dof(&book), 16.751_855_74, 1e-6);
    close(t_quantile(0.995, 16.0) * l.std_uncertainty(), 92.483_28, 1e-4);
    let part = |name: &str| l.parts.iter().find(|(s, _)| &**s == name).map_or(0.0, |(_, p)| p.abs());
    close(part("da"), 2.886_787, 1e-5);
    close(part("dtheta"), 16.599_027, 1e-5);
    close(part("alpha"), 0.0, 1e-9);
}

/// Covariance of means of equally many simultaneous readings, JCGM 100:2008 equation (17).
fn covariance_of_means(readings: &[&[f64]]) -> DMatrix<f64> {
    let means: Vec<f64> = readings.iter().map(|r| calefact_stats::univariate::mean(r)).collect();
    let n = readings[0].len();
    DMatrix::from_fn(readings.len(), readings.len(), |i, j| {
        let products = (0..n).map(|k| (readings[i][k] - means[i]) * (readings[j][k] - means[j]));
        products.sum::<f64>() / (n * (n - 1)) as f64
    })
}

/// JCGM 100:2008 H.2: R = (V/I) cos phi, X = (V/I) sin phi, Z = V/I from five simultaneous readings. Printed: 127.732
/// (0.071), 219.847 (0.295), 254.260 (0.236) ohm; r(R,X) -0.588, r(R,Z) -0.485, r(X,Z) 0.993.
#[test]
fn gum_h2_correlated_inputs_and_outputs() {
    let v = [5.007, 4.994, 5.005, 4.990, 4.999];
    let i = [0.019_663, 0.019_639, 0.019_640, 0.019_685, 0.019_678];
    let phi = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
    let cov = covariance_of_means(&[&v, &i, &phi]);
    let inputs = correlated(&[4.9990, 0.019_661, 1.044_46], &cov, "impedance");
    let out = first_order(&inputs, |x| {
        let z = x[0] / x[1];
        vec![z * x[2].cos(), z * x[2].sin(), z]
    });
    let (r, x, z) = (&out[0], &out[1], &out[2]);
    for (got, value, u) in [(r, 127.732, 0.071_071_4), (x, 219.847, 0.295_581_7), (z, 254.260, 0.236_336_1)] {
        close(got.value, value, 6e-4);
        close(got.std_uncertainty(), u, 1e-6);
    }
    let correlation =
        |a: &UncertainValue, b: &UncertainValue| covariance(a, b) / (a.std_uncertainty() * b.std_uncertainty());
    close(correlation(r, x), -0.588_43, 1e-5);
    close(correlation(r, z), -0.485_26, 1e-5);
    close(correlation(x, z), 0.992_51, 1e-5);
}

/// EURACHEM/CITAC QUAM:2012 A1, c = 1000 m P/V: 1002.7 mg/L, u 0.835; A2, c = 1000 R m P/(M V): 0.102136 mol/L, 0.0001005.
#[test]
fn eurachem_a1_and_a2() {
    let a1 = [
        UncertainValue::new(100.28, "mass", 0.05),
        UncertainValue::new(0.9999, "purity", 0.0001 / 3.0_f64.sqrt()),
        UncertainValue::new(100.0, "volume", 0.066_473_05),
    ];
    let c = &first_order(&a1, |x| vec![1000.0 * x[0] * x[1] / x[2]])[0];
    close(c.value, 1_002.699_72, 1e-9);
    close(c.std_uncertainty(), 0.835_199_2, 1e-6);
    let a2 = [
        UncertainValue::new(1.0, "repeatability", 0.0005),
        UncertainValue::new(0.3888, "mass", 1.224_744_871e-4),
        UncertainValue::new(1.0, "purity", 0.0005 / 3.0_f64.sqrt()),
        UncertainValue::new(204.2212, "molar mass", 0.003_765_302),
        UncertainValue::new(18.64, "titre", 0.013_638_182),
    ];
    let c = &first_order(&a2, |x| vec![1000.0 * x[0] * x[1] * x[2] / (x[3] * x[4])])[0];
    close(c.value, 0.102_136_159_7, 1e-10);
    close(c.std_uncertainty(), 1.005e-4, 5e-8);
}

/// Without any random part, a shared offset leaves a difference and a shared gain a ratio without uncertainty.
#[test]
fn what_cancels_leaves_nothing() {
    let reading = |v: f64| UncertainValue::new(v, "offset", 0.03);
    let difference = UncertainValue::combine(&[(1.0, &reading(1.25)), (-1.0, &reading(1.0))]);
    assert!(difference.std_uncertainty() <= 0.0);
    let out = &first_order(&[reading(1.25), reading(1.0)], |x| vec![x[0] - x[1], x[0] / x[1]]);
    close(out[0].std_uncertainty(), 0.0, 1e-16);
    let equal = &first_order(&[reading(1.0), reading(1.0)], |x| vec![x[0] / x[1]])[0];
    assert!(equal.parts.is_empty());
    let gain = |v: f64| UncertainValue::new(v, "gain", 0.02 * v);
    let ratio = &first_order(&[gain(1.25), gain(1.0)], |x| vec![x[0] / x[1]])[0];
    close(ratio.std_uncertainty(), 0.0, 1e-15);
}

#[test]
fn an_output_that_is_not_defined_stays_so() {
    let x = [UncertainValue::new(0.1, "s", 0.2)];
    let out = first_order(&x, |x| vec![x[0].ln(), (-1.0_f64).sqrt() * x[0], 2.0 * x[0]]);
    // Defined on one side only: the change on that side, ln 0.3 - ln 0.1.
    close(out[0].std_uncertainty(), 3.0_f64.ln(), 1e-12);
    assert!(out[1].value.is_nan() && out[1].parts.is_empty());
    close(out[2].std_uncertainty(), 0.4, 1e-15);
}

#[test]
fn a_budget_lists_each_input() {
    let inputs = [UncertainValue::new(2.0, "a", 0.1), UncertainValue::exact(5.0), UncertainValue::new(3.0, "b", 0.2)];
    let rows = sensitivities(&inputs, |x| vec![x[0] * x[2] + x[1]]);
    assert_eq!(rows.iter().map(|r| r.input).collect::<Vec<_>>(), [0, 2]);
    close(rows[0].coefficient, 3.0, 1e-12);
    close(rows[1].contribution, 0.4, 1e-12);
}
