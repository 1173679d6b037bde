//! Instruments: limits of error from the sheet, one draw per instrument, resolution and noise.

use crate::stream::{normal, stream};
use calefact_data::apparatus::{Instrument, Tolerance};
use rand::RngExt;
use rand_pcg::Pcg64;

/// An instrument of the scenario.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct InstrumentModel {
    /// Id.
    pub(crate) id: String,
    /// Entry of the dataset; its tolerance is what the error is drawn from.
    pub(crate) entry: Instrument,
    /// Standard deviation of the noise from reading to reading, SI unit of the column.
    pub(crate) noise_sd: f64,
    /// Lag-one correlation of the noise between rows, 0 to 1.
    pub(crate) noise_phi: f64,
    /// Whether each error lies at its limit, on either side, in place of anywhere within it.
    pub(crate) at_limit: bool,
}

/// An instrument in hand: its errors are fixed for good, whichever trial it reads.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Reading {
    parts: Vec<(f64, Tolerance)>,
    resolution: f64,
    noise_sd: f64,
    phi: f64,
}

impl InstrumentModel {
    /// Draws the instrument's errors: for each limit a number from -1 to 1 (rectangular), or a normal one where a
    /// standard uncertainty is stated.
    pub(crate) fn draw(&self, seed: u64) -> Reading {
        let mut rng = stream(seed, &format!("instrument/{}", self.id));
        let parts = self.entry.tolerance.iter().map(|&limit| (self.unit_draw(limit, &mut rng), limit)).collect();
        let resolution = self.entry.resolution.unwrap_or(0.0);
        Reading { parts, resolution, noise_sd: self.noise_sd, phi: self.noise_phi }
    }

    fn unit_draw(&self, limit: Tolerance, rng: &mut Pcg64) -> f64 {
        match limit {
            Tolerance::Standard(_) => normal(rng),
            _ if self.at_limit => rng.random_range(-1.0_f64..1.0).signum(),
            _ => rng.random_range(-1.0..1.0),
        }
    }
}

/// Limit of error at a true value, SI unit of the column.
fn limit_at(limit: Tolerance, value: f64) -> f64 {
    match limit {
        Tolerance::Absolute(a) | Tolerance::Standard(a) => a,
        Tolerance::OfReading(f) => f * value.abs(),
        Tolerance::GreaterOf(a, f) => a.max(f * value.abs()),
        Tolerance::SumOf(a, f) => f.mul_add(value.abs(), a),
    }
}

impl Reading {
    /// An instrument without error.
    pub(crate) const fn perfect() -> Self {
        Self { parts: Vec::new(), resolution: 0.0, noise_sd: 0.0, phi: 0.0 }
    }

    /// Error of the instrument at a true value.
    pub(crate) fn error(&self, value: f64) -> f64 {
        self.parts.iter().map(|&(u, limit)| u * limit_at(limit, value)).sum()
    }

    /// Its reading of one true value.
    pub(crate) fn show(&self, value: f64, rng: &mut Pcg64) -> f64 {
        self.round(normal(rng).mul_add(self.noise_sd, value + self.error(value)))
    }

    /// Its readings row by row; the noise is a first-order autoregressive series of the stated standard deviation.
    pub(crate) fn show_all(&self, values: &[f64], rng: &mut Pcg64) -> Vec<f64> {
        let step = self.noise_sd * self.phi.mul_add(-self.phi, 1.0).sqrt();
        let mut noise = self.noise_sd * normal(rng);
        let shown = |&value: &f64| {
            let now = self.round(value + self.error(value) + noise);
            noise = self.phi.mul_add(noise, step * normal(rng));
            now
        };
        values.iter().map(shown).collect()
    }

    fn round(&self, value: f64) -> f64 {
        if self.resolution > 0.0 { (value / self.resolution).round() * self.resolution } else { value }
    }
}
