//! A level of one trial: nothing is known of its own scatter, so that of the other levels stands for it.
//!
//! The pooled standard deviation s of the levels with two trials or more, with the sum of their degrees of freedom (as in
//! the analysis of variance), is the scatter of a level of one. Its own measurement errors stay beside it: the interval is on
//! the wide side. Where no level has two trials no interval holds the mean of many, and the result is that of the trial alone.

use super::outcome::Question;
use super::scatter::scatter_source;
use super::unadjusted_mean::GroupedMean;
use crate::Quantity;
use crate::result::Method;
use calefact_stats::SourceInfo;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::group::Scatter;

/// Gives every level of one trial the scatter of the others.
pub(crate) fn lend_scatter(question: Question<'_>, quantity: Quantity, groups: &mut [GroupedMean]) {
    let Some(scatter) = pooled(groups) else { return };
    for group in groups.iter_mut().filter(|g| g.group.summary.scatter.is_none()) {
        let mean = &mut group.mean;
        let source = scatter_source(question.request, quantity, &mean.level);
        mean.dof = cautious_dof([(scatter.sd, scatter.dof), (mean.value.std_uncertainty(), mean.dof)]);
        mean.value = std::mem::take(&mut mean.value).with(source.clone(), scatter.sd);
        mean.scatter = Some((source, SourceInfo::scatter(scatter.dof)));
        mean.method = Method::BorrowedScatter;
    }
}

/// Pooled scatter of the levels that have one.
fn pooled(groups: &[GroupedMean]) -> Option<Scatter> {
    let scatters = groups.iter().filter_map(|g| g.group.summary.scatter);
    let (squares, dof) = scatters.fold((0.0, 0.0), |(q, f), s| (q + s.dof * s.sd * s.sd, f + s.dof));
    (dof > 0.0).then(|| Scatter { sd: (squares / dof).sqrt(), dof })
}
