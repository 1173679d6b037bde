//! Runs, effective sample sizes and robust covariances: closed forms and counting.

use crate::data::{agree, near};
use calefact_stats::FitError;
use calefact_stats::linear::polynomial;
use calefact_stats::residuals::{ErrorStructure, effective_sample_size, few_runs_p, robust_covariance, trend_p};
use nalgebra::DMatrix;

/// By counting all C(5, 2) = 10 arrangements of two signs among five: runs 2, 3, 4, 5 occur 2, 3, 4, 1 times. Zeros count for
/// neither sign.
#[test]
fn runs_of_five_by_counting() {
    for (signs, p) in [
        ([1.0, 1.0, 1.0, -1.0, -1.0], 0.2),
        ([1.0, 1.0, -1.0, -1.0, 1.0], 0.5),
        ([1.0, -1.0, -1.0, 1.0, -1.0], 0.9),
        ([1.0, -1.0, 1.0, -1.0, 1.0], 1.0),
    ] {
        near(few_runs_p(&signs).expect("both signs"), p, 1e-12);
    }
    near(few_runs_p(&[1.0, 1.0, 0.0, 1.0, -1.0, -1.0]).expect("both signs"), 0.2, 1e-12);
    assert!(few_runs_p(&[1.0, 2.0]).is_none() && few_runs_p(&[-1.0, 0.0]).is_none() && few_runs_p(&[]).is_none());
}

/// Of n1 + n2 signs the fewest runs, 2, have probability 2 / C(n1 + n2, n1): C(200, 3) = 1 313 400.
#[test]
fn two_runs_of_many() {
    let signs: Vec<f64> = (0..200).map(|i| if i < 3 { 1.0 } else { -1.0 }).collect();
    agree("p", few_runs_p(&signs).expect("both signs"), 2.0 / 1_313_400.0, 1e-11);
}

/// The exact tail and the normal one, which is taken above 200 values, agree where they meet; the normal one by hand: 101 of
/// each sign have mean 102 runs and variance 2 n1 n2 (2 n1 n2 - n) / (n^2 (n - 1)).
#[test]
fn exact_and_normal_runs_meet() {
    let series = |n: usize| (0..n).map(|i| if i / 3 % 2 == 0 { 1.0 } else { -1.0 }).collect::<Vec<f64>>();
    let (below, above) = (few_runs_p(&series(200)).expect("signs"), few_runs_p(&series(202)).expect("signs"));
    agree("ln p", libm::log(below), libm::log(above), 0.05);
    let alternating: Vec<f64> = (0..202).map(|i| if i % 2 == 0 || i > 190 { 1.0 } else { -1.0 }).collect();
    let (n1, n2) = (107.0_f64, 95.0_f64);
    let (n, twice) = (n1 + n2, 2.0 * n1 * n2);
    let sd = (twice * (twice - n) / (n * n * (n - 1.0))).sqrt();
    let z = (191.0 + 0.5 - 1.0 - twice / n) / sd;
    agree("p", few_runs_p(&alternating).expect("signs"), calefact_stats::dist::normal_cdf(z), 1e-12);
}

/// F(2, 8) of 8.649 has p = 0.01 (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.3, from memory). Residuals of twelve
/// readings made of the quadratic and the quartic orthogonal polynomial (R. A. Fisher and F. Yates, Statistical Tables, table
/// XXIII, from memory; sums of squares 12012 and 8008) so that F is just that.
#[test]
fn a_bend_in_residuals_by_the_table_of_f() {
    let quadratic = [55.0, 25.0, 1.0, -17.0, -29.0, -35.0, -35.0, -29.0, -17.0, 1.0, 25.0, 55.0];
    let quartic = [33.0, -27.0, -33.0, -13.0, 12.0, 28.0, 28.0, 12.0, -13.0, -33.0, -27.0, 33.0];
    let share = (2.0 * 8.649 / 8.0_f64 / 12012.0).sqrt();
    let residuals: Vec<f64> = quadratic.iter().zip(quartic).map(|(a, b)| share * a + b / 8008.0_f64.sqrt()).collect();
    near(trend_p(&residuals, 2).expect("degrees of freedom"), 0.01, 2e-6);
    assert!(trend_p(&quartic, 2).expect("degrees of freedom") > 0.99);
    assert!(trend_p(&residuals[..5], 3).is_none() && trend_p(&[], 2).is_none());
}

/// The sum 1 + 2 sum (1 - k/n) rho^k itself.
#[test]
fn effective_sample_sizes() {
    for n in [2, 3, 5, 10, 50, 600] {
        for rho in [-0.4, 0.0, 0.3, 0.8, 0.95] {
            let term = |k: usize| (1.0 - k as f64 / n as f64) * libm::pow(rho, k as f64);
            let factor = 1.0 + 2.0 * (1..n).map(term).sum::<f64>();
            agree(&format!("{n} {rho}"), effective_sample_size(n, rho), n as f64 / factor, 1e-11);
        }
    }
    near(effective_sample_size(7, 1.0), 1.0, 0.0);
}

/// Few readings: the classical covariance, s^2 / n of a mean.
#[test]
fn few_readings_are_classical() {
    let ones = DMatrix::from_element(5, 1, 1.0);
    let got = robust_covariance(&ones, &[1.0, -1.0, 2.0, -2.0, 0.0]).expect("fits");
    near(got.covariance[(0, 0)], 10.0 / 4.0 / 5.0, 1e-14);
    near(got.dof[0], 4.0, 0.0);
}

/// From 30 degrees of freedom on the errors may be correlated.
#[test]
fn thirty_degrees_of_freedom_can_show_a_correlation() {
    let errors = |n: usize| {
        let residuals: Vec<f64> = (0..n).map(|i| libm::sin(1.7 * i as f64)).collect();
        robust_covariance(&DMatrix::from_element(n, 1, 1.0), &residuals).expect("fits").errors
    };
    assert_eq!((errors(30), errors(31)), (ErrorStructure::Independent, ErrorStructure::Autoregressive));
}

/// Readings from 400 on are averaged in blocks down to 200 rows, the last block taking the remainder: the same as a fit of
/// the averages themselves.
#[test]
fn long_series_are_averaged_in_blocks() {
    for n in [400_usize, 601] {
        let noise = |i: usize| libm::sin(1.7 * i as f64) + libm::cos(0.01 * (i * i) as f64);
        let residuals: Vec<f64> = (0..n).map(noise).collect();
        let line = DMatrix::from_fn(n, 2, |i, j| if j == 0 { 1.0 } else { i as f64 });
        let (size, blocks) = (n / 200, n / (n / 200));
        let rows = |k: usize| k * size..if k + 1 == blocks { n } else { (k + 1) * size };
        let mean = |k: usize, value: &dyn Fn(usize) -> f64| rows(k).map(value).sum::<f64>() / rows(k).len() as f64;
        let averaged: Vec<f64> = (0..blocks).map(|k| mean(k, &noise)).collect();
        let short = DMatrix::from_fn(blocks, 2, |k, j| if j == 0 { 1.0 } else { mean(k, &|i| i as f64) });
        let (long, short) = (robust_covariance(&line, &residuals), robust_covariance(&short, &averaged));
        let (long, short) = (long.expect("fits"), short.expect("fits"));
        for j in 0..2 {
            agree("variance", long.covariance[(j, j)], short.covariance[(j, j)], 1e-8);
            agree("dof", long.dof[j], short.dof[j], 1e-6);
        }
    }
}

#[test]
fn errors_name_their_reason() {
    let line = polynomial(&(0..40).map(f64::from).collect::<Vec<_>>(), 1);
    let run =
        |jacobian: &DMatrix<f64>, residuals: &[f64]| robust_covariance(jacobian, residuals).expect_err("no answer");
    assert!(matches!(run(&line, &[0.0; 40]), FitError::NotUsable(_)));
    assert!(matches!(run(&line, &[f64::NAN; 40]), FitError::NotUsable(_)));
    assert!(matches!(run(&line, &[1.0; 39]), FitError::Length { got: 39, want: 40, .. }));
    assert_eq!(run(&polynomial(&[1.0], 1), &[1.0]), FitError::TooFew { observations: 1, parameters: 2 });
    let twin = DMatrix::from_fn(40, 2, |i, j| (i * (j + 1)) as f64);
    assert_eq!(run(&twin, &[1.0; 40]), FitError::RankDeficient { rank: 1, parameters: 2 });
}
