//! Draws of a law: errors that burns share by their source, the scatter between burns by Student's t.

use crate::result::{Draw, LawParameter, Stretch};
use calefact_stats::monte_carlo::unit_draws;
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo};
use std::collections::BTreeMap;

/// Draws of each law.
pub const DRAWS: usize = 400;
/// Seed of all of them.
const SEED: u64 = 20_240_601;
/// Significant digits after the first that a draw keeps, so that it can be written down and read back as it is.
const DIGITS: usize = 5;

/// Parameters of the fire of one law or of what adds to it, in the order of [`LawParameter::ALL`].
pub(super) type Fire = [f64; LawParameter::OF_FIRE];

/// Unit draws of the sources of error, each source once, so that it is the same error wherever it has a part.
pub(super) struct SourceDraws<'b> {
    book: &'b ErrorSources,
    units: BTreeMap<Source, Vec<f64>>,
}

impl<'b> SourceDraws<'b> {
    /// None yet; what is known of the sources is in the book.
    pub(super) const fn new(book: &'b ErrorSources) -> Self {
        Self { book, units: BTreeMap::new() }
    }

    /// The draws of a source.
    pub(super) fn units(&mut self, source: &Source) -> &[f64] {
        let book = self.book;
        let draw = || unit_draws(source, book.get(source), SEED, DRAWS);
        self.units.entry(source.clone()).or_insert_with(draw)
    }
}

/// Draws under a name, of a shape.
pub(super) fn units_of(name: &str, shape: Shape, dof: f64) -> Vec<f64> {
    unit_draws(name, Some(&SourceInfo { shared: true, dof, shape }), SEED, DRAWS)
}

/// Scatter between burns: how far burns lie from the mean of their combination, and the degrees of freedom of that.
#[derive(Debug, Clone, Default)]
pub(super) struct Scatter {
    /// Burn less mean.
    pub(super) residuals: Vec<Fire>,
    /// Burns less means.
    pub(super) dof: f64,
}

impl Scatter {
    /// Two independent sets of draws of the scatter about a mean, with one draw of its size in common. With normal u,
    /// sum of u_i r_i / sqrt(dof) has the covariance of the residuals r; times the square root of dof over chi-squared with
    /// as many degrees of freedom, whatever is straight in the parameters has Student's t (multivariate t: K. T. Fang, S. Kotz
    /// and K. W. Ng, 1990, from memory).
    pub(super) fn draws(&self, name: &str) -> [Vec<Fire>; 2] {
        let size = chi_draws(&format!("{name}:size"), self.dof);
        let set = |number: usize| {
            let mut out = vec![Fire::default(); DRAWS];
            for (i, residual) in self.residuals.iter().enumerate() {
                let units = units_of(&format!("{name}:{number}:{i}"), Shape::Normal, f64::INFINITY);
                for (draw, (unit, size)) in out.iter_mut().zip(units.iter().zip(&size)) {
                    add(draw, residual, unit * size / self.dof.sqrt());
                }
            }
            out
        };
        [set(0), set(1)]
    }
}

/// Draws of sqrt(dof / chi-squared(dof)): t over a normal draw would share it, so it is made from the sum of squares.
fn chi_draws(name: &str, dof: f64) -> Vec<f64> {
    let mut squares = vec![0.0; DRAWS];
    for i in 0..dof.round() as usize {
        let units = units_of(&format!("{name}:{i}"), Shape::Normal, f64::INFINITY);
        squares.iter_mut().zip(units).for_each(|(sum, unit)| *sum += unit * unit);
    }
    squares.into_iter().map(|sum| (dof.round() / sum).sqrt()).collect()
}

/// Adds so many times a part to parameters.
pub(super) fn add(to: &mut Fire, part: &Fire, times: f64) {
    to.iter_mut().zip(part).for_each(|(x, p)| *x += times * p);
}

/// The draw that parameters of the fire stand for, to the digits that are kept.
pub(super) fn draw(fire: &Fire) -> Draw {
    let [power, fixed, burn_rate, moisture] = *fire;
    Draw {
        power: rounded(libm::exp(power)),
        fixed_s: rounded(fixed),
        burn_rate: rounded(libm::exp(burn_rate)),
        moisture: rounded(moisture),
    }
}

/// A number to the digits that are kept.
pub(super) fn rounded(x: f64) -> f64 {
    format!("{x:.DIGITS$e}").parse().unwrap_or(x)
}

/// Draws of the change beyond the data, the same for all combinations.
pub(super) fn stretch() -> Vec<Stretch> {
    let even = |name: &str| {
        let half = 3.0_f64.sqrt();
        units_of(name, Shape::Rectangular, f64::INFINITY).into_iter().map(move |u| u / half)
    };
    let all = even("stretch:power").zip(even("stretch:burn-rate")).zip(even("stretch:hot"));
    all.map(|((power, burn_rate), hot)| Stretch {
        power: rounded(power),
        burn_rate: rounded(burn_rate),
        hot: rounded(0.5 * (1.0 + hot)),
    })
    .collect()
}
