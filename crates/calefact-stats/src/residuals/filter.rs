//! Whitening by a first-order autoregression seen through white noise, in one pass over the rows.

use super::errors::Errors;
use libm::log;
use nalgebra::DMatrix;
use std::array::from_fn;

/// A number for each of two errors that are tried at once: each row waits for the last one, and a processor does two such
/// chains in the time of one.
pub(super) type Pair = [f64; 2];

/// Z' Omega^-1 Z and ln|Omega| of two errors by the Kalman filter of one state (Harvey 1989, 3.4), all columns at once. The
/// gain settles after a few rows; from there on it is constant, and so is what each row adds to the determinant. `zero` and
/// `square` are a row and a square matrix of zeros.
pub(super) fn filter<Z, Row, Square>(
    rows: &[Z],
    errors: [Errors; 2],
    zero: Row,
    square: Square,
) -> [(DMatrix<f64>, f64); 2]
where
    Z: AsRef<[f64]>,
    Row: AsMut<[Pair]> + AsRef<[Pair]> + Clone,
    Square: AsMut<[Row]> + AsRef<[Row]> + Clone,
{
    let (rho, white, width) = (errors.map(Errors::rho), errors.map(|e| e.white), zero.as_ref().len());
    let drive: Pair = from_fn(|l| (1.0 - white[l]) * (1.0 - rho[l] * rho[l]));
    let (mut state, mut spread, mut gain) = (white.map(|w| 1.0 - w), [1.0; 2], [0.0; 2]);
    let (mut guess, mut new) = (zero.clone(), zero);
    let (mut sum, mut settled) = (square.clone(), square);
    // The determinant as a product, its logarithm taken before it leaves the range of a float.
    let (mut ln_omega, mut product, mut rows) = ([0.0; 2], [1.0; 2], rows.iter());
    for z in rows.by_ref() {
        spread = from_fn(|l| state[l] + white[l]);
        gain = from_fn(|l| state[l] / spread[l]);
        step(z.as_ref(), rho, gain, guess.as_mut(), new.as_mut());
        add_square(new.as_ref(), spread.map(f64::recip), sum.as_mut());
        for l in 0..2 {
            product[l] *= spread[l];
            if product[l] < 1e-200 {
                ln_omega[l] += log(product[l]);
                product[l] = 1.0;
            }
        }
        let next: Pair = from_fn(|l| rho[l] * rho[l] * state[l] * (1.0 - gain[l]) + drive[l]);
        let has_settled = (0..2).all(|l| (next[l] - state[l]).abs() < 1e-14);
        state = next;
        if has_settled {
            break;
        }
    }
    let rest = rows.len() as f64;
    for z in rows {
        step(z.as_ref(), rho, gain, guess.as_mut(), new.as_mut());
        add_square(new.as_ref(), [1.0; 2], settled.as_mut());
    }
    let (sum, settled) = (sum.as_ref(), settled.as_ref());
    let at = |square: &[Row], j: usize, k: usize, l: usize| square[j.min(k)].as_ref()[j.max(k)][l];
    from_fn(|l| {
        let whole = |j, k| at(sum, j, k, l) + at(settled, j, k, l) / spread[l];
        (DMatrix::from_fn(width, width, whole), ln_omega[l] + log(product[l]) + rest * log(spread[l]))
    })
}

/// One row of the filter: what is new in it, and the guess of the next row, rho (guess + gain new).
#[expect(clippy::inline_always, reason = "the width of a row is known where it is called")]
#[inline(always)]
fn step(z: &[f64], rho: Pair, gain: Pair, guess: &mut [Pair], new: &mut [Pair]) {
    let kept: Pair = from_fn(|l| rho[l] * (1.0 - gain[l]));
    let taken: Pair = from_fn(|l| rho[l] * gain[l]);
    for ((new, guess), z) in new.iter_mut().zip(guess).zip(z) {
        *new = from_fn(|l| z - guess[l]);
        *guess = from_fn(|l| kept[l] * guess[l] + taken[l] * z);
    }
}

/// Adds the upper triangle of `scale` new new'.
#[expect(clippy::inline_always, reason = "the width of a row is known where it is called")]
#[inline(always)]
fn add_square<Row: AsMut<[Pair]>>(new: &[Pair], scale: Pair, sum: &mut [Row]) {
    for j in 0..new.len() {
        let scaled: Pair = from_fn(|l| scale[l] * new[j][l]);
        let row = sum[j].as_mut();
        for k in j..new.len() {
            row[k] = from_fn(|l| row[k][l] + scaled[l] * new[k][l]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The definition, with the matrix Omega written out: two errors at once, of which one settles long before the other,
    /// and rows of a width the compiler knows and of one it does not.
    #[test]
    fn both_errors_are_whitened_as_by_the_dense_matrix() {
        let pair = [Errors { theta: 0.2, white: 0.0 }, Errors { theta: 2.5, white: 0.05 }];
        let n = 60;
        let z = DMatrix::from_fn(n, 3, |i, j| libm::sin((i * (j + 2) + j) as f64 * 0.7));
        let rows: Vec<[f64; 3]> = (0..n).map(|i| from_fn(|j| z[(i, j)])).collect();
        let slices: Vec<&[f64]> = rows.iter().map(|row| &row[..]).collect();
        let zero = [0.0; 2];
        let known = filter(&rows, pair, [zero; 3], [[zero; 3]; 3]);
        let unknown = filter(&slices, pair, vec![zero; 3], vec![vec![zero; 3]; 3]);
        for ((errors, known), unknown) in pair.into_iter().zip(known).zip(unknown) {
            let together = |i: usize, j: usize| (1.0 - errors.white) * libm::pow(errors.rho(), i.abs_diff(j) as f64);
            let omega = DMatrix::from_fn(n, n, |i, j| together(i, j) + if i == j { errors.white } else { 0.0 });
            let cholesky = omega.cholesky().expect("positive definite");
            let dense = z.transpose() * cholesky.solve(&z);
            let ln_omega = 2.0 * cholesky.l().diagonal().map(log).sum();
            for (found, ln) in [known, unknown] {
                assert!((found - &dense).amax() < 1e-9 * dense.amax() && (ln - ln_omega).abs() < 1e-9);
            }
        }
    }
}
