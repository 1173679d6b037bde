//! Distribution of the range of k standard normal values: upper tail R(w) = k times the integral of
//! phi(z) [Phi(z)^n - (Phi(z) - Phi(z - w))^n] dz, n = k - 1, z the largest of them.
//!
//! The integral is done by the trapezoidal rule, as that of the studentized range. A comparison asks for it many thousand times, so
//! ln R is interpolated in a table that is made once for each k.

use super::normal::{normal_cdf, normal_pdf};
use libm::{erfc, exp, expm1, log, log1p};
use std::sync::OnceLock;

/// Up to so many values the terms of the integral are summed.
const FEW: usize = 10;

/// Up to so many values a table is kept.
const MOST: usize = 64;

/// The tables, by the number of values.
static TABLES: [OnceLock<Table>; MOST + 1] = [const { OnceLock::new() }; MOST + 1];

/// The range of k standard normal values.
pub(super) enum NormalRange<'t> {
    /// By the integral.
    Integral(Integral),
    /// By interpolation.
    Table(&'t Table),
}

impl NormalRange<'_> {
    /// Gives the range of `k` values to `use_it`.
    pub(super) fn with<T>(k: usize, use_it: impl FnOnce(&NormalRange<'_>) -> T) -> T {
        match TABLES.get(k).filter(|_| k > 2) {
            Some(table) => use_it(&NormalRange::Table(table.get_or_init(|| Table::new(k)))),
            None => use_it(&NormalRange::Integral(Integral::new(k))),
        }
    }

    /// R(w), the probability of a range above `w`.
    pub(super) fn sf(&self, w: f64) -> f64 {
        match self {
            Self::Integral(integral) => integral.sf(w),
            Self::Table(table) => table.sf(w),
        }
    }
}

/// The integral over the largest value.
pub(super) struct Integral {
    /// k - 1.
    others: usize,
    points: Vec<Point>,
}

/// A point z of the integral.
struct Point {
    z: f64,
    /// k phi(z) dz.
    weight: f64,
    /// Phi(-z).
    above: f64,
    /// Phi(z).
    below: f64,
}

/// Points reach this far: two values far apart lie half of it out on either side.
const EXTENT: f64 = 13.0;

impl Integral {
    fn new(k: usize) -> Self {
        let n = k as f64;
        let step = 0.5 / n.sqrt().max(2.0);
        let count = (EXTENT / step).ceil() as i32;
        let point = |i: i32| {
            let z = f64::from(i) * step;
            Point { z, weight: n * step * normal_pdf(z), above: normal_cdf(-z), below: normal_cdf(z) }
        };
        Self { others: k - 1, points: (-count..=count).map(point).collect() }
    }

    fn sf(&self, w: f64) -> f64 {
        if self.others == 1 {
            // The difference of two values has twice their variance.
            return erfc(0.5 * w);
        }
        let term = |point: &Point| if self.others < FEW { self.summed(point, w) } else { self.powers(point, w) };
        self.points.iter().map(term).sum::<f64>().min(1.0)
    }

    /// a^n - b^n without cancellation, a = Phi(z), b = Phi(z) - Phi(z - w): (a - b) times the sum of a^i b^(n-1-i).
    fn summed(&self, &Point { z, weight, above, below }: &Point, w: f64) -> f64 {
        let beyond = normal_cdf(z - w);
        let between = if z > w { normal_cdf(w - z) - above } else { below - beyond };
        let (mut mixed, mut power) = (0.0, 1.0);
        for _ in 0..self.others {
            (mixed, power) = (mixed * between + power, power * below);
        }
        weight * beyond * mixed
    }

    /// The same in a time that does not grow with n: a^n (1 - exp(n ln(1 - (a - b) / a))).
    fn powers(&self, &Point { z, weight, below, .. }: &Point, w: f64) -> f64 {
        let n = self.others as f64;
        let whole = weight * exp(n * log(below));
        // Nothing beside the largest term, whose weight is near k.
        if whole < 1e-250 { 0.0 } else { -whole * expm1(n * log1p(-normal_cdf(z - w) / below)) }
    }
}

/// ln R at equal steps of w, up to where R leaves the normal floats.
pub(super) struct Table {
    logs: Vec<f64>,
}

/// Steps for each unit of w: ln R is analytic up to the complex zeros of R, of which the nearest are about 1.3 away.
const STEPS: f64 = 16.0;

/// Beyond this w nothing is left of R.
const END: f64 = 55.0;

/// ln of the least R that has all its digits.
const LEAST: f64 = -708.0;

/// Points of the interpolation.
const POINTS: usize = 12;

/// Weights of equally spaced points: the binomial coefficients of POINTS - 1 with alternating signs.
const WEIGHTS: [f64; POINTS] = [1.0, -11.0, 55.0, -165.0, 330.0, -462.0, 462.0, -330.0, 165.0, -55.0, 11.0, -1.0];

impl Table {
    fn new(k: usize) -> Self {
        let integral = Integral::new(k);
        let log_at = |i: usize| log(integral.sf(i as f64 / STEPS));
        let logs = (0..=(END * STEPS) as usize).map(log_at).take_while(|log| *log > LEAST);
        Self { logs: logs.collect() }
    }

    /// By the polynomial through the points around w in its barycentric form (Berrut & Trefethen 2004, SIAM Review 46:501);
    /// relative error about 1e-12.
    fn sf(&self, w: f64) -> f64 {
        let x = w * STEPS;
        if x >= (self.logs.len() - 1) as f64 {
            return 0.0;
        }
        let first = (x as usize + 1).saturating_sub(POINTS / 2).min(self.logs.len() - POINTS);
        let around = self.logs[first..first + POINTS].iter().zip(WEIGHTS).zip(first..);
        let (mut above, mut below) = (0.0, 0.0);
        for ((&log, weight), i) in around {
            let distance = x - i as f64;
            if distance == 0.0 {
                return exp(log);
            }
            let share = weight / distance;
            (above, below) = (above + share * log, below + share);
        }
        exp(above / below).min(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64, relative: f64) {
        assert!((a / b - 1.0).abs() < relative || (a == 0.0 && b < 1e-306), "{a} {b}");
    }

    #[test]
    fn powers_are_the_sum() {
        for k in [3, 11, 40] {
            let integral = Integral::new(k);
            for w in [0.5, 3.0, 8.0, 20.0] {
                let sum = |f: &dyn Fn(&Point) -> f64| integral.points.iter().map(f).sum::<f64>();
                close(sum(&|p| integral.powers(p, w)), sum(&|p| integral.summed(p, w)), 1e-12);
            }
        }
    }

    #[test]
    fn the_table_is_the_integral() {
        for k in [3, 4, 7, 10, 11, 30, 64] {
            let integral = Integral::new(k);
            let table = Table::new(k);
            for i in 0..1000_u32 {
                let w = f64::from(i) * 0.0503;
                close(table.sf(w), integral.sf(w), 1e-11);
            }
        }
    }
}
