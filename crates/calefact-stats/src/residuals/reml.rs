//! Restricted maximum likelihood of a first-order autoregression plus white noise in the residuals of a least-squares fit.
//!
//! Slow drift gives the autoregression, rounding of the display and pick-up the white noise; a lone autoregression takes
//! their sum for far less correlated than it is. Moments of residuals understate correlation, the more so the closer it
//! is to one; the restricted likelihood (Patterson and Thompson 1971; Cooper and Thompson 1977) corrects for that.

use super::basis::Basis;
use super::descent::Search;
use super::errors::{Errors, odds_of, share};
use super::filter::filter;
use libm::{atanh, exp, log};
use nalgebra::{DMatrix, Vector2};

/// Correlations at which a search may begin, as shares of the largest theta.
const STARTS: [f64; 5] = [0.1, 0.3, 0.5, 0.7, 0.9];
/// Shares of white noise at which a search may begin.
const WHITES: [f64; 4] = [0.01, 0.05, 0.2, 0.6];
/// Least and greatest share of white noise looked at, and how it is searched: as its log odds.
const WHITE_RANGE: (f64, f64) = (0.002, 0.99);

/// Errors that stay correlated for longer than this share of the series cannot be told from a course the curve does not
/// follow: misfit, not error (own rule, no source; without it the slope of a fire that is not quite steady gets an interval
/// half as wide again, and holds the truth no more often).
const LONGEST: f64 = 0.2;

/// Rows z_i = (q_i, e_i) of the basis and the residuals.
pub(super) struct Likelihood {
    rows: Vec<f64>,
    n: usize,
    p: usize,
}

impl Likelihood {
    pub(super) fn new(basis: &Basis, residuals: &[f64]) -> Self {
        let (n, p) = basis.q.shape();
        let mut rows = Vec::with_capacity(n * (p + 1));
        for (i, residual) in residuals.iter().enumerate() {
            rows.extend(basis.q.row(i).iter().chain([residual]));
        }
        Self { rows, n, p }
    }

    /// Twice the negative restricted log-likelihood of two errors, profiled over s^2, and s^2 itself:
    /// (n-p) ln s^2 + ln|Omega| + ln|Q' Omega^-1 Q|.
    pub(super) fn deviances(&self, errors: [Errors; 2]) -> [(f64, f64); 2] {
        self.whitened(errors).map(|(inner, ln_omega)| {
            let x = inner.view((0, 0), (self.p, self.p)).into_owned();
            let xe = inner.view((0, self.p), (self.p, 1)).into_owned();
            let Some(cholesky) = x.cholesky() else { return (f64::INFINITY, f64::NAN) };
            let dof = (self.n - self.p) as f64;
            let variance = (inner[(self.p, self.p)] - xe.dot(&cholesky.solve(&xe))) / dof;
            let ln_x = 2.0 * cholesky.l_dirty().diagonal().iter().map(|d| log(*d)).sum::<f64>();
            (dof * log(variance) + ln_omega + ln_x, variance)
        })
    }

    /// Z' Omega^-1 Z and ln|Omega|; the usual widths are known to the compiler, which makes them several times faster.
    fn whitened(&self, errors: [Errors; 2]) -> [(DMatrix<f64>, f64); 2] {
        let zero = [0.0; 2];
        match self.p + 1 {
            2 => filter(self.rows.as_chunks::<2>().0, errors, [zero; 2], [[zero; 2]; 2]),
            3 => filter(self.rows.as_chunks::<3>().0, errors, [zero; 3], [[zero; 3]; 3]),
            4 => filter(self.rows.as_chunks::<4>().0, errors, [zero; 4], [[zero; 4]; 4]),
            width => {
                let rows: Vec<&[f64]> = self.rows.chunks_exact(width).collect();
                filter(&rows, errors, vec![zero; width], vec![vec![zero; width]; width])
            }
        }
    }

    /// Largest theta looked at: the correlation falls to 1/e within [`LONGEST`] of the series.
    pub(super) fn largest_theta(&self) -> f64 {
        atanh(exp(-1.0 / (LONGEST * self.n as f64)))
    }

    /// The errors of least deviance, without white noise unless it lowers the deviance by more than two (Akaike's price
    /// of one more parameter).
    pub(super) fn best(&self) -> Errors {
        let (plain, without) = self.least(&[0.0], (0.0, 0.0), |p| Errors { theta: p.x, white: 0.0 });
        let edges = (odds_of(WHITE_RANGE.0), odds_of(WHITE_RANGE.1));
        let (noisy, with) = self.least(&WHITES.map(odds_of), edges, |p| Errors { theta: p.x, white: share(p.y) });
        if with < without - 2.0 { noisy } else { plain }
    }

    /// Least deviance over (theta, second variable): a descent from the best of a coarse grid. `errors` turns a point into
    /// errors.
    fn least(&self, seconds: &[f64], edges: (f64, f64), errors: impl Fn(Vector2<f64>) -> Errors) -> (Errors, f64) {
        let mut seen: Vec<(Errors, f64)> = Vec::new();
        let mut at = |points: [Vector2<f64>; 2]| {
            let tried = points.map(&errors);
            let known = tried.map(|errors| seen.iter().find(|(e, _)| *e == errors).map(|(_, deviance)| *deviance));
            if let [Some(a), Some(b)] = known {
                return [a, b];
            }
            let found = self.deviances(tried).map(|(deviance, _)| deviance);
            seen.extend(tried.into_iter().zip(found));
            found
        };
        let largest = self.largest_theta();
        let grid = STARTS.iter().flat_map(|s| seconds.iter().map(move |second| Vector2::new(s * largest, *second)));
        let grid: Vec<Vector2<f64>> = grid.collect();
        let valued = grid.chunks(2).flat_map(|p| {
            let pair = [p[0], p[p.len() - 1]];
            pair.into_iter().zip(at(pair))
        });
        let start = valued.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(Vector2::zeros(), |best| best.0);
        let search = Search {
            low: Vector2::new(0.0, edges.0),
            high: Vector2::new(largest, edges.1),
            difference: Vector2::new(0.05, 0.1),
            longest: Vector2::new(0.8, 1.6),
            gain: 1e-3,
            most: 15,
        };
        let (found, deviance) = search.descend(at, start);
        (errors(found), deviance)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rng::stream;
    use nalgebra::DVector;
    use rand_distr::{Distribution, StandardNormal};

    const N: usize = 120;

    /// A straight line's basis, and an autoregression under white noise with a fixed seed.
    fn case(rho: f64, white_sd: f64) -> (Basis, Vec<f64>) {
        let mut rng = stream(7, &format!("{rho} {white_sd}"));
        let mut normal = || -> f64 { StandardNormal.sample(&mut rng) };
        let mut state = normal();
        let residuals: Vec<f64> = (0..N)
            .map(|_| {
                let now = state;
                state = rho * state + (1.0 - rho * rho).sqrt() * normal();
                now + white_sd * normal()
            })
            .collect();
        let line = DMatrix::from_fn(N, 2, |i, j| if j == 0 { 1.0 } else { i as f64 });
        (Basis::new(&line, &residuals).expect("full rank"), residuals)
    }

    /// The definition with Omega written out (Patterson & Thompson 1971).
    fn dense(basis: &Basis, e: &[f64], errors: Errors) -> f64 {
        let omega = DMatrix::from_fn(N, N, |i, j| {
            let drift = (1.0 - errors.white) * libm::pow(errors.rho(), i.abs_diff(j) as f64);
            if i == j { drift + errors.white } else { drift }
        });
        let cholesky = omega.cholesky().expect("positive definite");
        let ln_omega: f64 = cholesky.l().diagonal().iter().map(|d| 2.0 * log(*d)).sum();
        let xx = basis.q.transpose() * cholesky.solve(&basis.q);
        let e = DVector::from_column_slice(e);
        let beta = xx.clone().try_inverse().expect("full rank") * basis.q.transpose() * cholesky.solve(&e);
        let rest = &e - &basis.q * beta;
        let dof = (N - 2) as f64;
        dof * log(rest.dot(&cholesky.solve(&rest)) / dof) + ln_omega + log(xx.determinant())
    }

    #[test]
    fn the_deviance_is_that_of_dense_matrices() {
        let (basis, e) = case(0.7, 0.5);
        let pair = [Errors { theta: 0.4, white: 0.0 }, Errors { theta: 1.3, white: 0.2 }];
        let found = Likelihood::new(&basis, &e).deviances(pair);
        for (errors, (deviance, _)) in pair.into_iter().zip(found) {
            assert!((deviance - dense(&basis, &e, errors)).abs() < 1e-8, "{errors:?}");
        }
    }

    /// Around the errors found no others are better by more than the search's last gain allows.
    #[test]
    fn the_best_errors_are_at_a_minimum() {
        for (rho, white_sd) in [(0.3, 0.0), (0.8, 0.0), (0.9, 1.0)] {
            let (basis, e) = case(rho, white_sd);
            let likelihood = Likelihood::new(&basis, &e);
            let best = likelihood.best();
            let deviance = |errors: Errors| likelihood.deviances([errors; 2])[0].0;
            for (theta, odds) in [(0.05, 0.0), (-0.05, 0.0), (0.0, 0.2), (0.0, -0.2)] {
                let other = best.moved(theta, odds);
                let inside = other.theta >= 0.0 && other.theta <= likelihood.largest_theta();
                assert!(!inside || deviance(other) > deviance(best) - 0.002, "{rho} {white_sd} {theta} {odds}");
            }
        }
    }

    /// White noise is taken in only where it lowers the least deviance, found here on a fine grid, by more than two.
    #[test]
    fn white_noise_is_taken_where_it_pays() {
        let mut taken = Vec::new();
        for (rho, white_sd) in [(0.5, 0.0), (0.9, 0.0), (0.9, 1.0), (0.95, 0.7), (0.97, 1.0), (0.98, 2.0)] {
            let (basis, e) = case(rho, white_sd);
            let likelihood = Likelihood::new(&basis, &e);
            let step = likelihood.largest_theta() / 60.0;
            let least = |white: f64| {
                let at = |i: i32| likelihood.deviances([Errors { theta: step * f64::from(i), white }; 2])[0].0;
                (0..=60).map(at).fold(f64::INFINITY, f64::min)
            };
            let with = (1..50).map(|i| least(0.02 * f64::from(i))).fold(f64::INFINITY, f64::min);
            let gain = least(0.0) - with;
            if (gain - 2.0).abs() > 0.3 {
                assert_eq!(likelihood.best().white > 0.0, gain > 2.0, "{rho} {white_sd}: {gain}");
                taken.push(gain > 2.0);
            }
        }
        assert!(taken.contains(&true) && taken.contains(&false), "{taken:?}");
    }

    /// Correlation e^-1 at a fifth of the series: rho^(n / 5) = 1 / e.
    #[test]
    fn the_longest_correlation_is_a_fifth_of_the_series() {
        let (basis, e) = case(0.5, 0.0);
        let rho = libm::tanh(Likelihood::new(&basis, &e).largest_theta());
        assert!((libm::pow(rho, N as f64 / 5.0) - exp(-1.0)).abs() < 1e-10);
    }
}
