//! NIST Statistical Reference Datasets, linear regression: digits kept by the QR solution.

mod reference_table;

use calefact_stats::linear::{LinearFit, OrthogonalPolynomials, least_squares, polynomial};
use nalgebra::DMatrix;
use reference_table::{Row, number, table};

fn design(name: &str, rows: &[Row]) -> DMatrix<f64> {
    let column = |c: &str| rows.iter().map(|r| number(r, c)).collect::<Vec<_>>();
    match name {
        "NoInt1" | "NoInt2" => DMatrix::from_column_slice(rows.len(), 1, &column("x")),
        "Longley" => {
            let names: Vec<&String> = rows[0].keys().filter(|k| *k != "y").collect();
            DMatrix::from_fn(rows.len(), 7, |i, j| if j == 0 { 1.0 } else { number(&rows[i], names[j - 1]) })
        }
        "Filip" => polynomial(&column("x"), 10),
        "Norris" => polynomial(&column("x"), 1),
        "Pontius" => polynomial(&column("x"), 2),
        _ => polynomial(&column("x"), 5),
    }
}

fn fitted(name: &str) -> Option<LinearFit> {
    let rows = table(&format!("nist_linear/{name}.csv"))?;
    let y: Vec<f64> = rows.iter().map(|r| number(r, "y")).collect();
    Some(least_squares(&design(name, &rows), &y).unwrap_or_else(|e| panic!("{name}: {e}")))
}

/// Relative tolerance of coefficients and of their standard deviations. The condition number of the column-scaled design
/// times the rounding of the data sets them: Filip's tenth powers of two-figure numbers leave seven digits in double
/// precision; Wampler 4 and 5 bury ones under errors of 1e5 and 1e7; Wampler 1 and 2 fit exactly, so their standard
/// deviations are rounding only.
fn tolerance(name: &str) -> (f64, f64) {
    match name {
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
    let certified = table("nist_linear/certified.csv").unwrap_or_default();
    for name in ["Filip", "Longley", "NoInt1", "NoInt2", "Norris", "Pontius", "Wampler1", "Wampler2", "Wampler3"]
        .into_iter()
        .chain(["Wampler4", "Wampler5"])
    {
        let Some(fit) = fitted(name) else { return };
        let (coefficient, deviation) = tolerance(name);
        let of_set: Vec<&Row> = certified.iter().filter(|r| r["dataset"] == name).collect();
        assert_eq!(of_set.len(), fit.coefficients.len(), "{name}");
        for (j, row) in of_set.iter().enumerate() {
            let (b, u) = (number(row, "exact_value"), number(row, "exact_sd"));
            let (off_b, off_u) = ((fit.coefficients[j] / b - 1.0).abs(), fit.std_uncertainties()[j] - u);
            assert!(off_b <= coefficient, "{name} {}: off by {off_b:e}", row["parameter"]);
            let floor = if u > 0.0 { u * deviation } else { 1e-6 };
            assert!(off_u.abs() <= floor, "{name} {}: sd off by {off_u:e}", row["parameter"]);
        }
    }
}

#[test]
fn certified_residual_deviation_and_determination() {
    for row in table("nist_linear/summary.csv").unwrap_or_default() {
        let name = &row["dataset"];
        let Some(fit) = fitted(name) else { return };
        let (s, r2) = (number(&row, "exact_resid_sd"), number(&row, "exact_R2"));
        assert!((fit.dof - number(&row, "dof")).abs() < 0.5, "{name}");
        let floor = if s > 0.0 { 2e-8 * s } else { 1e-6 };
        assert!((fit.residual_sd - s).abs() <= floor, "{name}: residual sd {} against {s}", fit.residual_sd);
        assert!((fit.r_squared - r2).abs() <= 1e-10, "{name}: R2 {} against {r2}", fit.r_squared);
    }
}

/// The quick residuals about a polynomial against the certified standard deviations, x moved to between -1 and 1.
#[test]
fn certified_deviation_about_a_course() {
    let summary = table("nist_linear/summary.csv").unwrap_or_default();
    for (name, degree) in [("Filip", 10), ("Norris", 1), ("Pontius", 2), ("Wampler3", 5), ("Wampler5", 5)] {
        let Some(rows) = table(&format!("nist_linear/{name}.csv")) else { return };
        let column = |c: &str| rows.iter().map(|r| number(r, c)).collect::<Vec<f64>>();
        let (x, y) = (column("x"), column("y"));
        let (low, high) = x.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (l.min(*x), h.max(*x)));
        let x: Vec<f64> = x.iter().map(|x| 2.0 * (x - low) / (high - low) - 1.0).collect();
        let got = OrthogonalPolynomials::new(&x, degree).and_then(|p| p.about(&y)).expect("residuals").residual_sd;
        let want = summary.iter().find(|r| r["dataset"] == name).map_or(f64::NAN, |r| number(r, "exact_resid_sd"));
        assert!((got / want - 1.0).abs() < 1e-9, "{name}: {got} against {want}");
    }
}

/// Confidence and prediction intervals of a straight line through the Norris data.
#[test]
fn intervals_of_a_line() {
    let Some(fit) = fitted("Norris") else { return };
    let rows = table("quantiles/regression_prediction.csv").unwrap_or_default();
    let norris: Vec<&Row> = rows.iter().filter(|r| r["dataset"] == "Norris").collect();
    assert_eq!(norris.len(), 4);
    for row in norris {
        let at = fit.predict(&[1.0, number(row, "x")], 0.95);
        for (got, column) in [
            (at.value, "mean"),
            (at.std_uncertainty, "se_mean"),
            (at.mean.lower, "mean_ci_lo"),
            (at.mean.upper, "mean_ci_hi"),
            (at.observation.lower, "obs_pi_lo"),
            (at.observation.upper, "obs_pi_hi"),
        ] {
            let want = number(row, column);
            assert!((got - want).abs() <= 1e-9 * want.abs().max(0.1), "{column}: {got} against {want}");
        }
    }
}
