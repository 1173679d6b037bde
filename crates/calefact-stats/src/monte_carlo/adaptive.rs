//! The adaptive procedure of JCGM 101:2008, 7.9: blocks of draws until the wanted digits stand still.

use super::draws::DrawsBySource;
use super::interval::{shortest, sort_tails, symmetric};
use super::validate::numerical_tolerance;
use crate::estimate::Interval;
use crate::uncertain_value::{ErrorSources, UncertainValue};
use crate::univariate::{mean, mean_and_deviation, standard_deviation};

/// How a Monte Carlo run is done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct McSettings {
    /// Coverage probability of the intervals.
    pub confidence: f64,
    /// Significant digits of the standard uncertainty that must stand still (one or two).
    pub digits: u8,
    /// Draws in a block; at least max(100/(1-p), 10^4) is used, as 7.9.4 b asks.
    pub block: usize,
    /// Draws after which the run stops unconverged.
    pub max_trials: usize,
    /// Seed of all streams.
    pub seed: u64,
}

impl Default for McSettings {
    fn default() -> Self {
        Self { confidence: 0.95, digits: 2, block: 10_000, max_trials: 2_000_000, seed: 1 }
    }
}

/// Draws below which too few lie beyond an interval, 100/(1 - p) (JCGM 101:2008, 7.9.4 b); an error of rounding adds none.
pub fn least_draws(confidence: f64) -> usize {
    (100.0 / (1.0 - confidence) * (1.0 - 1e-9)).ceil() as usize
}

/// Result of a Monte Carlo run for one output.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct McResult {
    /// Mean of the draws.
    pub value: f64,
    /// Standard deviation of the draws.
    pub std_uncertainty: f64,
    /// Shortest coverage interval.
    pub interval: Interval,
    /// Draws made.
    pub trials: usize,
    /// Draws at which the output was not defined; they are left out of all of the above.
    pub undefined: usize,
    /// Whether twice the standard deviation of the averages over blocks of value, uncertainty and both ends of the
    /// symmetric and the shortest interval fell below the tolerance of the wanted digits.
    pub converged: bool,
}

/// Draws of one output and the estimates of each block: value, uncertainty, and the ends of both intervals.
#[derive(Default)]
struct Output {
    draws: Vec<f64>,
    blocks: Vec<[f64; 6]>,
    undefined: usize,
}

/// Monte Carlo runs with one seed, in which a source has the same errors wherever it has a part.
#[derive(Debug)]
pub struct MonteCarlo {
    settings: McSettings,
    draws: DrawsBySource,
    block: usize,
}

impl MonteCarlo {
    /// Runs by these settings.
    pub fn new(settings: McSettings) -> Self {
        let block = settings.block.max(10_000).max(least_draws(settings.confidence));
        Self { settings, draws: DrawsBySource::new(settings.seed, block), block }
    }

    /// How the runs are done.
    pub const fn settings(&self) -> &McSettings {
        &self.settings
    }

    /// Propagates the distributions of all sources through `model`, which has so many outputs.
    ///
    /// Blocks are added until every output has converged or `max_trials` is reached. The model is given the inputs in order
    /// and the places of its outputs; one that is not defined there is NaN.
    pub fn run(
        &self,
        inputs: &[UncertainValue],
        book: &ErrorSources,
        outputs: usize,
        mut model: impl FnMut(&[f64], &mut [f64]),
    ) -> Vec<McResult> {
        let McSettings { confidence, digits, max_trials, .. } = self.settings;
        let (mut x, mut y) = (inputs.iter().map(|t| t.value).collect::<Vec<f64>>(), vec![0.0; outputs]);
        let uncertain: Vec<(usize, &UncertainValue)> =
            inputs.iter().enumerate().filter(|(_, t)| !t.parts.is_empty()).collect();
        let mut outputs: Vec<Output> = y.iter().map(|_| Output::default()).collect();
        for block in 0..(max_trials / self.block).max(1) {
            let draws = self.draws.block(inputs, book, block);
            let columns: Vec<(usize, Vec<f64>)> = uncertain.iter().map(|(i, t)| (*i, draws.sample(t))).collect();
            let mut fresh: Vec<Vec<f64>> = y.iter().map(|_| Vec::with_capacity(self.block)).collect();
            for r in 0..self.block {
                for (i, column) in &columns {
                    x[*i] = column[r];
                }
                model(&x, &mut y);
                fresh.iter_mut().zip(&y).for_each(|(f, y)| f.push(*y));
            }
            outputs.iter_mut().zip(fresh).for_each(|(o, f)| o.add(f, confidence));
            if outputs.iter().all(|o| o.converged(digits)) {
                break;
            }
        }
        outputs.into_iter().map(|o| o.finish(&self.settings)).collect()
    }
}

impl Output {
    fn add(&mut self, mut fresh: Vec<f64>, confidence: f64) {
        let made = fresh.len();
        fresh.retain(|y| y.is_finite());
        self.undefined += made - fresh.len();
        sort_tails(&mut fresh, confidence);
        let (s, t) = (symmetric(&fresh, confidence), shortest(&fresh, confidence));
        let (mean, deviation) = mean_and_deviation(&fresh);
        self.blocks.push([mean, deviation, s.lower, s.upper, t.lower, t.upper]);
        self.draws.append(&mut fresh);
    }

    /// 7.9.4 h-j: twice the standard deviation of each average over blocks is below the tolerance. An output that is never
    /// defined has nothing to wait for.
    fn converged(&self, digits: u8) -> bool {
        if self.draws.is_empty() {
            return true;
        }
        let h = self.blocks.len();
        let over_blocks = |k: usize| self.blocks.iter().map(|b| b[k]).collect::<Vec<f64>>();
        // Blocks are of one size and their means lie close together: their mean variance is that of all draws.
        let variance = mean(&over_blocks(1).iter().map(|u| u * u).collect::<Vec<f64>>());
        let tolerance = numerical_tolerance(variance.sqrt(), digits);
        let steady = |k: usize| 2.0 * standard_deviation(&over_blocks(k)) / (h as f64).sqrt() <= tolerance;
        h >= 2 && (0..6).all(steady)
    }

    fn finish(mut self, settings: &McSettings) -> McResult {
        let converged = !self.draws.is_empty() && self.converged(settings.digits);
        sort_tails(&mut self.draws, settings.confidence);
        let (value, std_uncertainty) = mean_and_deviation(&self.draws);
        McResult {
            value,
            std_uncertainty,
            interval: shortest(&self.draws, settings.confidence),
            trials: self.draws.len() + self.undefined,
            undefined: self.undefined,
            converged,
        }
    }
}
