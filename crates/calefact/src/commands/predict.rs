//! `predict`: read, reduce, and tell what jobs take. The answer goes to standard output, what is wrong to standard error.

use super::Job;
use super::keeping::analysed;
use crate::args::PredictArgs;
use crate::{Exit, messages};
use calefact_analysis::forecast::OWN;
use calefact_analysis::result::Analysis;
use calefact_analysis::settings::{self, JobVessel, ReferenceJob};
use calefact_data::Severity;
use calefact_report::words::forecast;
use calefact_report::words::forecast_answer::{self, Only};
use calefact_report::words::{Typography, Wording, printable};
use std::io::{self, Write};

/// Runs `predict`.
pub(super) fn predict(args: &PredictArgs) -> Exit {
    let Some(job) = Job::settle(args.pipeline.as_deref(), None, &args.working) else { return Exit::Usage };
    let job = job.in_units(args.units.map(Into::into));
    let Some(inputs) = job.open() else { return Exit::Usage };
    let mut job = job.without_comparisons();
    let build = super::predict_build::request(args);
    if let Err(missing) = settle_jobs(args, &mut job)
        && (build.is_none() || has_job_options(args))
    {
        messages::say(&format!("error: {missing}"));
        return Exit::Usage;
    }
    let analysis = analysed(&job, &inputs);
    match build {
        Some(request) => super::predict_build::tell(&job, &analysis, &request),
        None => tell(args, &job, &analysis),
    }
}

/// Whether any option describes a job.
fn has_job_options(args: &PredictArgs) -> bool {
    let asked = [args.water, args.from, args.to, args.ambient, args.fuel_moisture, args.standing, args.deadline];
    asked.iter().any(Option::is_some) || args.vessel.is_some()
}

/// Puts the job of the options in the place of those of the pipeline, if there is one.
fn settle_jobs(args: &PredictArgs, job: &mut Job) -> Result<(), String> {
    let settings = &mut job.pipeline.settings;
    let first = settings.jobs.first().map(|j| j.task).or(settings.reference_job);
    if !has_job_options(args) {
        return if first.is_some() { Ok(()) } else { Err(forecast::no_job()) };
    }
    let number = |given: Option<f64>, usual: fn(&ReferenceJob) -> f64, option: &'static str| {
        given.or_else(|| first.as_ref().map(usual)).ok_or_else(|| forecast::no_option(option))
    };
    let task = ReferenceJob {
        water_m3: number(args.water, |task| task.water_m3, "--water")?,
        from: number(args.from, |task| task.from, "--from")?,
        to: number(args.to, |task| task.to, "--to")?,
        ambient: number(args.ambient, |task| task.ambient, "--ambient")?,
        fuel_moisture: args.fuel_moisture.or_else(|| first.and_then(|task| task.fuel_moisture)),
    };
    let vessel = args.vessel.clone().map_or(JobVessel::Usual, JobVessel::Named);
    let (standing_s, deadline_s) = (args.standing, args.deadline);
    settings.jobs = vec![settings::Job { standing_s, deadline_s, vessel, ..settings::Job::new(OWN, task) }];
    Ok(())
}

fn tell(args: &PredictArgs, job: &Job, analysis: &Analysis) -> Exit {
    let wording = Wording::of_analysis(analysis, job.formats.units, Typography::Plain);
    messages::list_findings(&wording, &analysis.noticed, Severity::Error);
    let only = [("stove", &args.stove), ("fuel", &args.fuel), ("exchanger", &args.exchanger)];
    let only: Vec<Only<'_>> = only.into_iter().filter_map(|(c, id)| Some((c, id.as_deref()?))).collect();
    let answer = forecast_answer::answer(&wording, &analysis.forecasts, &only);
    if let Err(error) = writeln!(io::stdout(), "{}", printable(answer.text)) {
        return messages::write_failed(&error);
    }
    match (answer.answered, analysis.noticed.any_error()) {
        (0, _) => Exit::Usage,
        (_, true) => Exit::DataErrors,
        _ => Exit::Done,
    }
}
