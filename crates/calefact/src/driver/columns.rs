//! Columns and levels that a pipeline's comparisons name: each must be in some register, or the name is a slip.

use super::Inputs;
use crate::pipeline_file::PipelineFile;
use calefact_analysis::finding::Finding;
use calefact_analysis::result::Conditions;
use calefact_data::register_file::COLUMNS;
use calefact_data::{Severity, TrialKind, name_hint};
use std::collections::BTreeSet;

/// A finding for each name that is in no register. Nothing is said while the data have errors: a row or a dataset that was
/// left out may hold the name.
pub fn unknown(pipeline: &PipelineFile, inputs: &Inputs) -> Vec<Finding> {
    let spoilt = inputs.findings.iter().any(|f| f.severity == Severity::Error);
    if !pipeline.comparisons_named || spoilt || inputs.sets.iter().all(|set| set.rows.is_empty()) {
        return Vec::new();
    }
    let further = inputs.sets.iter().flat_map(|set| &set.columns).map(String::as_str);
    let columns: BTreeSet<&str> = COLUMNS.into_iter().chain(further).filter(|c| !c.is_empty()).collect();
    let mut findings: Vec<Finding> = Vec::new();
    for request in &pipeline.settings.comparisons {
        let unknown = request.columns().filter(|(_, name)| !columns.contains(name));
        let unknown = unknown.filter(|(key, name)| !(*key == "covariates" && Conditions::NAMES.contains(name)));
        findings.extend(unknown.map(|(key, name)| no_column(key, name, &columns)));
        let slips = request.only.iter().filter(|(column, _)| columns.contains(column.as_str()));
        findings.extend(slips.filter_map(|(column, level)| no_level(column, level, inputs)));
    }
    findings
}

fn no_column(key: &str, name: &str, columns: &BTreeSet<&str>) -> Finding {
    Finding::error_text(
        "unknown-column",
        format!("`{key}` of a comparison names `{name}`, a column that no register has"),
    )
    .hint(name_hint(name, columns.iter().copied()))
}

/// A level that no row has and no entry of the apparatus describes. Numeric columns are levels with a unit, which only the
/// reduction adds: they are not judged.
fn no_level(column: &str, level: &str, inputs: &Inputs) -> Option<Finding> {
    let rows = inputs.sets.iter().flat_map(|set| &set.rows).filter_map(|r| r.level(column));
    let mut levels: BTreeSet<&str> = rows.collect();
    let apparatus = &inputs.apparatus;
    match column {
        "stove" => levels.extend(apparatus.stoves.keys().map(String::as_str)),
        "fuel" => levels.extend(apparatus.fuels.keys().map(String::as_str)),
        "exchanger" => levels.extend(apparatus.exchangers.keys().map(String::as_str)),
        "vessel" => levels.extend(apparatus.vessels.keys().map(String::as_str)),
        "kind" => {
            levels.extend([TrialKind::Burn, TrialKind::StandingLoss, TrialKind::ReferenceHeater].map(TrialKind::name));
        }
        _ => {}
    }
    if levels.is_empty() || levels.contains(level) {
        return None;
    }
    let message = format!("`only` of a comparison asks for {column} `{level}`, which no trial has");
    Some(Finding::error_text("unknown-level", message).hint(name_hint(level, levels.iter().copied())))
}
