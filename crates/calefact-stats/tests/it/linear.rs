//! Small published fits typed in; the whole NIST sets are checked beside the other reference data.

use calefact_stats::fit_error::FitError;
use calefact_stats::linear::{OrthogonalPolynomials, least_squares, polynomial, weighted_least_squares};
use nalgebra::DMatrix;

#[track_caller]
fn close(got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs(), "got {got:e}, want {want:e}");
}

/// NIST StRD NoInt2 (y = b x): 0.727272727272727, sd 0.0420827318078432, s 0.369274472937998, R^2 0.993348115299335.
#[test]
fn noint2_has_an_uncentred_r_squared() {
    let x = DMatrix::from_column_slice(3, 1, &[4.0, 5.0, 6.0]);
    let fit = least_squares(&x, &[3.0, 4.0, 4.0]).expect("fits");
    close(fit.coefficients[0], 0.727_272_727_272_727, 1e-14);
    close(fit.std_uncertainties()[0], 0.042_082_731_807_843_2, 1e-14);
    close(fit.residual_sd, 0.369_274_472_937_998, 1e-14);
    close(fit.r_squared, 0.993_348_115_299_335, 1e-14);
}

/// JCGM 100:2008 H.3, eleven readings of a thermometer: y1 -0.1712, y2 0.00218, s(y1) 0.0029, s(y2) 0.00067,
/// b(30 degC) -0.1494 with u 0.0041.
#[test]
fn the_thermometer_of_the_gum() {
    let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
    let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
    let x: Vec<f64> = t.iter().map(|t| t - 20.0).collect();
    let fit = least_squares(&polynomial(&x, 1), &b).expect("fits");
    assert!((fit.coefficients[0] + 0.1712).abs() < 5e-5 && (fit.coefficients[1] - 0.00218).abs() < 5e-6);
    let u = fit.std_uncertainties();
    assert!((u[0] - 0.0029).abs() < 5e-5 && (u[1] - 0.00067).abs() < 5e-6);
    let at30 = fit.predict(&[1.0, 10.0], 0.95);
    assert!((at30.value + 0.1494).abs() < 5e-5 && (at30.std_uncertainty - 0.0041).abs() < 5e-5);
    assert!((fit.covariance[(0, 1)] / (u[0] * u[1]) + 0.930).abs() < 5e-4);
}

/// A weight of two is the same observation twice, but for the degrees of freedom.
#[test]
fn a_weight_counts_as_repeats() {
    let once = weighted_least_squares(&polynomial(&[0.0, 1.0, 2.0], 1), &[0.0, 1.2, 1.9], &[1.0, 2.0, 1.0]);
    let twice = least_squares(&polynomial(&[0.0, 1.0, 1.0, 2.0], 1), &[0.0, 1.2, 1.2, 1.9]);
    let (once, twice) = (once.expect("fits"), twice.expect("fits"));
    close(once.coefficients[1], twice.coefficients[1], 1e-14);
    close(once.rss, twice.rss, 1e-13);
    close(once.covariance[(1, 1)] * once.dof, twice.covariance[(1, 1)] * twice.dof, 1e-13);
}

#[test]
fn what_cannot_be_fitted_says_why() {
    let twin = DMatrix::from_row_slice(3, 2, &[1.0, 2.0, 2.0, 4.0, 3.0, 6.0]);
    assert!(matches!(least_squares(&twin, &[1.0, 2.0, 3.0]), Err(FitError::RankDeficient { rank: 1, parameters: 2 })));
    let line = polynomial(&[1.0], 1);
    assert!(matches!(least_squares(&line, &[1.0]), Err(FitError::TooFew { observations: 1, parameters: 2 })));
    let line = polynomial(&[1.0, 2.0, 3.0], 1);
    assert!(matches!(least_squares(&line, &[1.0, f64::NAN, 2.0]), Err(FitError::NotUsable(_))));
    assert!(matches!(weighted_least_squares(&line, &[1.0; 3], &[1.0, 0.0, 1.0]), Err(FitError::NotUsable("weights"))));
}

/// The quick residuals are those of the full fit, on an uneven grid too; what has no answer has none.
#[test]
fn orthogonal_polynomials_leave_the_same_residuals() {
    let about_polynomial = |x: &[f64], y: &[f64], degree| OrthogonalPolynomials::new(x, degree)?.about(y);
    let x: Vec<f64> = (0..40).map(|i| f64::from(i * i) / 800.0 - 1.0).collect();
    let y: Vec<f64> = x.iter().enumerate().map(|(i, x)| 300.0 + x.sin() + f64::from(i as u32 % 5)).collect();
    for degree in [0, 1, 3, 6] {
        let full = least_squares(&polynomial(&x, degree), &y).expect("fits");
        let quick = about_polynomial(&x, &y, degree).expect("fits");
        close(quick.residual_sd, full.residual_sd, 1e-11);
        assert!(quick.residuals.iter().zip(&full.residuals).all(|(a, b)| (a - b).abs() < 1e-10));
    }
    assert!(about_polynomial(&[1.0, 1.0, 1.0], &[1.0, 2.0, 3.0], 1).is_none());
    assert!(about_polynomial(&[1.0, 2.0], &[1.0, 2.0], 1).is_none());
    assert!(about_polynomial(&[1.0, 2.0, 3.0], &[1.0, f64::NAN, 3.0], 1).is_none());
}
