//! Quantiles of t, chi-squared and F against tables computed elsewhere (scipy 1.17 and mpmath).

mod reference_table;

use calefact_stats::dist::{chi2_cdf, chi2_quantile, f_cdf, f_quantile, t_cdf, t_quantile};
use reference_table::{Row, number, table};

/// The columns `prefix_p` of a row as pairs (p, quantile).
fn quantiles<'a>(row: &'a Row, prefix: &'a str) -> impl Iterator<Item = (f64, f64)> + 'a {
    row.iter().filter_map(move |(column, text)| {
        let p = column.strip_prefix(prefix)?.parse().ok()?;
        Some((p, text.parse().unwrap_or_else(|e| panic!("{column}: {e}"))))
    })
}

/// Worst relative difference over a table; asserts that it holds at least `least` values.
fn worst(rel_path: &str, prefix: &str, least: usize, value: impl Fn(&Row, f64) -> f64) -> Option<f64> {
    let rows = table(rel_path)?;
    let diffs: Vec<f64> = rows
        .iter()
        .flat_map(|row| quantiles(row, prefix).map(|(p, want)| (value(row, p) / want - 1.0).abs()).collect::<Vec<_>>())
        .collect();
    assert!(diffs.len() >= least, "{rel_path}: only {} values", diffs.len());
    let worst = diffs.iter().copied().fold(0.0, f64::max);
    Some(worst)
}

fn check(rel_path: &str, prefix: &str, least: usize, tolerance: f64, value: impl Fn(&Row, f64) -> f64) {
    if let Some(w) = worst(rel_path, prefix, least, value) {
        assert!(w <= tolerance, "{rel_path}: off by {w:e}");
    }
}

#[test]
fn student() {
    let t = |row: &Row, p| t_quantile(p, number(row, "df"));
    check("quantiles/t_quantiles.csv", "t_", 360, 1e-12, t);
    check("quantiles/t_quantiles_noninteger_df.csv", "t_", 22, 1e-12, t);
}

#[test]
fn chi_squared() {
    check("quantiles/chi2_quantiles.csv", "chi2_", 400, 2e-12, |row, p| chi2_quantile(p, number(row, "df")));
}

#[test]
fn fisher() {
    check("quantiles/F_quantiles.csv", "F_", 400, 1e-11, |row, p| {
        f_quantile(p, number(row, "df1"), number(row, "df2"))
    });
}

/// The distribution functions give back the probability the tabled quantile stands for.
#[test]
fn distribution_functions_return_the_tabled_probability() {
    let back = |rel: &str, prefix: &str, cdf: &dyn Fn(&Row, f64) -> f64| {
        for row in table(rel).unwrap_or_default() {
            for (p, x) in quantiles(&row, prefix) {
                assert!((cdf(&row, x) - p).abs() < 1e-12, "{rel} at p {p}: {}", cdf(&row, x));
            }
        }
    };
    back("quantiles/t_quantiles.csv", "t_", &|r, x| t_cdf(x, number(r, "df")));
    back("quantiles/chi2_quantiles.csv", "chi2_", &|r, x| chi2_cdf(x, number(r, "df")));
    back("quantiles/F_quantiles.csv", "F_", &|r, x| f_cdf(x, number(r, "df1"), number(r, "df2")));
}
