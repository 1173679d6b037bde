//! How much the readings of a log scatter, from their second differences: the error of reading and nothing of the curve.
//!
//! Over a lag of k readings the second difference y(i) - (y(i-k) + y(i+k))/2 holds hardly anything of a smooth curve. With
//! scatter of variance s^2 and correlation r between readings k apart its mean square is s^2 (1 - r)(3 - r)/2, which
//! grows with the lag until the readings are independent. Where the curve bends (ramp, refuelling) it grows faster; a median
//! over stretches of the log leaves that out, and growth beyond what scatter can explain ends the search.

/// Scatter of the readings of a log.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Noise {
    /// Standard deviation of one reading.
    pub(crate) sd: f64,
    /// Correlation of neighbours.
    pub(crate) rho: f64,
    /// Degrees of freedom of the standard deviation; infinite where it is known.
    pub(crate) dof: f64,
}

/// Fewest readings that show a scatter. Between fewer the curve itself bends too much.
pub(crate) const FEW: usize = 30;
/// Stretches of the log whose median counts, at most.
const STRETCHES: usize = 20;
/// Fewest second differences in a stretch.
const STRETCH: usize = 8;
/// Growth of the mean square from a lag to its double below which readings count as independent.
const SETTLED: f64 = 1.15;
/// It must grow so little twice in a row: once happens by chance.
const TWICE: u32 = 2;
/// Growth above which the bend of the curve shows beside the scatter: readings that hang together give 2 at most.
const BEND: f64 = 2.3;
/// Growth above which there is hardly anything but the bend, which gives 16.
const ALL_BEND: f64 = 5.0;
/// Strongest correlation believed.
const MOST: f64 = 0.95;
/// Least degrees of freedom: the median of eight stretches.
const LEAST_DOF: f64 = 6.0;

impl Noise {
    /// Scatter that is known and independent from reading to reading.
    pub(crate) const fn known(sd: f64) -> Self {
        Self { sd, rho: 0.0, dof: f64::INFINITY }
    }

    /// The scatter of readings at rising times; `None` where they are too few or bend too much to show one.
    pub(crate) fn find(t: &[f64], v: &[f64]) -> Option<Self> {
        if t.len() < FEW {
            return None;
        }
        let first = mean_square(t, v, 1)?;
        let (mut lag, mut square, mut settled) = (1, first, 0);
        while let Some(next) = mean_square(t, v, 2 * lag).filter(|_| settled < TWICE) {
            let growth = next / square;
            if growth > ALL_BEND && lag == 1 {
                return None;
            }
            if growth > BEND {
                break;
            }
            settled = if growth < SETTLED { settled + 1 } else { 0 };
            (lag, square) = (2 * lag, next.max(square));
        }
        let lag = lag >> settled;
        // s^2 (1 - r)(3 - r)/3 over s^2, both taken as the variance of one reading.
        let share = (first / square).min(1.0);
        let rho = (2.0 - (1.0 + 3.0 * share).sqrt()).clamp(0.0, MOST);
        let dof = (t.len() as f64 / (2.0 * lag.max(1) as f64)).max(LEAST_DOF);
        Some(Self { sd: square.sqrt(), rho, dof })
    }

    /// At least a known scatter: what is missing to it is added as known.
    #[must_use]
    pub(crate) fn at_least(self, floor: f64) -> Self {
        if self.sd >= floor { self } else { Self { sd: floor, rho: 0.0, dof: f64::INFINITY } }
    }

    /// Variance of a weighted sum of neighbouring readings, by a running sum over the earlier ones.
    pub(crate) fn variance(&self, weights: &[f64]) -> f64 {
        let (mut gathered, mut sum) = (0.0, 0.0);
        for w in weights {
            sum += w * (w + 2.0 * self.rho * gathered);
            gathered = w + self.rho * gathered;
        }
        self.sd * self.sd * sum.max(0.0)
    }
}

/// Variance of one reading that the second differences at a lag show if readings are independent: median over stretches.
/// `None` where the log is too short for the lag.
fn mean_square(t: &[f64], v: &[f64], lag: usize) -> Option<f64> {
    let n = t.len().checked_sub(2 * lag).filter(|n| *n >= 3 * STRETCH)?;
    let square = |i: usize| {
        let share = (t[i + lag] - t[i]) / (t[i + 2 * lag] - t[i]);
        let difference = v[i + lag] - (1.0 - share) * v[i] - share * v[i + 2 * lag];
        difference * difference / (1.0 + share * share + (1.0 - share) * (1.0 - share))
    };
    let stretches = (n / STRETCH).min(STRETCHES);
    let mean = |k: usize| {
        let (from, to) = (k * n / stretches, (k + 1) * n / stretches);
        (from..to).map(square).sum::<f64>() / (to - from) as f64
    };
    let mut means: Vec<f64> = (0..stretches).map(mean).collect();
    let (_, middle, _) = means.select_nth_unstable_by(stretches / 2, f64::total_cmp);
    // The median of a mean of squares lies below it (Wilson and Hilferty 1931); every other square counts.
    let free = 0.5 * (n / stretches) as f64;
    let below = (1.0 - 2.0 / (9.0 * free)).powi(3);
    let found = *middle / below;
    (found > 0.0).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_stats::rng::stream;
    use rand_distr::{Distribution, StandardNormal};

    /// `n` readings 50 s apart of a tank that rises by 0.007 K/s from a tenth of the log on, with scatter of 0.1 K and a
    /// correlation of `rho` between neighbours.
    fn log(n: usize, rho: f64, seed: u64) -> (Vec<f64>, Vec<f64>) {
        let mut rng = stream(seed, "noise");
        let mut z = || -> f64 { StandardNormal.sample(&mut rng) };
        let mut error = z();
        let t: Vec<f64> = (0..n).map(|i| 50.0 * i as f64).collect();
        let start = 5.0 * n as f64;
        let tank = t.iter().map(|t| {
            error = rho * error + (1.0 - rho * rho).sqrt() * z();
            10.0 + 0.007 * (t - start).max(0.0) + 0.1 * error
        });
        let tank = tank.collect();
        (t, tank)
    }

    #[test]
    fn scatter_and_its_correlation_are_found_beside_a_bend() {
        for rho in [0.0, 0.6] {
            let found: Vec<Noise> = (0..60)
                .filter_map(|seed| {
                    let (t, v) = log(150, rho, seed);
                    Noise::find(&t, &v)
                })
                .collect();
            assert_eq!(found.len(), 60);
            let mean = |f: &dyn Fn(&Noise) -> f64| found.iter().map(f).sum::<f64>() / 60.0;
            let (sd, r) = (mean(&|x| x.sd), mean(&|x| x.rho));
            // The largest of the lags is taken, which is more often too large than too small.
            assert!((0.095..0.12).contains(&sd), "{rho}: {sd}");
            assert!((r - rho).abs() < 0.15, "{rho}: {r}");
        }
    }

    #[test]
    fn few_readings_and_a_curve_without_scatter_show_none() {
        let (t, v) = log(FEW - 1, 0.0, 1);
        assert_eq!(Noise::find(&t, &v), None);
        let t: Vec<f64> = (0..100).map(|i| 50.0 * f64::from(i)).collect();
        let bent: Vec<f64> = t.iter().map(|t| 10.0 + 1e-6 * t * t).collect();
        assert_eq!(Noise::find(&t, &bent), None);
    }

    /// Var(sum of w e) = s^2 (sum of w^2 + 2 sum over pairs of w w rho^distance), by hand for three weights.
    #[test]
    fn variance_of_a_weighted_sum() {
        let noise = Noise { sd: 2.0, rho: 0.5, dof: 9.0 };
        let by_hand = 4.0 * (1.0 + 4.0 + 9.0 + 2.0 * (-2.0 * 0.5 + 3.0 * 0.25 - 6.0 * 0.5));
        assert!((noise.variance(&[1.0, -2.0, 3.0]) - by_hand).abs() < 1e-12);
    }
}
