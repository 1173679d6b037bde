//! Mean, standard deviation and lag-1 autocorrelation of one list of numbers, in the accurate forms.
//!
//! Intervals and comparisons do not live here.

/// Arithmetic mean in two passes: the mean of the deviations from a first mean is added to it. NaN for an empty list.
pub fn mean(y: &[f64]) -> f64 {
    let n = y.len() as f64;
    let first = y.iter().sum::<f64>() / n;
    first + y.iter().map(|v| v - first).sum::<f64>() / n
}

/// Sample standard deviation, sqrt(sum (y - m)^2 / (n - 1)), by the corrected two-pass algorithm (Chan, Golub and LeVeque
/// 1983). NaN for fewer than two values.
pub(crate) fn standard_deviation(y: &[f64]) -> f64 {
    mean_and_deviation(y).1
}

/// Mean and sample standard deviation.
pub(crate) fn mean_and_deviation(y: &[f64]) -> (f64, f64) {
    let (n, m) = (y.len() as f64, mean(y));
    if y.len() < 2 {
        return (m, f64::NAN);
    }
    let (sum, squares) = y.iter().fold((0.0, 0.0), |(s, q), v| (s + (v - m), q + (v - m) * (v - m)));
    (m, ((squares - sum * sum / n) / (n - 1.0)).sqrt())
}

/// Lag-1 autocorrelation r1 = sum (y_i - m)(y_{i+1} - m) / sum (y_i - m)^2, with the whole sum below the line, as the
/// NIST Statistical Reference Datasets define it. NaN for a constant or empty list.
pub fn lag1(y: &[f64]) -> f64 {
    let m = mean(y);
    let products: f64 = y.windows(2).map(|w| (w[0] - m) * (w[1] - m)).sum();
    products / y.iter().map(|v| (v - m) * (v - m)).sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST StRD NumAcc1: mean 10000002, standard deviation 1, r1 -0.5, exactly.
    #[test]
    fn numacc1_is_exact() {
        let y = [10_000_001.0, 10_000_003.0, 10_000_002.0];
        assert_eq!((mean(&y), standard_deviation(&y), lag1(&y)), (10_000_002.0, 1.0, -0.5));
    }

    /// NIST StRD NumAcc4, 10000000.2 and then .1 and .3 alternating 500 times: mean 10000000.2, sd 0.1, r1 -0.999. The
    /// decimals themselves hold only 8 digits of the deviation in double precision.
    #[test]
    fn numacc4_keeps_eight_digits() {
        let mut y = vec![10_000_000.2];
        (0..500).for_each(|_| y.extend([10_000_000.1, 10_000_000.3]));
        assert!((mean(&y) - 10_000_000.2).abs() < 2e-9);
        assert!((standard_deviation(&y) - 0.1).abs() < 1e-9);
        assert!((lag1(&y) + 0.999).abs() < 1e-8);
    }

    #[test]
    fn one_value_has_no_deviation() {
        assert!(standard_deviation(&[1.0]).is_nan() && mean(&[]).is_nan());
    }
}
