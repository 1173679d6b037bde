//! The least value of a smooth function of two variables over a rectangle, by Newton's method on differences.

use nalgebra::{Matrix2, Vector2};

/// Two points tried at once.
type Points = [Vector2<f64>; 2];

/// Where to look, and how finely.
pub(super) struct Search {
    /// Corner of the least values.
    pub low: Vector2<f64>,
    /// Corner of the greatest values.
    pub high: Vector2<f64>,
    /// Steps of the differences, well below the distance over which the curvature changes. The function is evaluated
    /// that far outside the rectangle.
    pub difference: Vector2<f64>,
    /// Longest step in each variable.
    pub longest: Vector2<f64>,
    /// Gain below which a step is the last.
    pub gain: f64,
    /// Steps after which the search keeps what it has.
    pub most: usize,
}

impl Search {
    /// The point of least value that a descent from `start` leads to, and the value.
    ///
    /// Where the function is not convex the curvature's eigenvalues are taken without their signs, so that a step still
    /// leads downhill (Dauphin et al. 2014, arXiv:1406.2572); a step that does not is halved. A variable at an edge stays
    /// there while the function falls outwards.
    /// `f` gives the values of two points, which it may work out together.
    pub(super) fn descend(&self, mut f: impl FnMut(Points) -> [f64; 2], start: Vector2<f64>) -> (Vector2<f64>, f64) {
        let (mut here, mut least) = (start, f([start; 2])[0]);
        for _ in 0..self.most {
            let (slope, bend) = self.shape(&mut f, here, least);
            let step = self.step(here, slope, bend);
            let expected = -0.5 * slope.dot(&step);
            let mut tried = [1.0, 0.25, 0.0625].into_iter().flat_map(|k| {
                let pair = [k, 0.5 * k].map(|k| self.inside(here + step * k));
                pair.into_iter().zip(f(pair))
            });
            let Some(next) = tried.find(|(_, value)| *value < least) else { break };
            (here, least) = next;
            if expected < self.gain {
                break;
            }
        }
        (here, least)
    }

    fn inside(&self, point: Vector2<f64>) -> Vector2<f64> {
        point.sup(&self.low).inf(&self.high)
    }

    /// Gradient and Hessian by central differences, the mixed part by a forward one.
    fn shape(
        &self,
        f: &mut impl FnMut(Points) -> [f64; 2],
        at: Vector2<f64>,
        value: f64,
    ) -> (Vector2<f64>, Matrix2<f64>) {
        let h = self.difference;
        let (x, y) = (Vector2::new(h.x, 0.0), Vector2::new(0.0, h.y));
        let mut off = |a, b| f([at + a, at + b]).map(|v| v - value);
        let ([right, left], [up, down], [both, _]) = (off(x, -x), off(y, -y), off(x + y, x + y));
        let mixed = (both - right - up) / (h.x * h.y);
        let slope = Vector2::new((right - left) / (2.0 * h.x), (up - down) / (2.0 * h.y));
        let bend = Matrix2::new((right + left) / (h.x * h.x), mixed, mixed, (up + down) / (h.y * h.y));
        (slope, bend)
    }

    /// Newton's step over the variables not held at an edge, no longer than allowed.
    fn step(&self, at: Vector2<f64>, mut slope: Vector2<f64>, mut bend: Matrix2<f64>) -> Vector2<f64> {
        for i in 0..2 {
            if (at[i] <= self.low[i] && slope[i] > 0.0) || (at[i] >= self.high[i] && slope[i] < 0.0) {
                slope[i] = 0.0;
                (bend[(0, 1)], bend[(1, 0)]) = (0.0, 0.0);
            }
        }
        let mut eigen = bend.symmetric_eigen();
        let floor = 1e-6 * eigen.eigenvalues.amax().max(f64::MIN_POSITIVE);
        eigen.eigenvalues.apply(|l| *l = 1.0 / l.abs().max(floor));
        let step = -(eigen.recompose() * slope);
        let excess = step.component_div(&self.longest).amax();
        if excess > 1.0 { step / excess } else { step }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn search(high: f64) -> Search {
        Search {
            low: Vector2::new(-2.0, -2.0),
            high: Vector2::new(high, 4.0),
            difference: Vector2::new(1e-3, 1e-3),
            longest: Vector2::new(0.5, 0.5),
            gain: 1e-12,
            most: 50,
        }
    }

    /// Rosenbrock 1960, Computer J. 3:175: a curved valley, least value 0 at (1, 1).
    #[test]
    fn a_curved_valley_is_followed_to_its_end() {
        let f = |p: Vector2<f64>| 100.0 * (p.y - p.x * p.x).powi(2) + (1.0 - p.x).powi(2);
        let (at, value) = search(4.0).descend(|p| p.map(f), Vector2::new(-1.2, 1.0));
        assert!((at - Vector2::new(1.0, 1.0)).amax() < 1e-3 && value < 1e-6, "{at} {value}");
    }

    #[test]
    fn at_an_edge_the_other_variable_goes_on() {
        let f = |p: Vector2<f64>| (p.x - 3.0).powi(2) + (p.y - 1.0).powi(2) + p.x * p.y;
        let (at, _) = search(1.0).descend(|p| p.map(f), Vector2::new(0.0, 0.0));
        assert!((at - Vector2::new(1.0, 0.5)).amax() < 1e-6, "{at}");
    }

    /// A saddle at the start, minima of -1 at x = +/-1 and y = 0.
    #[test]
    fn a_saddle_is_left_behind() {
        let f = |p: Vector2<f64>| p.x.powi(4) - 2.0 * p.x * p.x + p.y * p.y;
        let (at, value) = search(4.0).descend(|p| p.map(f), Vector2::new(0.1, 0.5));
        assert!((at.x - 1.0).abs() < 1e-4 && (value + 1.0).abs() < 1e-6, "{at} {value}");
    }
}
