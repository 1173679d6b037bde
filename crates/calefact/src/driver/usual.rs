//! The comparisons of a pipeline that names none: the usual ones, as far as the registers have something to compare.

use crate::pipeline_file::PipelineFile;
use calefact_analysis::Settings;
use calefact_analysis::fact::PipelineFact;
use calefact_analysis::finding::Finding;
use calefact_data::{Dataset, RegisterRow, TrialKind};
use std::collections::BTreeSet;

/// Settings of a pipeline. Of comparisons that it does not name only those stay that have two levels, adjusted for columns
/// that have two; where none has, the first with one level stays, so that its value is told.
pub(crate) fn settings(pipeline: &PipelineFile, sets: &[Dataset]) -> Settings {
    let mut settings = pipeline.settings.clone();
    if pipeline.comparisons_named {
        return settings;
    }
    let burns = |r: &&RegisterRow| r.kind == TrialKind::Burn && r.exclude.is_none();
    let rows = || sets.iter().flat_map(|set| &set.rows).filter(burns);
    let levels = |factor: &str| rows().filter_map(|r| r.level(factor)).collect::<BTreeSet<_>>().len();
    let only = settings.comparisons.iter().find(|c| levels(&c.factor) == 1).cloned();
    settings.comparisons.retain(|c| levels(&c.factor) > 1);
    if settings.comparisons.is_empty() {
        settings.comparisons.extend(only);
    }
    for comparison in &mut settings.comparisons {
        comparison.adjust.retain(|column| levels(column) > 1);
    }
    settings
}

/// A finding where no burn names its stove: the column may have another header.
pub(super) fn nameless(pipeline: &PipelineFile, sets: &[Dataset]) -> Option<Finding> {
    let mut burns = sets.iter().flat_map(|set| &set.rows).filter(|r| r.kind == TrialKind::Burn).peekable();
    burns.peek()?;
    if pipeline.comparisons_named || burns.any(|r| r.stove.is_some()) {
        return None;
    }
    Some(Finding::warning(PipelineFact::NoStove))
}
