//! NIST Statistical Reference Datasets, linear regression: digits kept by the QR solution; small published fits.

use crate::data::{Row, agree, column, near, number, only, table};
use calefact_stats::linear::{LinearFit, least_squares, polynomial};
use calefact_stats::{FitError, OrthogonalPolynomials};
use nalgebra::DMatrix;

fn design(set: &str, rows: &[Row]) -> DMatrix<f64> {
    let x = column(rows, "x1");
    match set {
        "NoInt1" | "NoInt2" => DMatrix::from_column_slice(rows.len(), 1, &x),
        "Longley" => {
            DMatrix::from_fn(rows.len(), 7, |i, j| if j == 0 { 1.0 } else { number(&rows[i], &format!("x{j}")) })
        }
        "Filip" => polynomial(&x, 10),
        "Norris" => polynomial(&x, 1),
        "Pontius" => polynomial(&x, 2),
        _ => polynomial(&x, 5),
    }
}

fn fitted(set: &str) -> LinearFit {
    let rows = table(&format!("nist-strd/{set}.csv"));
    least_squares(&design(set, &rows), &column(&rows, "y")).unwrap_or_else(|e| panic!("{set}: {e}"))
}

/// Relative tolerance of coefficients and of their standard deviations. The condition number of the column-scaled design
/// times the rounding of the data sets them: Filip's tenth powers of two-figure numbers leave seven digits in double
/// precision; Wampler 4 and 5 bury ones under errors of 1e5 and 1e7; Wampler 1 and 2 fit exactly, so their standard
/// deviations are rounding only.
fn tolerance(set: &str) -> (f64, f64) {
    match set {
        "Filip" => (2e-7, 2e-7),
        "Longley" | "Pontius" => (1e-10, 1e-10),
        "Wampler4" => (1e-7, 1e-11),
        "Wampler5" => (1e-5, 1e-11),
        "Wampler1" | "Wampler2" | "Wampler3" => (1e-9, 1e-11),
        _ => (1e-12, 1e-12),
    }
}

#[test]
fn certified_coefficients_and_deviations() {
    let (certified, residuals) = (table("nist-strd/coefficients.csv"), table("nist-strd/residuals.csv"));
    assert_eq!(residuals.len(), 11);
    for row in &residuals {
        let set = row["set"].as_str();
        let (fit, wanted) = (fitted(set), only(&certified, "set", set));
        let (coefficient, deviation) = tolerance(set);
        assert_eq!(wanted.len(), fit.coefficients.len(), "{set}");
        for (j, row) in wanted.iter().enumerate() {
            agree(set, fit.coefficients[j], number(row, "value"), coefficient);
            let u = number(row, "sd");
            near(fit.std_uncertainties[j], u, if u > 0.0 { u * deviation } else { 1e-6 });
        }
        let sd = number(row, "sd");
        near(fit.residual_sd, sd, if sd > 0.0 { 2e-8 * sd } else { 1e-6 });
        near(fit.dof, number(row, "dof"), 0.0);
    }
}

/// The quick residuals about a polynomial against the certified standard deviations, x moved to between -1 and 1.
#[test]
fn certified_deviation_about_a_course() {
    let residuals = table("nist-strd/residuals.csv");
    for (set, degree) in [("Filip", 10), ("Norris", 1), ("Pontius", 2), ("Wampler3", 5), ("Wampler5", 5)] {
        let rows = table(&format!("nist-strd/{set}.csv"));
        let (x, y) = (column(&rows, "x1"), column(&rows, "y"));
        let (low, high) = x.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (l.min(*x), h.max(*x)));
        let x: Vec<f64> = x.iter().map(|x| 2.0 * (x - low) / (high - low) - 1.0).collect();
        let got = OrthogonalPolynomials::new(&x, degree).and_then(|p| p.about(&y)).expect("residuals").residual_sd;
        agree(set, got, number(only(&residuals, "set", set)[0], "sd"), 1e-9);
    }
}

/// JCGM 100:2008 H.3, eleven readings of a thermometer: y1 -0.1712, y2 0.00218, s(y1) 0.0029, s(y2) 0.00067.
#[test]
fn the_thermometer_of_the_gum() {
    let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
    let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
    let x: Vec<f64> = t.iter().map(|t| t - 20.0).collect();
    let fit = least_squares(&polynomial(&x, 1), &b).expect("fits");
    near(fit.coefficients[0], -0.1712, 5e-5);
    near(fit.coefficients[1], 0.00218, 5e-6);
    near(fit.std_uncertainties[0], 0.0029, 5e-5);
    near(fit.std_uncertainties[1], 0.00067, 5e-6);
}

#[test]
fn errors_name_their_reason() {
    let line = polynomial(&[1.0, 2.0, 3.0], 1);
    let fit = |design: &DMatrix<f64>, y: &[f64]| least_squares(design, y).expect_err("no answer");
    let twin = DMatrix::from_row_slice(3, 2, &[1.0, 2.0, 2.0, 4.0, 3.0, 6.0]);
    assert_eq!(fit(&twin, &[1.0, 2.0, 3.0]), FitError::RankDeficient { rank: 1, parameters: 2 });
    let empty = DMatrix::from_row_slice(3, 2, &[1.0, 0.0, 2.0, 0.0, 3.0, 0.0]);
    assert_eq!(fit(&empty, &[1.0, 2.0, 3.0]), FitError::RankDeficient { rank: 1, parameters: 2 });
    assert_eq!(fit(&polynomial(&[1.0], 1), &[1.0]), FitError::TooFew { observations: 1, parameters: 2 });
    assert_eq!(fit(&DMatrix::zeros(1, 0), &[1.0]), FitError::TooFew { observations: 1, parameters: 0 });
    assert!(matches!(fit(&line, &[1.0, f64::NAN, 2.0]), FitError::NotUsable(_)));
    assert!(matches!(fit(&line, &[1.0, 2.0]), FitError::Length { got: 2, want: 3, .. }));
    let exact = least_squares(&polynomial(&[1.0, 2.0], 1), &[1.0, 3.0]).expect("a line through two points");
    near(exact.coefficients[1], 2.0, 1e-14);
    assert!(exact.residual_sd.is_nan() && exact.std_uncertainties[0].is_nan() && exact.dof == 0.0);
}

/// The quick residuals are those of the full fit, on an uneven grid too; without an answer there is none.
#[test]
fn orthogonal_polynomials_leave_the_same_residuals() {
    let about_polynomial = |x: &[f64], y: &[f64], degree| OrthogonalPolynomials::new(x, degree)?.about(y);
    let x: Vec<f64> = (0..41).map(|i| f64::from(i * i) / 800.0 - 1.0).collect();
    let y: Vec<f64> = x.iter().enumerate().map(|(i, x)| 300.0 + libm::sin(*x) + f64::from(i as u32 % 5)).collect();
    for degree in [0, 1, 3, 6] {
        let design = polynomial(&x, degree);
        let full = least_squares(&design, &y).expect("fits");
        let quick = about_polynomial(&x, &y, degree).expect("fits");
        agree("sd", quick.residual_sd, full.residual_sd, 1e-11);
        let fitted = design * nalgebra::DVector::from_vec(full.coefficients);
        for ((quick, y), fitted) in quick.residuals.iter().zip(&y).zip(fitted.iter()) {
            near(*quick, y - fitted, 1e-10);
        }
    }
    assert!(about_polynomial(&[1.0, 1.0, 1.0], &[1.0, 2.0, 3.0], 1).is_none());
    assert!(about_polynomial(&[1.0, 2.0], &[1.0, 2.0], 1).is_none());
    assert!(about_polynomial(&[1.0, 2.0, 3.0], &[1.0, f64::NAN, 3.0], 1).is_none());
    assert!(about_polynomial(&[1.0, 2.0, 3.0], &[1.0, 2.0], 1).is_none());
    assert!(about_polynomial(&[1.0, 2.0, f64::NAN], &[1.0, 2.0, 3.0], 1).is_none());
}
