//! Means over the steady part with the random error their readings show.

use crate::series;
use calefact_data::{Channel, Readings};
use calefact_stats::{linear, residuals, univariate};

/// Readings for each degree of the course that is taken out before the scatter is judged.
const TREND: usize = 6;
/// Highest degree.
pub(crate) const HIGHEST: usize = 6;

/// A mean over the steady part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mean {
    /// Mean of the readings.
    pub value: f64,
    /// Standard uncertainty of the mean from scatter and display step.
    pub std_uncertainty: f64,
    /// Degrees of freedom of it.
    pub dof: f64,
}

/// Mean of a channel's readings in a time range; `None` with fewer than two. From six readings on the slow course is
/// taken out and autocorrelation allowed for; below, scatter about the mean over the root of n.
pub fn mean(readings: &Readings, channel: Channel, range: (f64, f64), step: f64) -> Option<Mean> {
    let values = readings.channel(channel)?;
    let rows = series::between(&readings.elapsed_s, range.0, range.1);
    let pairs = readings.elapsed_s[rows.clone()].iter().zip(&values[rows]);
    let (t, v): (Vec<f64>, Vec<f64>) = pairs.filter(|(_, v)| v.is_finite()).map(|(t, v)| (*t, *v)).unzip();
    if v.len() < 2 {
        return None;
    }
    let value = v.iter().sum::<f64>() / v.len() as f64;
    let (scatter, dof) = if v.len() < TREND { plain(&v, value) } else { about_course(&t, &v, value) };
    let floor = step / (v.len() as f64).sqrt();
    let std_uncertainty = scatter.max(floor);
    Some(Mean { value, std_uncertainty, dof: if scatter < floor { f64::INFINITY } else { dof } })
}

fn plain(v: &[f64], mean: f64) -> (f64, f64) {
    let n = v.len() as f64;
    let sum: f64 = v.iter().map(|x| (x - mean) * (x - mean)).sum();
    ((sum / (n - 1.0) / n).sqrt(), n - 1.0)
}

/// Standard error of the mean about the slow course, and its degrees of freedom.
fn about_course(t: &[f64], v: &[f64], mean: f64) -> (f64, f64) {
    scatter(t, v).map_or_else(|| plain(v, mean), |s| (s.sd / s.independent.sqrt(), s.dof))
}

/// What readings scatter about their slow course.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scatter {
    /// Standard deviation.
    pub(crate) sd: f64,
    /// Readings that would say as much if they were independent.
    pub(crate) independent: f64,
    /// Degrees of freedom.
    pub(crate) dof: f64,
}

/// Scatter about a slow course: a polynomial of one degree for each [`TREND`] readings, [`HIGHEST`] at most. The course is
/// what the fire did, which a mean is meant to hold; what is left is error of reading, whose autocorrelation leaves fewer
/// independent readings (first-order autoregressive). `None` with fewer than [`TREND`] readings.
pub(crate) fn scatter(t: &[f64], v: &[f64]) -> Option<Scatter> {
    let degree = (v.len() / TREND).min(HIGHEST);
    if degree == 0 {
        return None;
    }
    let (first, last) = (t[0], t[t.len() - 1]);
    let x: Vec<f64> = t.iter().map(|t| 2.0 * (t - first) / (last - first) - 1.0).collect();
    let fit = linear::about_polynomial(&x, v, degree)?;
    let size = v.iter().fold(0.0_f64, |most, v| most.max(v.abs()));
    if fit.residuals.iter().all(|r| r.abs() <= 1e-9 * size) {
        return Some(Scatter { sd: 0.0, independent: v.len() as f64, dof: f64::INFINITY });
    }
    let rho = univariate::lag1(&fit.residuals).clamp(0.0, 0.98);
    let independent = residuals::effective_sample_size(v.len(), rho);
    Some(Scatter { sd: fit.residual_sd, independent, dof: (independent - degree as f64 - 1.0).max(1.0) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn readings(values: &[f64]) -> Readings {
        Readings {
            elapsed_s: (0..values.len()).map(|i| 60.0 * i as f64).collect(),
            channels: [(Channel::FlueAfter, values.to_vec())].into(),
            ..Readings::default()
        }
    }

    #[test]
    fn few_readings_use_their_plain_scatter() {
        let log = readings(&[f64::NAN, 300.0, 320.0, 340.0]);
        let m = mean(&log, Channel::FlueAfter, (0.0, 1e9), 0.0).expect("mean");
        assert!((m.value - 320.0).abs() < 1e-12 && (m.std_uncertainty - 20.0 / 3.0_f64.sqrt()).abs() < 1e-12);
        assert!((m.dof - 2.0).abs() < 1e-12);
        assert!(mean(&log, Channel::FlueAfter, (0.0, 70.0), 0.0).is_none());
    }

    #[test]
    fn a_trend_is_no_scatter() {
        let values: Vec<f64> = (0..50).map(|i| 300.0 + f64::from(i)).collect();
        let m = mean(&readings(&values), Channel::FlueAfter, (0.0, 1e9), 0.1).expect("mean");
        assert!((m.value - 324.5).abs() < 1e-9 && m.std_uncertainty < 0.02);
    }
}
