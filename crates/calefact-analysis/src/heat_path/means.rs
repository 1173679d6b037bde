//! Means over the steady part with the random error their readings show.

use super::scatter::Course;
use crate::series;
use calefact_data::{Channel, Readings};
use std::cell::OnceCell;
use std::ops::Range;

/// A mean over the steady part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Mean {
    /// Mean of the readings.
    pub(crate) value: f64,
    /// Standard uncertainty of the mean from scatter and display step.
    pub(crate) std_uncertainty: f64,
    /// Degrees of freedom of it.
    pub(crate) dof: f64,
}

/// The readings of a time range.
pub(crate) struct Part<'r> {
    readings: &'r Readings,
    rows: Range<usize>,
    /// The course over all rows, which channels without gaps have in common.
    course: OnceCell<Option<Course>>,
}

impl<'r> Part<'r> {
    /// The part between two times, s.
    pub(crate) fn new(readings: &'r Readings, (from, to): (f64, f64)) -> Self {
        Self { readings, rows: series::between(&readings.elapsed_s, from, to), course: OnceCell::new() }
    }

    /// Mean of a channel's readings, whose display step is `step`; `None` with fewer than two. From six readings on the slow
    /// course is taken out and autocorrelation allowed for; below, scatter about the mean over the root of n.
    pub(crate) fn mean(&self, channel: Channel, step: f64) -> Option<Mean> {
        let t = &self.readings.elapsed_s[self.rows.clone()];
        let v = &self.readings.channel(channel)?[self.rows.clone()];
        if v.iter().all(|v| v.is_finite()) {
            return mean(v, self.course.get_or_init(|| Course::new(t)).as_ref(), step);
        }
        let (t, v) = series::known(t, v.iter().copied());
        mean(&v, Course::new(&t).as_ref(), step)
    }
}

fn mean(v: &[f64], course: Option<&Course>, step: f64) -> Option<Mean> {
    if v.len() < 2 {
        return None;
    }
    let n = v.len() as f64;
    let value = v.iter().sum::<f64>() / n;
    let about = course.and_then(|c| c.scatter(v));
    let (scatter, dof) = about.map_or_else(|| plain(v, value), |s| (s.sd / s.independent.sqrt(), s.dof));
    let floor = step / n.sqrt();
    let std_uncertainty = scatter.max(floor);
    Some(Mean { value, std_uncertainty, dof: if scatter < floor { f64::INFINITY } else { dof } })
}

/// Standard error of a mean from the scatter about it, and its degrees of freedom.
fn plain(v: &[f64], mean: f64) -> (f64, f64) {
    let n = v.len() as f64;
    let sum: f64 = v.iter().map(|x| (x - mean) * (x - mean)).sum();
    ((sum / (n - 1.0) / n).sqrt(), n - 1.0)
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
        let m = Part::new(&log, (0.0, 1e9)).mean(Channel::FlueAfter, 0.0).expect("mean");
        assert!((m.value - 320.0).abs() < 1e-12 && (m.std_uncertainty - 20.0 / 3.0_f64.sqrt()).abs() < 1e-12);
        assert!((m.dof - 2.0).abs() < 1e-12);
        assert!(Part::new(&log, (0.0, 70.0)).mean(Channel::FlueAfter, 0.0).is_none());
    }

    #[test]
    fn a_trend_is_no_scatter() {
        let values: Vec<f64> = (0..50).map(|i| 300.0 + f64::from(i)).collect();
        let m = Part::new(&readings(&values), (0.0, 1e9)).mean(Channel::FlueAfter, 0.1).expect("mean");
        assert!((m.value - 324.5).abs() < 1e-9 && m.std_uncertainty < 0.02);
    }
}
