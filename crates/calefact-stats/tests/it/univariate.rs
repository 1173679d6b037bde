//! NIST Statistical Reference Datasets, univariate summary statistics.

use crate::data::{agree, column, number, table};
use calefact_stats::univariate::{lag1, mean};

/// Certified values to 15 digits; the decimals of the data themselves hold fewer in Mavro.
#[test]
fn certified_mean_and_autocorrelation() {
    for set in table("nist-strd/univariate.csv") {
        let y = column(&table(&format!("nist-strd/{}.csv", set["set"])), "y");
        agree(&set["set"], mean(&y), number(&set, "mean"), 1e-14);
        agree(&set["set"], lag1(&y), number(&set, "lag1"), 1e-12);
    }
}
