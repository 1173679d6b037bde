//! Coverage of 95 % intervals from autoregressive residuals, by simulation with a known truth and a fixed seed.

use calefact_stats::dist::t_quantile;
use calefact_stats::linear::{least_squares, polynomial};
use calefact_stats::residuals::robust_covariance;
use calefact_stats::rng::stream;
use nalgebra::{DMatrix, DVector};
use rand_distr::{Distribution, StandardNormal};
use rand_pcg::Pcg64;

fn autoregression(n: usize, rho: f64, rng: &mut Pcg64) -> Vec<f64> {
    let normal = |rng: &mut Pcg64| -> f64 { StandardNormal.sample(rng) };
    let mut value: f64 = normal(rng);
    (0..n)
        .map(|_| {
            let now = value;
            value = rho * value + (1.0 - rho * rho).sqrt() * normal(rng);
            now
        })
        .collect()
}

/// Share of intervals that hold the true zero, parameter by parameter.
fn coverage(design: &DMatrix<f64>, rho: f64, white: f64, repeats: usize, key: &str) -> Vec<f64> {
    let mut rng = stream(20_240_917, key);
    let mut hits = vec![0_usize; design.ncols()];
    for _ in 0..repeats {
        let mut y = autoregression(design.nrows(), rho, &mut rng);
        for value in &mut y {
            let noise: f64 = StandardNormal.sample(&mut rng);
            *value += white * noise;
        }
        let fit = least_squares(design, &y).expect("fits");
        let fitted = design * DVector::from_column_slice(&fit.coefficients);
        let residuals: Vec<f64> = y.iter().zip(fitted.iter()).map(|(y, f)| y - f).collect();
        let robust = robust_covariance(design, &residuals).expect("covariance");
        for (j, hit) in hits.iter_mut().enumerate() {
            let half = t_quantile(0.975, robust.dof[j]) * robust.covariance[(j, j)].sqrt();
            *hit += usize::from(fit.coefficients[j].abs() <= half);
        }
    }
    hits.iter().map(|h| *h as f64 / repeats as f64).collect()
}

fn line(n: usize) -> DMatrix<f64> {
    polynomial(&(0..n).map(|i| i as f64 / n as f64).collect::<Vec<_>>(), 1)
}

/// Nominal 0.95 within 0.015 and twice the Monte Carlo error; the line to print.
#[track_caller]
fn check(n: usize, rho: f64, repeats: usize) -> String {
    check_with_noise(n, rho, 0.0, repeats)
}

/// The same with white noise of standard deviation `white` on top.
#[track_caller]
fn check_with_noise(n: usize, rho: f64, white: f64, repeats: usize) -> String {
    let got = coverage(&line(n), rho, white, repeats, &format!("line {n} {rho} {white}"));
    let monte_carlo = (0.95_f64 * 0.05 / repeats as f64).sqrt();
    for share in &got {
        assert!((share - 0.95).abs() <= 0.015 + 2.0 * monte_carlo, "n {n} rho {rho} white {white}: covers {share}");
    }
    format!("n {n} rho {rho} white {white}: intercept {:.4}, slope {:.4} (s.e. {monte_carlo:.4})", got[0], got[1])
}

#[test]
fn a_line_through_hundreds_of_readings() {
    for (n, rho) in [(100, 0.0), (100, 0.5), (600, 0.0), (600, 0.5), (600, 0.9), (600, 0.95)] {
        println!("{}", check(n, rho, 200));
    }
}

#[test]
fn a_line_through_thousands_of_readings() {
    println!("{}", check(3000, 0.95, 100));
    println!("{}", check(10_000, 0.95, 60));
}

/// A drift under a noisy display, which a lone autoregression would cover 60 % of the time.
#[test]
fn drift_under_white_noise() {
    println!("{}", check_with_noise(600, 0.95, 1.0, 200));
    println!("{}", check_with_noise(600, 0.9, 0.5, 200));
}

/// Taken as independent, the same readings would be called 95 % and cover a third (rho 0.9, 600 readings): the need.
#[test]
fn independence_would_cover_far_too_little() {
    let (design, mut rng) = (line(600), stream(20_240_917, "independent"));
    let hits = (0..300).filter(|_| {
        let fit = least_squares(&design, &autoregression(600, 0.9, &mut rng)).expect("fits");
        fit.coefficients[0].abs() <= t_quantile(0.975, fit.dof) * fit.std_uncertainties[0]
    });
    assert!(hits.count() < 150);
}
