//! NIST Statistical Reference Datasets, univariate summary statistics.

mod reference_table;

use calefact_stats::univariate::{lag1, mean, standard_deviation};
use reference_table::{number, table};

#[test]
fn certified_mean_deviation_and_autocorrelation() {
    let Some(sets) = table("nist_univariate/certified.csv") else { return };
    assert_eq!(sets.len(), 9);
    for set in &sets {
        let name = &set["dataset"];
        let rows = table(&format!("nist_univariate/{name}.csv")).unwrap_or_default();
        let y: Vec<f64> = rows.iter().map(|r| number(r, "y")).collect();
        assert_eq!(y.len().to_string(), set["n"], "{name}");
        // 15 printed digits; NumAcc3 and 4 hold fewer in the decimals of their own data (deviations 0.1 beside 1e6, 1e7).
        let tolerance = match name.as_str() {
            "NumAcc3" => 1e-9,
            "NumAcc4" => 1e-8,
            "Mavro" => 1e-12,
            _ => 1e-13,
        };
        let near = |got: f64, column: &str, tolerance: f64| {
            let want = number(set, column);
            assert!((got - want).abs() <= tolerance * want.abs(), "{name} {column}: {got} against {want}");
        };
        near(mean(&y), "certified_mean", 1e-14);
        near(standard_deviation(&y), "certified_sd", tolerance);
        near(lag1(&y), "certified_lag1_autocorr", tolerance);
    }
}
