//! Whether which level is better depends on another factor.

use super::frame::{Frame, Plan};
use super::limits::MOST_EFFECTS;
use super::outcome::Question;
use super::sample::Sample;
use crate::Quantity;
use crate::result::{Interaction, Remark, TrialSummary};
use calefact_stats::design::{Basis, Design};
use calefact_stats::ftest::FTest;
use calefact_stats::mixed::MixedFit;

/// Tests of interactions, by whether they show one.
#[derive(Debug, Default)]
pub(crate) struct Interactions {
    /// Interactions shown, and those that are not tested since they have too many effects.
    pub(crate) remarks: Vec<Remark>,
    /// Those of which there is no sign.
    pub(crate) not_found: Vec<Interaction>,
}

/// Tests each adjusting factor that shares enough cells with the factor compared.
pub(crate) fn tests(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    quantity: Quantity,
) -> Interactions {
    let sample = Sample::new(question.request, chosen, quantity);
    let Plan::Model(frame) = Frame::plan(question.request, &sample, order) else { return Interactions::default() };
    let levels = |i: usize| frame.design.variables[i].factor().map_or(2, |f| f.levels.len());
    let mut tests = Interactions::default();
    let others = frame.design.variables.iter().enumerate().skip(1).filter(|(_, v)| v.factor().is_some());
    for (index, variable) in others {
        let (factor, other) = (question.request.factor.clone(), variable.name().to_owned());
        let combinations = levels(0) * levels(index);
        if combinations > MOST_EFFECTS {
            let most = MOST_EFFECTS;
            tests.remarks.push(Remark::InteractionUntested { quantity, factor, other, combinations, most });
            continue;
        }
        let Some(FTest { f, numerator_dof, denominator_dof, p_value }) = test(&frame, index) else { continue };
        let tested = Interaction { quantity, factor, other, f, numerator_dof, denominator_dof, p_value };
        if p_value < 1.0 - question.confidence {
            tests.remarks.push(Remark::Interaction(tested));
        } else {
            tests.not_found.push(tested);
        }
    }
    tests
}

/// Kenward-Roger F test of the product of the factor and variable `other`; none with as many effects as trials, or more.
fn test(frame: &Frame<'_>, other: usize) -> Option<FTest> {
    let design = Design::new(frame.design.variables.clone(), &[vec![0, other]]).ok()?;
    let basis = Basis::new(&design.matrix);
    let hypothesis = design.last_term_rows()?;
    if frame.sample.len() <= basis.kept.len() + 1 {
        return None;
    }
    let blocks = frame.blocks.as_ref().map(|(_, codes)| codes.as_slice());
    let matrix = design.matrix.select_columns(&basis.kept);
    let fit = MixedFit::new(&frame.sample.bare(), &matrix, blocks).ok()?;
    fit.f_test(&hypothesis).ok().filter(|t| t.p_value.is_finite())
}
