//! Comparison by a linear mixed model: levels of the factor with other factors, covariates and blocks held constant.
//!
//! Trial values (their logarithms for ratios) = fixed effects of factor, adjusting factors and covariates + random intercept
//! of the block + scatter, by REML. Levels are compared by their marginal means (other factors weighted equally, covariates
//! at their mean) with Kenward-Roger uncertainty, all pairs at once by the studentized range (Tukey-Kramer form).
//!
//! The model sees scatter only. Every mean and contrast is a sum of w x over the trials, so an error that trials share adds
//! the sum of w times its parts: undiminished in a mean, cancelling by itself in a difference. u^2 = u_model^2 + sum over
//! shared sources of part^2, degrees of freedom by [`cautious_dof`].

use super::frame::Frame;
use super::level_scatter::LevelScatter;
use super::outcome::{Depth, LevelMean, PairTest, Question};
use super::scatter::scatter_source;
use crate::result::{Adjustment, ContrastKind, FitFailure, Method, ModelDescription, Remark};
use calefact_stats::contrast::{Contrast as Test, ContrastKind as TestKind, cautious_dof};
use calefact_stats::dist::t_quantile;
use calefact_stats::mixed::{MixedError, MixedFit};
use calefact_stats::power::Arm;
use calefact_stats::{Interval, Source, SourceInfo, UncertainValue, tukey};

/// A fitted model of one quantity.
#[derive(Debug)]
pub(crate) struct Model<'f, 't> {
    pub(super) question: Question<'f>,
    pub(super) frame: &'f Frame<'t>,
    fit: MixedFit,
    /// Fit of the logarithms, where all values are above zero.
    log: Option<MixedFit>,
    /// Scatter by level, of the values and of their logarithms, where levels differ in size.
    by_level: Option<LevelScatter>,
    log_by_level: Option<LevelScatter>,
    blocked: bool,
}

/// A tested combination of the fixed effects.
pub(super) struct Tested {
    pub(super) test: Test,
    /// Uncertainty by the model alone, and its degrees of freedom.
    own: (f64, f64),
    pub(super) shared: Vec<(Source, f64)>,
}

impl<'f, 't> Model<'f, 't> {
    /// Fits the model; logarithms only for [`Depth::Full`].
    ///
    /// # Errors
    /// Why the model cannot be fitted.
    pub(crate) fn fit(question: Question<'f>, frame: &'f Frame<'t>, depth: Depth) -> Result<Self, FitFailure> {
        let y = frame.sample.bare();
        let blocks = frame.blocks.as_ref().map(|(_, codes)| codes.as_slice());
        let least_squares = || MixedFit::new(&y, &frame.matrix, None);
        let (fit, blocked) = match MixedFit::new(&y, &frame.matrix, blocks) {
            Err(MixedError::NotConverged) if blocks.is_some() => (least_squares(), false),
            other => (other, blocks.is_some()),
        };
        let fit = fit.map_err(failure)?;
        let positive = depth == Depth::Full && !frame.numeric && y.iter().all(|v| *v > 0.0);
        let logs: Vec<f64> = y.iter().map(|v| libm::log(*v)).collect();
        let log = positive.then(|| MixedFit::new(&logs, &frame.matrix, blocks.filter(|_| blocked)).ok());
        let log = log.flatten();
        let of_levels = |y: &[f64], fit: &MixedFit| {
            let level_of = frame.level_of().filter(|_| fit.block_variance == 0.0)?;
            let (residuals, leverage) = frame.residuals(y);
            LevelScatter::new(&residuals, &leverage, fit.total_variance(), level_of)
        };
        let (by_level, log_by_level) = (of_levels(&y, &fit), log.as_ref().and_then(|log| of_levels(&logs, log)));
        Ok(Self { question, frame, fit, log, by_level, log_by_level, blocked })
    }

    /// A remark on blocks that were left out.
    pub(crate) fn remark(&self) -> Option<Remark> {
        let (block, _) = self.frame.blocks.as_ref().filter(|_| !self.blocked)?;
        Some(Remark::BlockLeftOut { quantity: self.frame.sample.quantity, block: block.clone() })
    }

    /// Tests l' beta = 0 with shared errors.
    pub(super) fn test(&self, l: &[f64], kind: TestKind) -> Option<Tested> {
        self.tested(l, kind, None)
    }

    /// The same of a mean of levels or a difference between them: where levels may scatter differently, by their own scatter if
    /// that leaves more doubt.
    fn test_of_levels(&self, l: &[f64], kind: TestKind) -> Option<Tested> {
        self.tested(l, kind, if kind == TestKind::Ratio { self.log_by_level.as_ref() } else { self.by_level.as_ref() })
    }

    fn tested(&self, l: &[f64], kind: TestKind, by_level: Option<&LevelScatter>) -> Option<Tested> {
        let sample = &self.frame.sample;
        let ratio = kind == TestKind::Ratio;
        let fit = if ratio { self.log.as_ref()? } else { &self.fit };
        let confidence = self.question.confidence;
        let found = fit.contrast(l, kind, confidence).ok()?;
        let dof = if found.dof.is_finite() { found.dof.max(1.0) } else { (sample.len() - self.frame.effects()) as f64 };
        let weights = fit.weights(l);
        let common = (found.effect_uncertainty, dof);
        let own = by_level.map_or(common, |by_level| by_level.wider(common, &weights));
        let scale = |i: usize, w: f64| if ratio { w / sample.values[i].value } else { w };
        let weighted = weights.into_iter().enumerate().map(|(i, w)| (sample.values[i], scale(i, w)));
        let shared = self.question.shared.combined(weighted);
        let book = self.question.shared.book();
        let known = shared.iter().map(|(s, p)| (*p, book.get(s).map_or(f64::INFINITY, |info| info.dof)));
        let dof = cautious_dof(known.chain([own]));
        let squares: f64 = shared.iter().map(|(_, p)| p * p).sum();
        let u = (own.0 * own.0 + squares).sqrt();
        let test = Test::new(kind, found.effect, u, dof, confidence);
        Some(Tested { test, own, shared })
    }

    /// Marginal means of the levels; none when one cannot be estimated.
    pub(crate) fn means(&self) -> Option<Vec<LevelMean>> {
        let levels = self.frame.rows().into_iter().zip(&self.frame.levels).enumerate();
        levels.map(|(at, (row, level))| self.mean(&row, (at, level))).collect()
    }

    fn mean(&self, row: &[f64], (at, level): (usize, &str)) -> Option<LevelMean> {
        let sample = &self.frame.sample;
        let Tested { test, own, shared } = self.test_of_levels(&self.frame.estimable(row)?, TestKind::Difference)?;
        let rows = sample.rows_of(level);
        let source = scatter_source(self.question.request, sample.quantity, level);
        let (variance, dof) = self.fit.total_variance();
        let common = (variance.sqrt(), dof.max(1.0));
        let (sd, sd_dof) = self.by_level.as_ref().map_or(common, |by_level| by_level.wider_of_level(common, at));
        let known = shared.iter().map(|(_, p)| p * p).sum::<f64>().sqrt();
        let value = UncertainValue { value: test.effect, parts: shared }.with(source.clone(), own.0);
        let spread = libm::hypot(sd, own.0);
        let dof = cautious_dof([(spread, sd_dof), (known, f64::INFINITY)]);
        let half = t_quantile(0.5 + 0.5 * self.question.confidence, dof) * libm::hypot(spread, known);
        let (lower, upper) = (test.effect - half, test.effect + half);
        Some(LevelMean {
            level: level.to_owned(),
            trials: sample.ids(&rows),
            value,
            dof: test.dof,
            sd: Some(sd),
            sd_interval: None,
            predict: Some(Interval { lower, upper, confidence: self.question.confidence }),
            method: Method::MarginalMean(self.describe(&self.fit)),
            scatter: Some((source, SourceInfo::scatter(own.1))),
        })
    }

    /// All pairs: differences, then ratios where all values are above zero; none when one cannot be estimated.
    pub(crate) fn pairs(&self, depth: Depth) -> Option<Vec<PairTest>> {
        let rows = self.frame.rows();
        let mut kinds = vec![ContrastKind::Difference];
        if self.log.is_some() {
            kinds.push(ContrastKind::Ratio);
        }
        let indices = |k: usize| (0..k).flat_map(move |a| (a + 1..k).map(move |b| (a, b)));
        let all = kinds.iter().flat_map(|kind| indices(rows.len()).map(move |pair| (*kind, pair)));
        all.map(|(kind, (a, b))| self.pair((a, b), &rows, kind, depth)).collect()
    }

    fn pair(&self, (a, b): (usize, usize), rows: &[Vec<f64>], kind: ContrastKind, depth: Depth) -> Option<PairTest> {
        let row = super::frame::difference(&rows[a], &rows[b]);
        let Tested { test, own, shared } = self.test_of_levels(&self.frame.estimable(&row)?, kind.into())?;
        let fit = self.log.as_ref().filter(|_| kind == ContrastKind::Ratio).unwrap_or(&self.fit);
        let n = |i: usize| self.frame.sample.rows_of(&self.frame.levels[i]).len();
        let (na, nb) = (n(a), n(b));
        // The scatter of single trials that would give the model's uncertainty without adjustment.
        let sd = own.0 / (1.0 / na as f64 + 1.0 / nb as f64).sqrt();
        let (p_adjusted, interval) = judged(&test, rows.len(), self.question.confidence, depth);
        Some(PairTest {
            a,
            b,
            kind,
            test,
            p_adjusted,
            early: false,
            interval,
            arms: (Arm { n: na, sd }, Arm { n: nb, sd }),
            shared,
            adjustment: Adjustment::TukeyKramer,
            method: Method::Contrast(self.describe(fit)),
            confounded: Vec::new(),
        })
    }

    /// Columns held constant, and blocks, as far as the fit has them.
    fn describe(&self, fit: &MixedFit) -> ModelDescription {
        let block = self.frame.blocks.as_ref().filter(|_| self.blocked).map(|(name, _)| name.clone());
        let blocks_alike = block.is_some() && fit.block_variance == 0.0;
        ModelDescription { adjusted_for: self.frame.held(), block, blocks_alike }
    }
}

/// Why a fit failed, as far as a reader can act on it.
fn failure(error: MixedError) -> FitFailure {
    match error {
        MixedError::NoScatter => FitFailure::NoScatter,
        MixedError::NotConverged => FitFailure::NotConverged,
        MixedError::Sizes | MixedError::RankDeficient => FitFailure::EffectsNotEstimable,
    }
}

/// Adjusted p and simultaneous interval; the interval costs more and is left pointwise where only verdicts are wanted.
fn judged(test: &Test, k: usize, confidence: f64, depth: Depth) -> (f64, Interval) {
    if k == 2 {
        return (test.p_value, test.interval);
    }
    let interval = match depth {
        Depth::Verdicts => test.interval,
        Depth::Full => tukey::simultaneous_interval(test, k, confidence),
    };
    (tukey::adjusted_p(test, k), interval)
}
