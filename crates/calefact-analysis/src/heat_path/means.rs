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
    /// Whether part of the scatter is assumed.
    pub(crate) assumed: bool,
}

/// The readings of a time range.
pub(crate) struct Part<'r> {
    readings: &'r Readings,
    rows: Range<usize>,
    /// The course over all rows, which channels without gaps have in common.
    course: OnceCell<Option<Course>>,
}

/// Standard deviation of readings about the mean of a steady fire, as far as few readings leave it open:
/// `fixed + share |mean - above|`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct AssumedScatter {
    /// The part that does not depend on the mean.
    pub(crate) fixed: f64,
    /// The part in proportion to how far the mean lies above `above`.
    pub(crate) share: f64,
    /// Where the proportion begins.
    pub(crate) above: f64,
}

impl AssumedScatter {
    fn at(self, mean: f64) -> f64 {
        self.fixed + self.share * (mean - self.above).abs()
    }
}

/// Degrees of freedom that few readings have at least: what theirs lack is filled up by the assumed scatter.
const FILLED: f64 = 4.0;

impl<'r> Part<'r> {
    /// The part between two times, s.
    pub(crate) fn new(readings: &'r Readings, (from, to): (f64, f64)) -> Self {
        Self { readings, rows: series::between(&readings.elapsed_s, from, to), course: OnceCell::new() }
    }

    /// Times of its rows, s.
    pub(crate) fn times(&self) -> &'r [f64] {
        &self.readings.elapsed_s[self.rows.clone()]
    }

    /// The cells of a channel, where any holds a reading.
    pub(crate) fn read(&self, channel: Channel) -> Option<&'r [f64]> {
        let cells = &self.readings.channel(channel)?[self.rows.clone()];
        cells.iter().any(|v| v.is_finite()).then_some(cells)
    }

    /// Mean of values by row, whose display step is `step`; `None` without a value. From six values on the slow course is
    /// taken out and autocorrelation allowed for; below, scatter about the mean over the root of n.
    pub(crate) fn mean(&self, v: &[f64], step: f64, assumed: AssumedScatter) -> Option<Mean> {
        let t = self.times();
        if v.iter().all(|v| v.is_finite()) {
            return mean(v, self.course.get_or_init(|| Course::new(t)).as_ref(), step, assumed);
        }
        let (t, v) = series::known(t, v.iter().copied());
        mean(&v, Course::new(&t).as_ref(), step, assumed)
    }
}

fn mean(v: &[f64], course: Option<&Course>, step: f64, assumed: AssumedScatter) -> Option<Mean> {
    if v.is_empty() {
        return None;
    }
    let n = v.len() as f64;
    let value = v.iter().sum::<f64>() / n;
    let about = course.and_then(|c| c.scatter(v));
    let few = || plain(v, value, assumed.at(value));
    let is_assumed = about.is_none() && n - 1.0 < FILLED;
    let (scatter, dof) = about.map_or_else(few, |s| (s.sd / s.independent.sqrt(), s.dof));
    let floor = step / n.sqrt();
    let std_uncertainty = scatter.max(floor);
    let dof = if scatter < floor { f64::INFINITY } else { dof };
    Some(Mean { value, std_uncertainty, dof, assumed: is_assumed })
}

/// Standard error of a mean from the scatter about it, and its degrees of freedom. One reading shows no scatter, two or
/// three hardly any: below [`FILLED`] degrees of freedom the assumed scatter is pooled with what they show.
fn plain(v: &[f64], mean: f64, assumed: f64) -> (f64, f64) {
    let n = v.len() as f64;
    let sum: f64 = v.iter().map(|x| (x - mean) * (x - mean)).sum();
    let filled = (FILLED - (n - 1.0)).max(0.0);
    let dof = n - 1.0 + filled;
    (((sum + filled * assumed * assumed) / dof / n).sqrt(), dof)
}

/// Plain mean of a channel in a time range.
pub(super) fn plain_mean(readings: &Readings, channel: Channel, range: (f64, f64)) -> Option<f64> {
    let values = readings.channel(channel)?;
    let inside = &values[series::between(&readings.elapsed_s, range.0, range.1)];
    let (sum, n) = inside.iter().filter(|v| v.is_finite()).fold((0.0, 0.0), |(s, n), v| (s + v, n + 1.0));
    (n > 0.0).then(|| sum / n)
}

#[cfg(test)]
mod tests {
    use super::*;

    const NONE: AssumedScatter = AssumedScatter { fixed: 0.0, share: 0.0, above: 0.0 };

    fn mean_of(values: &[f64], range: (f64, f64), assumed: AssumedScatter) -> Option<Mean> {
        let readings = Readings {
            elapsed_s: (0..values.len()).map(|i| 60.0 * i as f64).collect(),
            channels: [(Channel::FlueAfter, values.to_vec())].into(),
            ..Readings::default()
        };
        let part = Part::new(&readings, range);
        part.mean(part.read(Channel::FlueAfter)?, 0.1, assumed)
    }

    #[test]
    fn few_readings_use_their_plain_scatter() {
        let values = [f64::NAN, 300.0, 310.0, 320.0, 330.0, 340.0];
        let m = mean_of(&values, (0.0, 1e9), AssumedScatter { share: 0.1, ..NONE }).expect("mean");
        assert!((m.value - 320.0).abs() < 1e-12 && (m.std_uncertainty - 50.0_f64.sqrt()).abs() < 1e-12);
        assert!((m.dof - 4.0).abs() < 1e-12);
    }

    /// By hand: one reading of 320 has the assumed 10 % of what lies above 20, 30; two of 310 and 330 pool 3 x 30^2 with
    /// their own 200.
    #[test]
    fn an_assumed_scatter_fills_up_what_readings_lack() {
        let assumed = AssumedScatter { fixed: 0.0, share: 0.1, above: 20.0 };
        let one = mean_of(&[f64::NAN, 320.0], (0.0, 1e9), assumed).expect("mean");
        assert!((one.std_uncertainty - 30.0).abs() < 1e-12 && (one.dof - 4.0).abs() < 1e-12 && one.assumed);
        let two = mean_of(&[310.0, 330.0], (0.0, 1e9), assumed).expect("mean");
        assert!((two.std_uncertainty - (2900.0_f64 / 4.0 / 2.0).sqrt()).abs() < 1e-12);
        assert!((two.dof - 4.0).abs() < 1e-12);
        assert!(mean_of(&[f64::NAN, 320.0], (0.0, 50.0), assumed).is_none());
    }

    #[test]
    fn a_trend_is_no_scatter() {
        let values: Vec<f64> = (0..50).map(|i| 300.0 + f64::from(i)).collect();
        let m = mean_of(&values, (0.0, 1e9), NONE).expect("mean");
        assert!((m.value - 324.5).abs() < 1e-9 && m.std_uncertainty < 0.02);
    }
}
