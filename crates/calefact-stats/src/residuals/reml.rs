//! Restricted maximum likelihood of a first-order autoregression plus white noise in the residuals of a least-squares fit.
//!
//! Slow drift gives the autoregression, rounding of the display and pick-up the white noise; a lone autoregression takes
//! their sum for far less correlated than it is. Moments of residuals understate correlation, the more so the closer it
//! is to one; the restricted likelihood (Patterson and Thompson 1971; Cooper and Thompson 1977) corrects for that.

use super::moments::Basis;
use nalgebra::DMatrix;

/// Errors of variance s^2 with correlation (1 - white) rho^|i-j| between readings i and j.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Errors {
    /// atanh of rho, in which the likelihood is nearly quadratic.
    pub theta: f64,
    /// Share of the variance that is white.
    pub white: f64,
}

impl Errors {
    pub(super) fn rho(self) -> f64 {
        self.theta.tanh()
    }

    /// Q' Omega Q / s^2.
    pub(super) fn middle(self, basis: &Basis) -> DMatrix<f64> {
        let p = basis.q.ncols();
        basis.middle(self.rho()) * (1.0 - self.white) + DMatrix::identity(p, p) * self.white
    }

    pub(super) fn moved(self, theta: f64, white: f64) -> Self {
        Self { theta: self.theta + theta, white: self.white + white }
    }

    fn allowed(self) -> bool {
        (0.0..=LARGEST_THETA).contains(&self.theta) && (0.0..=0.99).contains(&self.white)
    }
}

/// Directions of the pattern search in (theta, white); the first two leave the white share alone.
const WAYS: [(f64, f64); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (1.0, 1.0), (-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0)];

/// Smallest step of the search; it moves a standard uncertainty by well under a per cent.
const FINEST: f64 = 1e-2;

/// atanh 0.99990: beyond it a series is too short to tell its correlation from a drift.
pub(super) const LARGEST_THETA: f64 = 4.951_7;

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

    /// Twice the negative restricted log-likelihood, profiled over s^2, and s^2 itself:
    /// (n-p) ln s^2 + ln|Omega| + ln|Q' Omega^-1 Q|.
    pub(super) fn deviance(&self, errors: Errors) -> (f64, f64) {
        let (inner, ln_omega) = self.whitened(errors);
        let x = inner.view((0, 0), (self.p, self.p)).into_owned();
        let xe = inner.view((0, self.p), (self.p, 1)).into_owned();
        let Some(cholesky) = x.cholesky() else { return (f64::INFINITY, f64::NAN) };
        let dof = (self.n - self.p) as f64;
        let variance = (inner[(self.p, self.p)] - xe.dot(&cholesky.solve(&xe))) / dof;
        let ln_x = 2.0 * cholesky.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>();
        (dof * variance.ln() + ln_omega + ln_x, variance)
    }

    /// Z' Omega^-1 Z and ln|Omega|; the usual widths are known to the compiler, which makes them several times faster.
    fn whitened(&self, errors: Errors) -> (DMatrix<f64>, f64) {
        match self.p + 1 {
            2 => filter(self.rows.as_chunks::<2>().0, errors, [0.0; 2], [[0.0; 2]; 2]),
            3 => filter(self.rows.as_chunks::<3>().0, errors, [0.0; 3], [[0.0; 3]; 3]),
            4 => filter(self.rows.as_chunks::<4>().0, errors, [0.0; 4], [[0.0; 4]; 4]),
            width => {
                let rows: Vec<&[f64]> = self.rows.chunks_exact(width).collect();
                filter(&rows, errors, vec![0.0; width], vec![vec![0.0; width]; width])
            }
        }
    }

    /// The errors of least deviance, without white noise unless it lowers the deviance by more than two (Akaike's price
    /// of one more parameter).
    pub(super) fn best(&self) -> Errors {
        let (plain, without) = self.search(&[0.0]);
        let (noisy, with) = self.search(&[0.3, 0.6, 0.9]);
        if with < without - 2.0 { noisy } else { plain }
    }

    /// Least deviance from a coarse grid and then a pattern search that halves its steps; `whites` of one value alone stays
    /// at it.
    fn search(&self, whites: &[f64]) -> (Errors, f64) {
        let mut seen: Vec<(Errors, f64)> = Vec::new();
        let mut at = |e: Errors| match seen.iter().find(|(at, _)| *at == e) {
            Some((_, deviance)) => *deviance,
            None if e.allowed() => {
                seen.push((e, self.deviance(e).0));
                seen[seen.len() - 1].1
            }
            None => f64::INFINITY,
        };
        let grid =
            (0..6).flat_map(|k| whites.iter().map(move |white| Errors { theta: 0.8 * f64::from(k), white: *white }));
        let first = Errors { theta: 0.0, white: 0.0 };
        let (mut here, mut least) = grid.fold((first, at(first)), |best, e| nearer(best, (e, at(e))));
        let mut step = 0.4;
        let ways = if whites.len() > 1 { &WAYS[..] } else { &WAYS[..2] };
        while step > FINEST {
            let around = ways.iter().map(|(t, w)| (t * step, 0.5 * w * step));
            let best = around.map(|(t, w)| here.moved(t, w)).fold((here, least), |b, e| nearer(b, (e, at(e))));
            if best.1 < least {
                (here, least) = best;
            } else {
                step *= 0.5;
            }
        }
        (here, least)
    }
}

/// Z' Omega^-1 Z and ln|Omega| by the Kalman filter of one state (Harvey 1989, 3.4), all columns at once. The gain settles
/// after a few rows; from there on it is constant, and so is what each row adds to the determinant. `zero` and `square` are
/// a row and a square matrix of zeros.
fn filter<Z, Row, Square>(rows: &[Z], errors: Errors, zero: Row, square: Square) -> (DMatrix<f64>, f64)
where
    Z: AsRef<[f64]>,
    Row: AsMut<[f64]> + AsRef<[f64]> + Clone,
    Square: AsMut<[Row]> + AsRef<[Row]> + Clone,
{
    let (rho, white, width) = (errors.rho(), errors.white, zero.as_ref().len());
    let (drive, mut state) = ((1.0 - white) * (1.0 - rho * rho), 1.0 - white);
    let (mut guess, mut new) = (zero.clone(), zero);
    let (mut sum, mut settled) = (square.clone(), square);
    let (mut ln_omega, mut rows) = (0.0, rows.iter());
    let mut spread = state + white;
    for z in rows.by_ref() {
        spread = state + white;
        step(z.as_ref(), rho, state / spread, guess.as_mut(), new.as_mut());
        add_square(new.as_ref(), 1.0 / spread, sum.as_mut());
        ln_omega += spread.ln();
        let next = rho * rho * state * (1.0 - state / spread) + drive;
        if (next - state).abs() < 1e-14 {
            break;
        }
        state = next;
    }
    ln_omega += rows.len() as f64 * spread.ln();
    let gain = state / spread;
    for z in rows {
        step(z.as_ref(), rho, gain, guess.as_mut(), new.as_mut());
        add_square(new.as_ref(), 1.0, settled.as_mut());
    }
    let (sum, settled) = (sum.as_ref(), settled.as_ref());
    let at = |square: &[Row], j: usize, k: usize| square[j.min(k)].as_ref()[j.max(k)];
    (DMatrix::from_fn(width, width, |j, k| at(sum, j, k) + at(settled, j, k) / spread), ln_omega)
}

/// One row of the filter: what is new in it, and the guess of the next row, rho (guess + gain new).
fn step(z: &[f64], rho: f64, gain: f64, guess: &mut [f64], new: &mut [f64]) {
    let (kept, taken) = (rho * (1.0 - gain), rho * gain);
    for ((new, guess), z) in new.iter_mut().zip(guess).zip(z) {
        *new = z - *guess;
        *guess = kept * *guess + taken * z;
    }
}

/// Adds the upper triangle of `scale` new new'.
fn add_square<Row: AsMut<[f64]>>(new: &[f64], scale: f64, sum: &mut [Row]) {
    for (j, (a, row)) in new.iter().zip(sum).enumerate() {
        let scaled = scale * a;
        for (b, cell) in new.iter().zip(row.as_mut()).skip(j) {
            *cell += scaled * b;
        }
    }
}

/// The candidate if it is lower by more than rounding, else what there was.
fn nearer(best: (Errors, f64), candidate: (Errors, f64)) -> (Errors, f64) {
    if candidate.1 < best.1 - 1e-9 { candidate } else { best }
}
