//! Comparing one quantity over some trials, by a model where one is called for.
//!
//! A pure function of trials and request, so that the same can be asked again without a trial, or with the excluded ones
//! put back.

use super::adjusted::Model;
use super::frame::{AliasedPair, Frame, Plain, Plan};
use super::outcome::{Depth, Outcome, Question};
use super::plan::Plan as TrialPlan;
use super::sample::Sample;
use super::{confounding, trend, unadjusted};
use crate::Quantity;
use crate::result::{NoAdjustment, Remark, TrialSummary};

/// Compares one quantity over `chosen` trials; `order` is the order of the levels.
pub fn analyse(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    quantity: Quantity,
    depth: Depth,
) -> Outcome {
    let sample = Sample::new(question.request, chosen, quantity);
    let plain = match Frame::plan(question.request, &sample, order) {
        Plan::Plain(plain) => plain,
        Plan::Model(frame) => match by_model(question, &sample, &frame, order, depth) {
            Ok(outcome) => return outcome.with_confounding(question, &frame.sample, &[]),
            Err(remark) => vec![remark].into(),
        },
    };
    let Plain { remarks, aliased } = plain;
    let (means, pairs) = unadjusted::analyse(question, &sample, order, depth);
    let odd = unadjusted::odd(&sample);
    let outcome =
        Outcome { quantity, means, pairs, slopes: Vec::new(), remarks, adjusted: false, held: Vec::new(), odd };
    outcome.with_confounding(question, &sample, &aliased)
}

impl Outcome {
    /// With the columns that no trial tells apart from a difference or from the trend along the factor.
    fn with_confounding(mut self, question: Question<'_>, sample: &Sample<'_>, aliased: &[AliasedPair]) -> Self {
        let factor = &question.request.factor;
        let held: Vec<&str> = self.held.iter().map(String::as_str).collect();
        for pair in &mut self.pairs {
            let levels = (self.means[pair.a].level.as_str(), self.means[pair.b].level.as_str());
            let mut found = confounding::between(sample, levels, factor, &held);
            let is_pair = |p: &&AliasedPair| (p.levels.0.as_str(), p.levels.1.as_str()) == levels;
            let new = aliased.iter().find(is_pair).map_or(&[][..], |p| &p.columns);
            let new: Vec<String> = new.iter().filter(|c| !found.iter().any(|f| f.column == **c)).cloned().collect();
            found.extend(confounding::named(sample, levels, &new));
            pair.confounded = found;
        }
        for slope in self.slopes.iter_mut().filter(|s| s.factor == *factor) {
            slope.confounded = confounding::along(sample, factor, &held);
        }
        if let Some(plan) = question.plan {
            self.follow(plan);
        }
        self
    }

    /// Charges the looks of a plan: a share of the error is a factor on p.
    fn follow(&mut self, plan: &TrialPlan) {
        let charged = |p: f64, share: f64| if share > 0.0 { (p / share).min(1.0) } else { 1.0 };
        for pair in &mut self.pairs {
            let look = plan.look([pair.a, pair.b].map(|i| self.means[i].level.as_str()));
            pair.p_adjusted = charged(pair.p_adjusted, look.share);
            pair.early = look.early;
        }
        let look = plan.look(self.means.iter().map(|m| m.level.as_str()));
        for slope in &mut self.slopes {
            slope.p_value = charged(slope.p_value, look.share);
        }
    }
}

/// The outcome by a model; a remark where it has none.
fn by_model(
    question: Question<'_>,
    sample: &Sample<'_>,
    frame: &Frame<'_>,
    order: &[String],
    depth: Depth,
) -> Result<Outcome, Remark> {
    let quantity = sample.quantity;
    let model = Model::fit(question, frame, depth).map_err(|reason| Remark::NoFit { quantity, reason })?;
    let (means, pairs) = if frame.numeric {
        (unadjusted::means(question, sample, order), Vec::new())
    } else {
        let unable = || super::frame::not_adjusted(question.request, NoAdjustment::NotEstimable(quantity));
        (model.means().ok_or_else(unable)?, model.pairs(depth).ok_or_else(unable)?)
    };
    let slopes = if depth == Depth::Full { trend::slopes(&model) } else { Vec::new() };
    let remarks = frame.remarks.iter().cloned().chain(model.remark()).collect();
    Ok(Outcome { quantity, means, pairs, slopes, remarks, adjusted: true, held: frame.held(), odd: frame.odd() })
}
