//! `plan`: read, reduce and compare as `run` does, then plan the next burns and write the plan with its burn sheets.

use super::keeping::analysed;
use super::{Job, plan_request};
use crate::args::PlanArgs;
use crate::driver::Inputs;
use crate::{Exit, messages};
use calefact_analysis::fact::CautionFact;
use calefact_analysis::finding::Fact;
use calefact_analysis::planning::{self, Past};
use calefact_analysis::result::{Analysis, CampaignPlan};
use calefact_data::{RegisterRow, Severity};
use calefact_report::words::burn_order::order;
use calefact_report::words::planning::targets;
use calefact_report::words::{Typography, Wording};
use calefact_report::{PlanFolder, ReportError, SheetRequest, Staging};
use std::path::{Path, PathBuf};

/// Runs `plan`.
pub(super) fn plan(args: &PlanArgs) -> Exit {
    let Some(job) = Job::settle(args.pipeline.as_deref(), None, &args.working) else { return Exit::Usage };
    let job = job.in_units(args.sheet.units.map(Into::into));
    if args.out.is_none() && !job.may_write(&job.beside("-plan")) {
        return Exit::Usage;
    }
    let Some(inputs) = job.open() else { return Exit::Usage };
    let Some(request) = plan_request::request(&job, &args.wishes) else { return Exit::Usage };
    // Begun before the long work, so that a folder that cannot be written is told at once.
    let out = args.out.clone().unwrap_or_else(|| job.beside("-plan"));
    let staging = match Staging::begin(&out) {
        Ok(staging) => staging,
        Err(error) => return messages::not_written(&error),
    };
    let analysis = analysed(&job, &inputs);
    let rows: Vec<RegisterRow> =
        inputs.batches.iter().flat_map(|b| b.log.rows.iter().map(|row| inputs.row(b, *row))).collect();
    let past = Past {
        analysis: &analysis,
        requests: &job.pipeline.settings.comparisons,
        apparatus: &inputs.apparatus,
        rows: &rows,
    };
    let plan = planning::plan(&past, &request);
    match write(&job, &inputs, (args, staging), (&analysis, &plan)) {
        Ok(page) => tell(&job, &inputs, (&analysis, &plan), &page),
        Err(error) => messages::not_written(&error),
    }
}

fn write(
    job: &Job,
    inputs: &Inputs,
    (args, staging): (&PlanArgs, Staging),
    (analysis, plan): (&Analysis, &CampaignPlan),
) -> Result<PathBuf, ReportError> {
    let w = Wording::of_analysis(analysis, job.formats.units, Typography::Page);
    let folder = PlanFolder {
        analysis,
        plan,
        targets: targets(&w, analysis, &inputs.apparatus, &plan.targets),
        sheets: SheetRequest {
            title: &analysis.title,
            apparatus: &inputs.apparatus,
            further: further_columns(plan),
            cautions: cautions(analysis),
            every_s: args.sheet.every,
            paper: args.sheet.paper.into(),
        },
    };
    folder.write(&w, staging, (&job.files(inputs), job.base()), &job.tool("plan", ""))
}

/// Columns of the plan that no sheet has by itself.
fn further_columns(plan: &CampaignPlan) -> Vec<String> {
    let known = calefact_data::register_columns::names();
    let varied = plan.vary.iter().map(|(column, _)| column);
    let columns = varied.chain(plan.hold.iter().map(|(column, _)| column));
    columns.filter(|c| !known.contains(&c.as_str())).cloned().collect()
}

/// Cautions that the logs so far call for.
fn cautions(analysis: &Analysis) -> Vec<CautionFact> {
    let all = analysis.noticed.kinds().iter().map(|kind| &kind.leading().fact);
    all.filter_map(|fact| if let Fact::Caution(caution) = fact { Some(*caution) } else { None }).collect()
}

fn tell(job: &Job, inputs: &Inputs, (analysis, plan): (&Analysis, &CampaignPlan), page: &Path) -> Exit {
    let w = Wording::of_analysis(analysis, job.formats.units, Typography::Plain);
    messages::list_findings(&w, &analysis.noticed, Severity::Error);
    if !job.quiet {
        for words in targets(&w, analysis, &inputs.apparatus, &plan.targets) {
            messages::say(&words.answer);
            words.grounds.iter().for_each(|line| messages::say(&format!("  {line}")));
        }
        for line in order(&w, plan) {
            messages::say(&line);
        }
        messages::say(&format!("plan: {}", page.display()));
    }
    if analysis.noticed.any_error() { Exit::DataErrors } else { Exit::Done }
}
