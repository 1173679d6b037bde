//! Columns and levels that a pipeline's comparisons name: each must be in some register, or the name is a slip.

use super::Inputs;
use crate::pipeline_file::PipelineFile;
use calefact_analysis::fact::PipelineFact;
use calefact_analysis::finding::Finding;
use calefact_analysis::result::Conditions;
use calefact_data::Severity;
use calefact_data::{register_columns, toml_source};
use std::collections::BTreeSet;

/// A finding for each name that is in no register. Nothing is said while the data have errors: a row or a dataset that was
/// left out may hold the name.
pub(crate) fn unknown(pipeline: &PipelineFile, inputs: &Inputs) -> Vec<Finding> {
    let spoilt = inputs.findings.iter().any(|f| f.severity == Severity::Error);
    if !pipeline.comparisons_named || spoilt || inputs.sets.iter().all(|set| set.rows.is_empty()) {
        return Vec::new();
    }
    let further = inputs.sets.iter().flat_map(|set| &set.columns).map(String::as_str);
    let columns: BTreeSet<&str> =
        register_columns::names().into_iter().chain(further).filter(|c| !c.is_empty()).collect();
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

fn no_column(key: &'static str, name: &str, columns: &BTreeSet<&str>) -> Finding {
    let known = columns.iter().map(ToString::to_string).collect();
    Finding::error(PipelineFact::UnknownColumn { key, column: name.into(), known })
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
            levels.extend(toml_source::words(&register_columns::TRIAL_KINDS));
        }
        _ => {}
    }
    if levels.is_empty() || levels.contains(level) {
        return None;
    }
    let known = levels.into_iter().map(Into::into).collect();
    Some(Finding::error(PipelineFact::UnknownLevel { column: column.into(), level: level.into(), known }))
}
