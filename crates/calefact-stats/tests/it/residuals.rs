//! Published and hand-checkable values.

use calefact_stats::linear::polynomial;
use calefact_stats::residuals::{
    FirstObservation, ar1_least_squares, automatic_lag, effective_sample_size, lack_of_fit, newey_west,
    robust_covariance, runs_test,
};
use nalgebra::DMatrix;

#[track_caller]
fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "got {got}, want {want}");
}

/// By counting all C(5, 2) = 10 arrangements of two signs among five: runs 2, 3, 4, 5 occur 2, 3, 4, 1 times.
#[test]
fn runs_of_five_by_counting() {
    let test = runs_test(&[1.0, 1.0, 1.0, -1.0, -1.0]).expect("both signs");
    assert_eq!((test.runs, test.positive, test.negative, test.exact), (2, 3, 2, true));
    close(test.p_few, 0.2, 1e-12);
    close(test.expected, 3.4, 1e-12);
    let most = runs_test(&[1.0, -1.0, 1.0, -1.0, 1.0]).expect("both signs");
    close(most.p_few, 1.0, 1e-12);
    close(most.p_value, 0.2, 1e-12);
    assert!(runs_test(&[1.0, 2.0]).is_none());
}

/// The exact tail and the normal one agree where they meet.
#[test]
fn exact_and_normal_runs_meet() {
    let series = |n: usize| (0..n).map(|i| if i / 3 % 2 == 0 { 1.0 } else { -1.0 }).collect::<Vec<_>>();
    let (below, above) = (runs_test(&series(200)).expect("signs"), runs_test(&series(202)).expect("signs"));
    assert!(below.exact && !above.exact);
    close(below.p_few.ln() / above.p_few.ln(), 1.0, 0.05);
}

/// Exact sums 1 + 2 sum (1 - k/n) rho^k.
#[test]
fn effective_sample_sizes() {
    for (n, rho, want) in [
        (10, 0.5, 3.845_576),
        (10, 0.9, 1.374_341),
        (100, 0.5, 33.783_784),
        (100, 0.9, 5.813_937),
        (600, 0.9, 32.085_561),
        (600, 0.95, 15.901_061),
    ] {
        close(effective_sample_size(n, rho), want, 1e-6);
    }
    close(effective_sample_size(50, 0.0), 50.0, 1e-12);
    // Two readings: Var(mean) = sigma^2 (1 + rho)/2.
    close(effective_sample_size(2, -0.4), 2.0 / 0.6, 1e-12);
    close(effective_sample_size(7, 1.0), 1.0, 1e-9);
}

/// y = 1, 3, 2, 5, 4, 7 at x = 0..5 with rho 0.5, exact: b 0.9375 and 1.125, se 1.653299258 and 0.4929186038, s^2 2.4296875.
#[test]
fn prais_winsten_by_hand() {
    let x = polynomial(&[0.0, 1.0, 2.0, 3.0, 4.0, 5.0], 1);
    let fit = ar1_least_squares(&x, &[1.0, 3.0, 2.0, 5.0, 4.0, 7.0], 0.5, FirstObservation::Kept).expect("fits");
    close(fit.coefficients[0], 0.9375, 1e-13);
    close(fit.coefficients[1], 1.125, 1e-13);
    // s^2 of the transformed observations; the value quoted is per unit marginal variance, 1/(1 - rho^2) times as much.
    let u = fit.std_uncertainties();
    close(u[0], 1.653_299_258, 1e-9);
    close(u[1], 0.492_918_603_8, 1e-10);
    close(fit.residual_sd.powi(2), 2.429_687_5, 1e-12);
}

/// Newey and West (1994): floor(4 (n/100)^(2/9)) is 4 at 100, 6 at 1000 and 11 at 10^4.
#[test]
fn automatic_lags() {
    assert_eq!([100, 1000, 10_000].map(automatic_lag), [4, 6, 11]);
}

/// With no lag and one column of ones, Newey-West is sum e^2 / n^2.
#[test]
fn newey_west_of_a_mean_by_hand() {
    let ones = DMatrix::from_element(4, 1, 1.0);
    let e = [1.0, -1.0, 2.0, -2.0];
    close(newey_west(&ones, &e, 0, false).expect("fits")[(0, 0)], 10.0 / 16.0, 1e-14);
    // Lag 1, weight 1/2: 10 + 2 * 0.5 * (-1 - 2 - 4) = 3.
    close(newey_west(&ones, &e, 1, false).expect("fits")[(0, 0)], 3.0 / 16.0, 1e-14);
    close(newey_west(&ones, &e, 1, true).expect("fits")[(0, 0)], 3.0 / 16.0 * 4.0 / 3.0, 1e-14);
}

/// By hand: three conditions twice, a line through them; residuals 1, -1 | -2, -2 | 1, 3 (sum to zero, orthogonal to -1, 0, 1
/// only in part, which the test does not ask). SS pure 2 + 0 + 2 = 4 on 3, SS lack 2 (0 + 4 + 4) = 16 on 1: F = 12.
#[test]
fn lack_of_fit_by_hand() {
    let test = lack_of_fit(&[0, 1, 2, 0, 1, 2], &[1.0, -2.0, 1.0, -1.0, -2.0, 3.0], 2).expect("replicates");
    close(test.f, 12.0, 1e-12);
    assert_eq!((test.dof_lack.to_bits(), test.dof_pure.to_bits()), (1.0_f64.to_bits(), 3.0_f64.to_bits()));
    // F(1, 3) = t(3)^2: P(|t| > sqrt 12) with t(3) in closed form.
    let t = 12.0_f64.sqrt();
    let tail =
        1.0 - 2.0 / std::f64::consts::PI * ((t / 3.0_f64.sqrt()).atan() + (t / 3.0_f64.sqrt()) / (1.0 + t * t / 3.0));
    close(test.p_value, tail, 1e-12);
    assert!(lack_of_fit(&[0, 1, 2], &[1.0, -2.0, 1.0], 1).is_none());
}

/// Few readings: the classical covariance, s^2 / n of a mean.
#[test]
fn few_readings_are_classical() {
    let ones = DMatrix::from_element(5, 1, 1.0);
    let got = robust_covariance(&ones, &[1.0, -1.0, 2.0, -2.0, 0.0]).expect("fits");
    close(got.covariance[(0, 0)], 10.0 / 4.0 / 5.0, 1e-14);
    close(got.dof_effective, 4.0, 0.0);
    close(got.rho, 0.0, 0.0);
}
