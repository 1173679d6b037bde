//! Whether which level is better depends on another factor.

use super::frame::{Frame, Plan};
use super::limits::MOST_EFFECTS;
use super::outcome::Question;
use super::sample::Sample;
use crate::Quantity;
use crate::result::{Interaction, TrialSummary};
use calefact_stats::design::{Basis, Design};
use calefact_stats::ftest::FTest;
use calefact_stats::mixed::MixedFit;

/// Tests of interactions, by whether they show one.
#[derive(Debug, Default)]
pub(crate) struct Interactions {
    /// Interactions shown.
    pub(crate) found: Vec<Interaction>,
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
    let others = frame.design.variables.iter().enumerate().skip(1).filter(|(_, v)| v.factor().is_some());
    let tested = others.filter_map(|(other, variable)| {
        let test = test(&frame, other)?;
        Some(Interaction {
            quantity,
            factor: question.request.factor.clone(),
            other: variable.name().to_owned(),
            f: test.f,
            numerator_dof: test.numerator_dof,
            denominator_dof: test.denominator_dof,
            p_value: test.p_value,
        })
    });
    let (found, not_found) = tested.partition(|i| i.p_value < 1.0 - question.confidence);
    Interactions { found, not_found }
}

/// Kenward-Roger F test of the product of the factor and variable `other`. A product of more effects than a model takes is not
/// tested, as one of more effects than trials is not.
fn test(frame: &Frame<'_>, other: usize) -> Option<FTest> {
    let levels = |i: usize| frame.design.variables[i].factor().map_or(2, |f| f.levels.len());
    if levels(0) * levels(other) > MOST_EFFECTS {
        return None;
    }
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
