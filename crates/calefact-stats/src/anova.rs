//! One-way comparisons of several groups: means (Fisher, Welch, Brown-Forsythe) and variances (Bartlett, Levene).

use crate::ftest::FTest;
use crate::group::Summary;
use serde::Serialize;
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// Fisher's one-way analysis of variance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct OneWay {
    /// sum n_i (mean_i - mean)^2.
    pub between_squares: f64,
    /// sum over all (x - mean_i)^2.
    pub within_squares: f64,
    /// F with k - 1 and N - k degrees of freedom.
    pub test: FTest,
}

impl OneWay {
    /// Residual standard deviation.
    pub fn residual_sd(&self) -> f64 {
        (self.within_squares / self.test.denominator_dof).sqrt()
    }

    /// Share of the total sum of squares between groups.
    pub fn r_squared(&self) -> f64 {
        self.between_squares / (self.between_squares + self.within_squares)
    }
}

/// One-way analysis of variance; `None` with fewer than two groups or no degrees of freedom within.
///
/// Values are first reduced by a value of their own, so that a large common offset costs no digits.
pub fn one_way(groups: &[&[f64]]) -> Option<OneWay> {
    let origin = *groups.first()?.first()?;
    let shifted: Vec<Vec<f64>> = groups.iter().map(|g| g.iter().map(|x| x - origin).collect()).collect();
    let summaries: Vec<Summary> = shifted.iter().filter_map(|g| Summary::of(g)).collect();
    let n: usize = summaries.iter().map(|s| s.n).sum();
    let mean = summaries.iter().map(|s| s.n as f64 * s.mean).sum::<f64>() / n as f64;
    let between: f64 = summaries.iter().map(|s| s.n as f64 * (s.mean - mean).powi(2)).sum();
    let within: f64 = summaries.iter().filter_map(|s| s.scatter).map(|s| s.dof * s.sd * s.sd).sum();
    let (df1, df2) = (summaries.len() as f64 - 1.0, n as f64 - summaries.len() as f64);
    let sound = df1 > 0.0 && df2 > 0.0 && summaries.len() == groups.len();
    let test = FTest::new(between / df1 / (within / df2), df1, df2);
    sound.then_some(OneWay { between_squares: between, within_squares: within, test })
}

/// Welch's test of equal means with unequal variances (Welch 1951, Biometrika 38:330); `None` when a group has no scatter.
///
/// w_i = n_i / s_i^2, W = sum w, L = sum (1 - w_i / W)^2 / (n_i - 1):
/// F = [sum w_i (mean_i - mean_w)^2 / (k - 1)] / [1 + 2 (k - 2) L / (k^2 - 1)], denominator dof (k^2 - 1) / (3 L).
pub fn welch_anova(groups: &[Summary]) -> Option<FTest> {
    let k = groups.len() as f64;
    let weights: Vec<f64> = groups.iter().map(|g| g.std_error().map(|u| 1.0 / (u * u))).collect::<Option<_>>()?;
    let total: f64 = weights.iter().sum();
    let mean = groups.iter().zip(&weights).map(|(g, w)| w * g.mean).sum::<f64>() / total;
    let spread = groups.iter().zip(&weights).map(|(g, w)| w * (g.mean - mean).powi(2)).sum::<f64>() / (k - 1.0);
    let lambda: f64 = groups.iter().zip(&weights).map(|(g, w)| (1.0 - w / total).powi(2) / (g.n as f64 - 1.0)).sum();
    let f = spread / (1.0 + 2.0 * (k - 2.0) * lambda / (k * k - 1.0));
    (k > 1.0).then(|| FTest::new(f, k - 1.0, (k * k - 1.0) / (3.0 * lambda)))
}

/// Brown & Forsythe's F* of equal means with unequal variances (1974, Technometrics 16:129); `None` when a group has no
/// scatter. F* = sum n_i (mean_i - mean)^2 / sum (1 - n_i / N) s_i^2.
pub fn brown_forsythe_means(groups: &[Summary]) -> Option<FTest> {
    let n: f64 = groups.iter().map(|g| g.n as f64).sum();
    let mean = groups.iter().map(|g| g.n as f64 * g.mean).sum::<f64>() / n;
    let between: f64 = groups.iter().map(|g| g.n as f64 * (g.mean - mean).powi(2)).sum();
    let part = |g: &Summary| g.scatter.map(|s| ((1.0 - g.n as f64 / n) * s.sd * s.sd, s.dof));
    let parts: Vec<(f64, f64)> = groups.iter().map(part).collect::<Option<_>>()?;
    let total: f64 = parts.iter().map(|p| p.0).sum();
    let fourth: f64 = parts.iter().map(|(a, dof)| (a / total).powi(2) / dof).sum();
    (groups.len() > 1).then(|| FTest::new(between / total, groups.len() as f64 - 1.0, 1.0 / fourth))
}

/// Bartlett's test of equal variances: statistic and p from chi2 with k - 1 degrees of freedom (Snedecor & Cochran 1989).
/// Sensitive to departures from the normal distribution. `None` when a group has no scatter.
pub fn bartlett(groups: &[Summary]) -> Option<(f64, f64)> {
    let scatter: Vec<(f64, f64)> =
        groups.iter().map(|g| g.scatter.map(|s| (s.sd * s.sd, s.dof))).collect::<Option<_>>()?;
    let dof: f64 = scatter.iter().map(|s| s.1).sum();
    let pooled = scatter.iter().map(|(v, d)| v * d).sum::<f64>() / dof;
    let logs: f64 = scatter.iter().map(|(v, d)| d * v.ln()).sum();
    let k = groups.len() as f64;
    let correction = 1.0 + (scatter.iter().map(|(_, d)| 1.0 / d).sum::<f64>() - 1.0 / dof) / (3.0 * (k - 1.0));
    let statistic = (dof * pooled.ln() - logs) / correction;
    Some((statistic, ChiSquared::new(k - 1.0).ok()?.sf(statistic)))
}

/// Levene's test of equal variances about the medians (Brown & Forsythe 1974, J. Am. Stat. Assoc. 69:364): the one-way
/// analysis of |x - median|.
pub fn levene(groups: &[&[f64]]) -> Option<FTest> {
    let deviations: Vec<Vec<f64>> = groups
        .iter()
        .map(|g| {
            let middle = median(g);
            g.iter().map(|x| (x - middle).abs()).collect()
        })
        .collect();
    let slices: Vec<&[f64]> = deviations.iter().map(Vec::as_slice).collect();
    one_way(&slices).map(|a| a.test)
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    match sorted.len() {
        0 => f64::NAN,
        n if n % 2 == 1 => sorted[middle],
        _ => 0.5 * (sorted[middle - 1] + sorted[middle]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// e-Handbook 7.4.3: sums of squares 27.897 and 17.452, F 9.59.
    #[test]
    fn e_handbook_743() {
        let groups: [&[f64]; 3] = [&[6.9, 5.4, 5.8, 4.6, 4.0], &[8.3, 6.8, 7.8, 9.2, 6.5], &[8.0, 10.5, 8.1, 6.9, 9.3]];
        let a = one_way(&groups).unwrap();
        assert!((a.between_squares - 27.897).abs() < 5e-4 && (a.within_squares - 17.452).abs() < 5e-4);
        assert!((a.test.f - 9.59).abs() < 5e-3);
    }

    #[test]
    fn groups_of_one_cannot_be_tested_against_each_other() {
        assert!(one_way(&[&[1.0], &[2.0]]).is_none());
        assert!(welch_anova(&[Summary::from_parts(1, 1.0, 0.0), Summary::from_parts(3, 1.0, 1.0)]).is_none());
    }
}
