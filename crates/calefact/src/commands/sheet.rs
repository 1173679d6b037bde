//! `sheet`: blank burn sheets for a dataset, or for those of a pipeline.

use crate::args::SheetArgs;
use crate::driver::Inputs;
use crate::pipeline_file::{Located, PipelineFile, locate};
use crate::{Exit, messages};
use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_data::{Apparatus, ApparatusNames, Dataset, Severity, register_columns};
use calefact_report::words::{Typography, Units, Wording};
use calefact_report::{SheetRequest, write_blank_sheets};
use std::path::Path;

/// Runs `sheet`.
pub(super) fn sheet(args: &SheetArgs) -> Exit {
    let found = match locate(args.from.as_deref()) {
        Ok(Located::Dataset(folder)) => of_dataset(&folder),
        Ok(Located::File(path, _)) => of_pipeline(&path),
        Err(finding) => {
            messages::list_refusal(&[*finding].iter().collect());
            return Exit::Usage;
        }
    };
    let found = match found {
        Ok(found) => found,
        Err(exit) => return exit,
    };
    let names = ApparatusNames::from(&found.apparatus);
    let units = args.style.units.map_or(found.units, Into::into);
    let w = Wording { units, typography: Typography::Page, names: &names, currency: None };
    let known = register_columns::names();
    let request = SheetRequest {
        title: &found.title,
        apparatus: &found.apparatus,
        further: found.columns.into_iter().filter(|c| !known.contains(&c.as_str())).collect(),
        cautions: Vec::new(),
        every_s: args.style.every,
        paper: args.style.paper.into(),
    };
    match write_blank_sheets(&w, &request, usize::from(args.burns), &args.out) {
        Ok(()) => {
            messages::say(&format!("sheets: {}", args.out.display()));
            Exit::Done
        }
        Err(error) => messages::not_written(&error),
    }
}

/// Apparatus and columns that sheets are made for.
struct Found {
    title: String,
    apparatus: Apparatus,
    columns: Vec<String>,
    units: Units,
}

fn of_dataset(folder: &Path) -> Result<Found, Exit> {
    let (set, findings) = Dataset::open(folder);
    let findings: Vec<Finding> = findings.into_iter().map(calefact_data::Finding::widen).collect();
    messages::list_findings(&Wording::plain(), &findings.iter().collect(), Severity::Error);
    let Some(set) = set else { return Err(Exit::DataErrors) };
    Ok(Found {
        title: set.apparatus.title.clone(),
        apparatus: set.apparatus,
        columns: set.columns,
        units: Units::Metric,
    })
}

fn of_pipeline(path: &Path) -> Result<Found, Exit> {
    let (pipeline, findings) = PipelineFile::read(path);
    let noticed: FindingSummary = findings.iter().collect();
    let Some(pipeline) = pipeline else {
        messages::list_refusal(&noticed);
        return Err(Exit::Usage);
    };
    let inputs = Inputs::open(&pipeline);
    messages::list_findings(&Wording::plain(), &inputs.findings.iter().collect(), Severity::Error);
    if inputs.sets.is_empty() {
        return Err(Exit::DataErrors);
    }
    let columns = inputs.sets.iter().flat_map(|set| set.columns.iter().cloned());
    let mut once: Vec<String> = Vec::new();
    columns.for_each(|c| {
        if !once.contains(&c) {
            once.push(c);
        }
    });
    Ok(Found {
        title: pipeline.title,
        apparatus: inputs.apparatus,
        columns: once,
        units: pipeline.outputs.formats.units,
    })
}
