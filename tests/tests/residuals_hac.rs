//! Newey-West, generalised least squares and effective sample sizes against published and recomputed values.

mod reference_table;

use calefact_stats::linear::least_squares;
use calefact_stats::residuals::{FirstObservation, ar1_least_squares, effective_sample_size, newey_west};
use nalgebra::DMatrix;
use reference_table::{number, table};

/// Growth of investment on a constant, growth of product and the lagged real interest rate (US, 202 quarters).
fn macro_growth() -> Option<(DMatrix<f64>, Vec<f64>)> {
    let rows = table("hac/macro_growth.csv")?;
    let y = rows.iter().map(|r| number(r, "g_realinv")).collect();
    let names = ["", "g_realgdp", "lag_realint"];
    let x = DMatrix::from_fn(rows.len(), 3, |i, j| if j == 0 { 1.0 } else { number(&rows[i], names[j]) });
    Some((x, y))
}

#[track_caller]
fn close(got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs(), "got {got}, want {want}");
}

/// Stata's newey and R's sandwich at lag 4: corrected 1.1859338087713, .33125644884286, .29582347593197; uncorrected
/// diagonal 1.3855512908840137, 0.108101169035130618, 0.086211852740503622.
#[test]
fn newey_west_agrees_with_stata_and_r() {
    let Some((x, y)) = macro_growth() else { return };
    let fit = least_squares(&x, &y).expect("fits");
    let corrected = newey_west(&x, &fit.residuals, 4, true).expect("covariance");
    let plain = newey_west(&x, &fit.residuals, 4, false).expect("covariance");
    for (j, (se, variance)) in [
        (1.185_933_808_771_3, 1.385_551_290_884_013_7),
        (0.331_256_448_842_86, 0.108_101_169_035_130_6),
        (0.295_823_475_931_97, 0.086_211_852_740_503_62),
    ]
    .into_iter()
    .enumerate()
    {
        close(corrected[(j, j)].sqrt(), se, 1e-11);
        close(plain[(j, j)], variance, 1e-11);
    }
}

/// gretl's ar1 at rho -0.108136, first observation dropped: -9.50990 (0.990456), 4.37040 (0.208146), -0.579253 (0.268009),
/// s 10.66735.
#[test]
fn cochrane_orcutt_agrees_with_gretl() {
    let Some((x, y)) = macro_growth() else { return };
    let fit = ar1_least_squares(&x, &y, -0.108_136, FirstObservation::Dropped).expect("fits");
    let u = fit.std_uncertainties();
    for (j, (b, se)) in [(-9.509_90, 0.990_456), (4.370_40, 0.208_146), (-0.579_253, 0.268_009)].into_iter().enumerate()
    {
        close(fit.coefficients[j], b, 1e-5);
        close(u[j], se, 2e-6);
    }
    close(fit.residual_sd, 10.667_35, 5e-7);
}

/// Recomputed elsewhere (exact sums, and Newey-West of a mean): every row of those kinds.
#[test]
fn effective_sizes_and_standard_errors_of_means() {
    let mut seen = 0;
    for row in table("hac/results.csv").unwrap_or_default() {
        let (case, quantity) = (row["case"].as_str(), row["quantity"].as_str());
        if case == "AR1_mean_variance" && quantity.ends_with("n_eff") {
            let words: Vec<&str> = quantity.split([' ', '=']).collect();
            let (n, rho) = (words[1].parse().expect("n"), words[3].parse().expect("rho"));
            close(effective_sample_size(n, rho), number(&row, "value"), 1e-12);
            seen += 1;
        }
        let lag = quantity.strip_prefix("NW se lag").and_then(|q| q.split(' ').next());
        if let (Some(name), Some(lag)) = (case.strip_prefix("NWmean_"), lag) {
            let rows = table(&format!("nist_univariate/{name}.csv")).unwrap_or_default();
            let y: Vec<f64> = rows.iter().map(|r| number(r, "y")).collect();
            let ones = DMatrix::from_element(y.len(), 1, 1.0);
            let fit = least_squares(&ones, &y).expect("fits");
            let got = newey_west(&ones, &fit.residuals, lag.parse().expect("lag"), false).expect("covariance");
            close(got[(0, 0)].sqrt(), number(&row, "value"), 1e-9);
            seen += 1;
        }
    }
    assert!(seen == 0 || seen > 40, "only {seen} rows");
}
