//! Examples of JCGM 101, NPL and NIST TN 1900. Tolerances are the last printed digit or the Monte Carlo error of the
//! reference, whichever is larger.

use calefact_stats::estimate::Interval;
use calefact_stats::monte_carlo::{
    McResult, McSettings, SharedDraws, monte_carlo, numerical_tolerance, shortest, symmetric, validate,
};
use calefact_stats::propagate::first_order;
use calefact_stats::uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};

#[track_caller]
fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "got {got:e}, want {want:e}");
}

#[track_caller]
fn ends(got: Interval, lower: f64, upper: f64, tolerance: f64) {
    close(got.lower, lower, tolerance);
    close(got.upper, upper, tolerance);
}

/// Inputs each on a source of its own, `x0`, `x1`, ..., given as (value, part, shape, dof).
fn inputs(list: &[(f64, f64, Shape, f64)]) -> (Vec<UncertainValue>, ErrorSources) {
    let name = |i: usize| Source::from(format!("x{i}"));
    let traced = list.iter().enumerate().map(|(i, (v, u, _, _))| UncertainValue::new(*v, name(i), *u)).collect();
    let info = |shape, dof| SourceInfo { label: String::new(), shared: false, dof, shape };
    (traced, list.iter().enumerate().map(|(i, (_, _, shape, dof))| (name(i), info(*shape, *dof))).collect())
}

fn normal(value: f64, u: f64) -> (f64, f64, Shape, f64) {
    (value, u, Shape::Normal, f64::INFINITY)
}

/// Uniform between limits.
fn uniform(low: f64, high: f64) -> (f64, f64, Shape, f64) {
    (f64::midpoint(low, high), (high - low) / 12.0_f64.sqrt(), Shape::Rectangular, f64::INFINITY)
}

fn student(value: f64, scale: f64, dof: f64) -> (f64, f64, Shape, f64) {
    (value, scale, Shape::Student, dof)
}

/// Arcsine distribution of half width a from a uniform number in -1..1.
fn arcsine(a: f64, u: f64) -> f64 {
    a * (std::f64::consts::FRAC_PI_2 * u).sin()
}

fn run(list: &[(f64, f64, Shape, f64)], settings: McSettings, model: impl Fn(&[f64]) -> f64) -> McResult {
    let (x, book) = inputs(list);
    monte_carlo(&x, &book, &settings, |x| vec![model(x)])[0]
}

fn many(level: f64, trials: usize) -> McSettings {
    McSettings { level, digits: 6, max_trials: trials, ..McSettings::default() }
}

/// JCGM 101:2008 9.2.2 and 9.2.3: sums of four; 95 % intervals -/+3.92 (normal) and -/+3.88 (rectangular), u 2.0.
#[test]
fn sums_of_four() {
    let sum = |x: &[f64]| x.iter().sum();
    let gaussian = run(&[normal(0.0, 1.0); 4], McSettings::default(), sum);
    assert!(gaussian.converged && gaussian.trials >= 20_000);
    close(gaussian.std_uncertainty, 2.0, 0.05);
    ends(gaussian.symmetric, -3.92, 3.92, 0.05);
    let root3 = 3.0_f64.sqrt();
    let rectangular = run(&[uniform(-root3, root3); 4], many(0.95, 300_000), sum);
    close(rectangular.std_uncertainty, 2.0, 0.01);
    ends(rectangular.symmetric, -3.8794, 3.8794, 0.02);
    // A t interval of the sum would be -/+3.92: not valid to three digits, valid to one.
    let first = Interval { lower: -3.92, upper: 3.92, level: 0.95 };
    assert!(!validate(&first, &rectangular.symmetric, 2.0, 3).valid);
    assert!(validate(&first, &rectangular.symmetric, 2.0, 1).valid);
}

/// JCGM 101:2008 9.3, calibration of a mass, mg: first order 0.0539; 10^7 draws elsewhere give mean 1.23397, u 0.07548,
/// symmetric 95 % interval 1.08444..1.38343 (the Supplement's own table, from memory: 0.0754, 1.0834..1.3825).
#[test]
fn mass_calibration_is_not_validated() {
    let list =
        [normal(1e5, 0.05), normal(1.234, 0.02), uniform(1.1, 1.3), uniform(7000.0, 9000.0), uniform(7950.0, 8050.0)];
    let model = |x: &[f64]| (x[0] + x[1]) * (1.0 + (x[2] - 1.2) * (1.0 / x[3] - 1.0 / x[4])) - 1e5;
    let got = run(&list, many(0.95, 500_000), model);
    close(got.value, 1.233_97, 4e-4);
    close(got.std_uncertainty, 0.075_48, 4e-4);
    ends(got.symmetric, 1.084_44, 1.383_43, 2e-3);
    let (x, _) = inputs(&list);
    let first = &first_order(&x, |x| vec![model(x)])[0];
    close(first.std_uncertainty(), 0.053_851_65, 1e-7);
    let interval = Interval { lower: 1.1285, upper: 1.3395, level: 0.95 };
    let verdict = validate(&interval, &got.symmetric, first.std_uncertainty(), 1);
    assert!(!verdict.valid);
    close(verdict.tolerance, 0.005, 1e-15);
}

/// Curvilinear trapezoid on a..b whose limits are uncertain by d (JCGM 101:2008 6.4.3.4), from two uniforms in -1..1.
fn trapezoid(half: f64, d: f64, u: f64, v: f64) -> f64 {
    let edge = half + d * u;
    edge * v
}

/// JCGM 101:2008 9.5, the end gauge, nm beyond 50 mm: 838, 36, 99 % 745..932 (10^6 draws in print); 10^7 draws elsewhere
/// 837.98, 35.817, shortest 744.4..931.8. The t inputs have unit scale, not unit deviation.
#[test]
fn gauge_block() {
    let unit = uniform(-1.0, 1.0);
    let list = [
        student(50_000_623.0, 25.0, 18.0),
        student(215.0, 6.0, 24.0),
        student(0.0, 4.0, 5.0),
        student(0.0, 7.0, 8.0),
        uniform(9.5e-6, 13.5e-6),
        normal(-0.1, 0.2),
        unit,
        unit,
        unit,
        unit,
        unit,
    ];
    let got = run(&list, many(0.99, 500_000), |x| {
        let expansion = trapezoid(1e-6, 0.1e-6, x[7], x[8]) * (x[5] + arcsine(0.5, x[6]));
        let warmth = x[4] * trapezoid(0.05, 0.025, x[9], x[10]);
        x[0] + x[1] + x[2] + x[3] - x[0] * (expansion + warmth) - 5e7
    });
    close(got.value, 837.98, 0.3);
    close(got.std_uncertainty, 35.817, 0.2);
    ends(got.symmetric, 744.3, 931.8, 1.5);
    ends(got.interval, 744.4, 931.8, 2.5);
}

/// NPL DEM-ES-011, ln X with X uniform on 0.1..1.1: exact mean -0.66490, u 0.60623, shortest interval ln 0.15..ln 1.1. The
/// first-order answer is -0.511 with 0.481.
#[test]
fn logarithm_of_a_uniform() {
    let got = run(&[uniform(0.1, 1.1)], many(0.95, 400_000), |x| x[0].ln());
    close(got.value, -0.664_900_3, 0.004);
    close(got.std_uncertainty, 0.606_226_7, 0.003);
    ends(got.interval, -1.897_12, 0.095_31, 0.01);
    let (x, _) = inputs(&[uniform(0.1, 1.1)]);
    let first = &first_order(&x, |x| vec![x[0].ln()])[0];
    close(first.value, -0.510_825_6, 1e-7);
    // A whole standard uncertainty either way is a coarse step on a logarithm: the exact derivative gives 0.4811.
    close(first.std_uncertainty(), (0.888_675_134_6_f64 / 0.311_324_865_4).ln() / 2.0, 1e-9);
}

/// NIST TN 1900 E3, falling-ball viscometer: a ratio of normals, so quantiles are compared, not its deviation: printed 95 %
/// 4.05..8.39 mPa s; 10^7 draws elsewhere 4.0535..8.3990, median 5.6877.
#[test]
fn falling_ball() {
    let list = [
        normal(4.63, 0.0463),
        normal(61.0, 6.1),
        normal(36.6, 5.49),
        normal(2217.0, 0.5),
        normal(1180.0, 0.5),
        normal(810.0, 0.5),
    ];
    let got = run(&list, many(0.95, 300_000), |x| x[0] * ((x[3] - x[4]) / (x[3] - x[5])) * (x[1] / x[2]));
    ends(got.symmetric, 4.0535, 8.3990, 0.03);
}

/// NIST TN 1900 E11, attenuator, dB: printed 30.043, 0.0224, 30.006..30.081, with the t of 3 degrees of freedom scaled to
/// the stated deviation of 0.0091.
#[test]
fn attenuator() {
    let unit = uniform(-1.0, 1.0);
    let list = [
        student(30.0402, 0.0091 / 3.0_f64.sqrt(), 3.0),
        uniform(0.003 - 0.004_33, 0.003 + 0.004_33),
        normal(0.0, 0.002),
        normal(0.0, 0.002),
        uniform(-0.000_519_6, 0.000_519_6),
        uniform(-0.000_519_6, 0.000_519_6),
        unit,
        unit,
        unit,
    ];
    let got = run(&list, many(0.95, 300_000), |x| {
        let arcs = arcsine(0.002_969_8, x[6]) + arcsine(0.028_28, x[7]) + arcsine(0.001_980, x[8]);
        x[0] + x[1] + x[2] - x[3] + x[4] - x[5] + arcs
    });
    close(got.value, 30.043, 5e-4);
    close(got.std_uncertainty, 0.022_45, 2e-4);
    ends(got.symmetric, 30.005_8, 30.080_6, 5e-4);
}

/// NIST TN 1900 E13, thermal expansion, 1/K: 95 % 1.3827e-5..2.0707e-5 with normal inputs (10^7 draws elsewhere).
#[test]
fn thermal_expansion() {
    let list = [normal(1.4999, 0.0001), normal(1.5021, 0.0002), normal(288.15, 0.02), normal(373.10, 0.05)];
    let got = run(&list, many(0.95, 300_000), |x| (x[1] - x[0]) / (x[0] * (x[3] - x[2])));
    close(got.value, 1.726_62e-5, 2e-8);
    close(got.std_uncertainty, 1.755_1e-6, 1e-8);
    ends(got.symmetric, 1.3827e-5, 2.0707e-5, 4e-8);
    // With t of 3 degrees of freedom scaled to the same deviations: 1.4004e-5..2.0522e-5; its own deviation settles on nothing.
    let heavy: Vec<_> = list.iter().map(|(v, u, ..)| student(*v, u / 3.0_f64.sqrt(), 3.0)).collect();
    let got = run(&heavy, many(0.95, 300_000), |x| (x[1] - x[0]) / (x[0] * (x[3] - x[2])));
    ends(got.symmetric, 1.4004e-5, 2.0522e-5, 5e-8);
}

/// JCGM 101:2008 7.9.2: 0.000 35 with two digits, delta 0.000 005 (35 x 10^-5); 0.04 with one digit, 0.005; rounding carries.
#[test]
fn numerical_tolerances() {
    close(numerical_tolerance(0.000_35, 2), 5e-6, 1e-20);
    close(numerical_tolerance(0.04, 1), 0.005, 1e-17);
    close(numerical_tolerance(0.0996, 2), 0.005, 1e-17);
    close(numerical_tolerance(2.0, 2), 0.05, 1e-16);
}

/// One thermometer in two trials: its draws are the same in both, so a difference loses them; another seed gives others.
#[test]
fn a_shared_source_draws_alike_everywhere() {
    let book = ErrorSources::new();
    let trial = |value: f64, own: &str| UncertainValue::new(value, own, 0.1).with("thermometer", 0.5);
    let (a, b) = (trial(20.0, "a"), trial(30.0, "b"));
    let sample =
        |t: &UncertainValue, seed| SharedDraws::block(std::slice::from_ref(t), &book, seed, 0, 20_000).sample(t);
    let difference: Vec<f64> = sample(&b, 1).iter().zip(sample(&a, 1)).map(|(b, a)| b - a).collect();
    close(calefact_stats::univariate::standard_deviation(&difference), 0.1 * 2.0_f64.sqrt(), 0.002);
    let crossed: Vec<f64> = sample(&b, 1).iter().zip(sample(&a, 2)).map(|(b, a)| b - a).collect();
    close(calefact_stats::univariate::standard_deviation(&crossed), 0.52_f64.sqrt(), 0.015);
    let together = SharedDraws::block(&[a.clone(), b], &book, 1, 0, 20_000);
    assert_eq!(together.sample(&a), sample(&a, 1));
}

#[test]
fn the_same_seed_gives_the_same_bits_and_undefined_draws_are_counted() {
    let list = [normal(0.0, 1.0)];
    let once = run(&list, McSettings::default(), |x| x[0].sqrt());
    let again = run(&list, McSettings::default(), |x| x[0].sqrt());
    assert_eq!(once, again);
    close(once.undefined as f64 / once.trials as f64, 0.5, 0.02);
    let never = run(&list, McSettings::default(), |_| f64::NAN);
    assert!(never.value.is_nan() && !never.converged && never.undefined == never.trials);
}

#[test]
fn intervals_of_sorted_draws() {
    let sorted = [0.0, 1.0, 1.1, 1.2, 1.3, 5.0, 9.0, 20.0];
    ends(shortest(&sorted, 0.5), 0.0, 1.3, 1e-15);
    ends(symmetric(&sorted, 0.5), 1.1, 9.0, 1e-15);
    assert!(shortest(&[], 0.95).lower.is_nan() && symmetric(&[], 0.95).upper.is_nan());
}
