//! Draws of a world: from ranges, at their ends, and mirrored about their middle.

use super::spec::Place;
use crate::stream::{normal, stream};
use rand::RngExt;
use rand_pcg::Pcg64;

/// Lower and upper end.
pub(super) type Range = (f64, f64);

/// A stream of draws.
pub(super) struct Draws {
    rng: Pcg64,
    place: Place,
    mirrored: bool,
}

impl Draws {
    /// The draws of a label. Mirrored draws lie as far on the other side of the middle of each range.
    pub(super) fn new(seed: u64, label: &str, place: Place, mirrored: bool) -> Self {
        Self { rng: stream(seed, label), place, mirrored }
    }

    /// Anywhere in a range.
    pub(super) fn between(&mut self, (low, high): Range) -> f64 {
        let x = self.rng.random_range(low..high);
        if self.mirrored { low + high - x } else { x }
    }

    /// The true value of an input that nobody recorded: anywhere in its range, or at one end of it.
    pub(super) fn unrecorded(&mut self, range: Range) -> f64 {
        let inside = self.between(range);
        match self.place {
            Place::Inside => inside,
            Place::Edge if inside < f64::midpoint(range.0, range.1) => range.0,
            Place::Edge => range.1,
        }
    }

    /// One burn's share where a habit is known: it scatters by a seventh of the range about the habit and stays within it.
    /// At an end it stays there.
    pub(super) fn about(&mut self, habit: f64, range: Range) -> f64 {
        let scatter = self.normal() * (range.1 - range.0) / 7.0;
        match self.place {
            Place::Inside => (habit + scatter).clamp(range.0, range.1),
            Place::Edge => habit,
        }
    }

    /// A standard normal draw.
    pub(super) fn normal(&mut self) -> f64 {
        let z = normal(&mut self.rng);
        if self.mirrored { -z } else { z }
    }

    /// A whole number below another.
    pub(super) fn below(&mut self, count: usize) -> usize {
        self.rng.random_range(0..count)
    }
}
