//! Whitening by a first-order autoregression seen through white noise, in one pass over the rows.

use super::reml::Errors;
use nalgebra::DMatrix;

/// Z' Omega^-1 Z and ln|Omega| by the Kalman filter of one state (Harvey 1989, 3.4), all columns at once. The gain settles
/// after a few rows; from there on it is constant, and so is what each row adds to the determinant. `zero` and `square` are
/// a row and a square matrix of zeros.
pub(super) fn filter<Z, Row, Square>(rows: &[Z], errors: Errors, zero: Row, square: Square) -> (DMatrix<f64>, f64)
where
    Z: AsRef<[f64]>,
    Row: AsMut<[f64]> + AsRef<[f64]> + Clone,
    Square: AsMut<[Row]> + AsRef<[Row]> + Clone,
{
    let (rho, white, width) = (errors.rho(), errors.white, zero.as_ref().len());
    let (drive, mut state) = ((1.0 - white) * (1.0 - rho * rho), 1.0 - white);
    let (mut guess, mut new) = (zero.clone(), zero);
    let (mut sum, mut settled) = (square.clone(), square);
    // The determinant as a product, its logarithm taken before it leaves the range of a float.
    let (mut ln_omega, mut product, mut rows) = (0.0, 1.0, rows.iter());
    let mut spread = state + white;
    for z in rows.by_ref() {
        spread = state + white;
        step(z.as_ref(), rho, state / spread, guess.as_mut(), new.as_mut());
        add_square(new.as_ref(), 1.0 / spread, sum.as_mut());
        product *= spread;
        if product < 1e-200 {
            ln_omega += product.ln();
            product = 1.0;
        }
        let next = rho * rho * state * (1.0 - state / spread) + drive;
        if (next - state).abs() < 1e-14 {
            break;
        }
        state = next;
    }
    ln_omega += product.ln() + rows.len() as f64 * spread.ln();
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
