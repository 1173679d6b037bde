//! The heat line: delivered heat against time is level until heat arrives, then a straight line of slope Q.
//!
//! Model: E(t) = E0 + Q max(0, t - d), with E = m (h(T) - h(T0)) + Cv (T - T0) + UA integral(T - Ta) dt. The least-squares
//! optimum over the delay d is found exactly: for every split of the readings the level part and the line are fitted
//! alone, and splits whose crossing falls between the two parts compete (D. J. Hudson, Fitting segmented curves whose
//! join points have to be estimated, JASA 61 (1966) 1097).

use calefact_stats::univariate::mean;

/// A fitted heat line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct HeatLine {
    /// Heat flow Q, W.
    pub(crate) heat_flow: f64,
    /// Delay d after the first reading, s; never negative.
    pub(crate) delay: f64,
    /// Measured minus fitted, J.
    pub(crate) residuals: Vec<f64>,
    /// Number of parameters that were free: 3, or 2 where no delay shows.
    pub(crate) free: usize,
}

/// Fits the heat line to delivered heat `e` (J) at times `t` (s). `None` with fewer than three readings.
pub(crate) fn fit(t: &[f64], e: &[f64]) -> Option<HeatLine> {
    if t.len() < 3 {
        return None;
    }
    let sums = Sums::new(t, e);
    let best = (0..=t.len() - 2).filter_map(|first| sums.split(t, first)).min_by(|a, b| a.rss.total_cmp(&b.rss))?;
    Some(best.finish(t, e))
}

/// Fits a straight line alone, to the steady part of a burn. The delay is the time since `origin` (s) at which the line
/// leaves zero: what the ramp held back, as if the steady flow had begun then. `None` with fewer than three readings.
pub(crate) fn straight(t: &[f64], e: &[f64], origin: f64) -> Option<HeatLine> {
    if t.len() < 3 {
        return None;
    }
    let slope = slope_from(t, e, 0);
    let level = mean(e) + slope * (t[0] - mean(t));
    if !level.is_finite() {
        return None;
    }
    let mut line = Split { first: 0, level, slope, delay: 0.0, rss: f64::NAN, free: 2 }.finish(t, e);
    if slope > 0.0 {
        line.delay = (t[0] - level / slope - origin).max(0.0);
    }
    Some(line)
}

/// Slope of `y` on `t` by least squares over the readings from `first` on.
pub(crate) fn slope_from(t: &[f64], y: &[f64], first: usize) -> f64 {
    let n = (t.len() - first) as f64;
    let mean_t = t[first..].iter().sum::<f64>() / n;
    let mean_y = y[first..].iter().sum::<f64>() / n;
    let pairs = t[first..].iter().zip(&y[first..]);
    let (sxy, sxx) = pairs
        .fold((0.0, 0.0), |(sxy, sxx), (t, y)| (sxy + (t - mean_t) * (y - mean_y), sxx + (t - mean_t) * (t - mean_t)));
    sxy / sxx
}

/// One way of splitting the readings, fitted.
struct Split {
    first: usize,
    level: f64,
    slope: f64,
    delay: f64,
    /// Residual sum of squares, for the choice between splits.
    rss: f64,
    free: usize,
}

/// Prefix sums of centred t and e, so that every split costs the same.
struct Sums {
    mean_t: f64,
    mean_e: f64,
    rows: Vec<[f64; 5]>,
}

impl Sums {
    fn new(t: &[f64], e: &[f64]) -> Self {
        let n = t.len() as f64;
        let (mean_t, mean_e) = (t.iter().sum::<f64>() / n, e.iter().sum::<f64>() / n);
        let mut rows = Vec::with_capacity(t.len() + 1);
        rows.push([0.0; 5]);
        let mut s = [0.0; 5];
        for (t, e) in t.iter().zip(e) {
            let (x, y) = (t - mean_t, e - mean_e);
            for (sum, term) in s.iter_mut().zip([x, y, x * x, x * y, y * y]) {
                *sum += term;
            }
            rows.push(s);
        }
        Self { mean_t, mean_e, rows }
    }

    /// Sums over readings `from..to`, with their number.
    fn range(&self, from: usize, to: usize) -> (f64, [f64; 5]) {
        let (a, b) = (&self.rows[from], &self.rows[to]);
        ((to - from) as f64, std::array::from_fn(|i| b[i] - a[i]))
    }

    /// Fits the split at `first`; `None` when its crossing does not fall between the two parts.
    fn split(&self, t: &[f64], first: usize) -> Option<Split> {
        let (n, [x, y, xx, xy, yy]) = self.range(first, t.len());
        let (sxx, sxy, syy) = (xx - x * x / n, xy - x * y / n, yy - y * y / n);
        if sxx <= 0.0 {
            return None;
        }
        let slope = sxy / sxx;
        let at_zero = y / n - slope * (x / n) + self.mean_e - slope * self.mean_t;
        let line_rss = (syy - slope * sxy).max(0.0);
        if first == 0 {
            let level = at_zero + slope * t[0];
            return Some(Split { first, level, slope, delay: 0.0, rss: line_rss, free: 2 });
        }
        let (k, [_, ly, _, _, lyy]) = self.range(0, first);
        let level = ly / k + self.mean_e;
        let delay = (level - at_zero) / slope;
        let inside = slope > 0.0 && delay >= t[first - 1] && delay <= t[first];
        let rss = line_rss + (lyy - ly * ly / k).max(0.0);
        inside.then_some(Split { first, level, slope, delay: delay - t[0], rss, free: 3 })
    }
}

impl Split {
    fn finish(self, t: &[f64], e: &[f64]) -> HeatLine {
        let knot = t[0] + self.delay;
        let after = |i: usize| if i >= self.first { t[i] - knot } else { 0.0 };
        let residuals = (0..t.len()).map(|i| e[i] - self.level - self.slope * after(i)).collect();
        HeatLine { heat_flow: self.slope, delay: self.delay, residuals, free: self.free }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_broken_line_is_recovered() {
        let t: Vec<f64> = (0..20).map(|i| 60.0 * f64::from(i)).collect();
        let e: Vec<f64> = t.iter().map(|&t| 100.0 + 5000.0 * (t - 200.0).max(0.0)).collect();
        let line = fit(&t, &e).expect("fits");
        assert!((line.heat_flow - 5000.0).abs() < 1e-6 && (line.delay - 200.0).abs() < 1e-6);
        assert!(line.residuals.iter().all(|r| r.abs() < 1e-6));
    }

    #[test]
    fn steady_part_tells_what_the_ramp_held_back() {
        let t: Vec<f64> = (10..40).map(|i| 60.0 * f64::from(i)).collect();
        let e: Vec<f64> = t.iter().map(|&t| 4000.0 * (t - 300.0)).collect();
        let line = straight(&t, &e, 60.0).expect("fits");
        assert!((line.heat_flow - 4000.0).abs() < 1e-6 && (line.delay - 240.0).abs() < 1e-6);
    }

    #[test]
    fn straight_line_has_no_delay() {
        let t = [0.0, 600.0, 1200.0, 1800.0, 2400.0];
        let e = [30.0, 3_000_010.0, 5_999_970.0, 9_000_020.0, 11_999_990.0];
        let line = fit(&t, &e).expect("fits");
        assert!((line.heat_flow - 5000.0).abs() < 0.1 && line.delay < 0.1);
    }
}
