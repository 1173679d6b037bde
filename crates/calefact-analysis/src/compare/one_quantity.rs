//! Comparing one quantity over some trials, by a model where one is called for.
//!
//! A pure function of trials and request, so that the same can be asked again without a trial, or with the excluded ones
//! put back.

use super::adjusted::Model;
use super::frame::{Frame, Plan};
use super::outcome::{Depth, Outcome, Question};
use super::sample::Sample;
use super::{trend, unadjusted};
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
    let remarks = match Frame::plan(question.request, &sample, order) {
        Plan::Plain(remarks) => remarks,
        Plan::Model(frame) => match by_model(question, &sample, &frame, order, depth) {
            Ok(outcome) => return outcome,
            Err(remark) => vec![remark],
        },
    };
    let (means, pairs) = unadjusted::analyse(question, &sample, order, depth);
    let odd = unadjusted::odd(&sample);
    Outcome { quantity, means, pairs, slopes: Vec::new(), remarks, adjusted: false, odd }
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
    Ok(Outcome { quantity, means, pairs, slopes, remarks, adjusted: true, odd: frame.odd() })
}
