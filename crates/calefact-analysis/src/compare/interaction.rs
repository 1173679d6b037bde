//! Whether which level is better depends on another factor.

use super::frame::{Frame, Plan};
use super::outcome::Question;
use super::sample::Sample;
use super::sentence::name;
use crate::Quantity;
use crate::result::TrialSummary;
use crate::words::{p_value, significant};
use calefact_stats::design::{Basis, Design};
use calefact_stats::ftest::FTest;
use calefact_stats::mixed::MixedFit;

/// What the tests of interactions came to, in words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Interactions {
    /// Interactions shown.
    pub found: Vec<String>,
    /// Those of which there is no sign.
    pub not_found: Vec<String>,
}

/// One sentence for each adjusting factor that shares enough cells with the factor compared.
pub fn of(question: Question<'_>, chosen: &[&TrialSummary], order: &[String], quantity: Quantity) -> Interactions {
    let mut all = Interactions::default();
    let sample = Sample::of(question.request, chosen, quantity);
    let Plan::Model(frame) = Frame::plan(question.request, &sample, order) else { return all };
    for (other, variable) in frame.design.variables.iter().enumerate().skip(1).filter(|(_, v)| v.factor().is_some()) {
        let Some(test) = test(&frame, other) else { continue };
        let shown = test.p_value < 1.0 - question.level;
        let list = if shown { &mut all.found } else { &mut all.not_found };
        list.push(words(question, quantity, variable.name(), (&test, shown)));
    }
    all
}

/// Kenward-Roger F test of the product of the factor and variable `other`.
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

fn words(question: Question<'_>, quantity: Quantity, other: &str, (test, shown): (&FTest, bool)) -> String {
    let factor = &question.request.factor;
    let figures = format!(
        "F {} on {:.0} and {} degrees of freedom, p {}",
        significant(test.f, 3),
        test.numerator_dof,
        significant(test.denominator_dof, 3),
        p_value(test.p_value)
    );
    if shown {
        return format!(
            "caution: which {factor} has the better {} depends on {other} ({figures}); the comparison is an average over \
             {other}, compare within each to see more",
            name(quantity)
        );
    }
    format!(
        "no sign that the difference in {} between levels of {factor} depends on {other} ({figures})",
        name(quantity)
    )
}
