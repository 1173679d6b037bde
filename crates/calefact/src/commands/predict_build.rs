//! `predict --exchanger-length` and its like: tells what a changed exchanger would do, and what the jobs would take with it.

use super::Job;
use crate::args::PredictArgs;
use crate::{Exit, messages};
use calefact_analysis::build::{BuildRequest, answer};
use calefact_analysis::result::{Analysis, BuildForecast, Reach};
use calefact_data::Severity;
use calefact_report::words::{Typography, Wording, build, printable};
use std::io::{self, Write};

/// The build that the options ask for, if they ask for one.
pub(super) fn request(args: &PredictArgs) -> Option<BuildRequest> {
    let (length, passes, flow) = (args.exchanger_length, args.exchanger_passes, args.coil_flow);
    let exchanger = args.exchanger.clone().filter(|_| length.or(passes).or(flow).is_some())?;
    Some(BuildRequest { exchanger, stove: args.stove.clone(), length, passes, flow })
}

/// Tells the forecasts, or why there are none.
pub(super) fn tell(job: &Job, analysis: &Analysis, request: &BuildRequest) -> Exit {
    let wording = Wording::of_analysis(analysis, job.formats.units, Typography::Plain);
    messages::list_findings(&wording, &analysis.noticed, Severity::Error);
    let forecasts = match answer(analysis, request) {
        Ok(forecasts) => forecasts,
        Err(refusal) => {
            messages::say(&build::refusal_lines(&wording, &refusal).join("\n"));
            return Exit::Usage;
        }
    };
    match write_all(&wording, analysis, &forecasts) {
        Err(error) => messages::write_failed(&error),
        Ok(()) if analysis.noticed.any_error() => Exit::DataErrors,
        Ok(()) => Exit::Done,
    }
}

/// Writes every forecast beside the exchanger as it is, then what holds for all of them.
fn write_all(wording: &Wording<'_>, analysis: &Analysis, forecasts: &[BuildForecast]) -> io::Result<()> {
    let mut out = io::stdout().lock();
    for forecast in forecasts {
        let alike = |f: &&BuildForecast| f.stove == forecast.stove && f.exchanger == forecast.exchanger;
        let now = analysis.builds.forecasts.iter().filter(alike).find(|f| f.reach == Reach::Unchanged);
        let jobs = build::job_lines(wording, &analysis.forecasts, forecast);
        for line in build::lines(wording, forecast, now).into_iter().chain(jobs) {
            writeln!(out, "{}", printable(line))?;
        }
        writeln!(out)?;
    }
    let has_jobs = !analysis.forecasts.jobs.is_empty();
    let of_jobs = has_jobs.then(|| build::JOB_PREMISE.to_owned());
    for line in build::premises(wording, &analysis.builds).into_iter().chain(of_jobs) {
        writeln!(out, "{}", printable(line))?;
    }
    Ok(())
}
