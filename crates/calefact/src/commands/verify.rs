//! `verify`: checks every byte of a bundle, runs it again, and compares the results.

use super::Job;
use super::run::{analyse_and_write, request};
use crate::args::VerifyArgs;
use crate::scratch::Scratch;
use crate::{Exit, messages};
use calefact_analysis::fact::BundleFact;
use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_bundle::compare::{self, Agreement};
use calefact_bundle::{Bundle, names};
use calefact_data::{Severity, normalize_path};
use calefact_report::ReportError;
use calefact_report::words::{Wording, rerun as words};
use std::collections::BTreeSet;
use std::path::Path;

/// Runs `verify`.
pub(super) fn verify(args: &VerifyArgs) -> Exit {
    if !args.bundle.exists() {
        messages::say(&format!("error: {} does not exist", args.bundle.display()));
        return Exit::Usage;
    }
    let scratch = match Scratch::new() {
        Ok(scratch) => scratch,
        Err(error) => return messages::not_written(&error),
    };
    let bundle = match Bundle::open_sound(&args.bundle, &scratch.path().join("bundle")) {
        Ok(bundle) => bundle,
        Err(faults) => return refuse(&args.bundle, faults),
    };
    if !args.working.quiet {
        messages::say(&format!("files: all {} are as they were sealed", bundle.files().len()));
    }
    let job = match job(args, &bundle) {
        Ok(job) => job,
        Err(fault) => return refuse(&args.bundle, vec![fault]),
    };
    let ended = rerun(args, &bundle, &job, &scratch.path().join(names::RESULTS));
    ended.unwrap_or_else(|error| messages::not_written(&error))
}

/// Lists what is wrong with a bundle.
fn refuse(bundle: &Path, faults: Vec<BundleFact>) -> Exit {
    let is_none = faults == [BundleFact::NotABundle];
    let findings: Vec<Finding> = faults.into_iter().map(|fact| Finding::error(fact).at(bundle, None, None)).collect();
    let noticed: FindingSummary = findings.iter().collect();
    messages::list_findings(&Wording::plain(), &noticed, Severity::Error);
    messages::say(&format!("{} was not run: {}", bundle.display(), messages::count_findings(&noticed)));
    if is_none { Exit::Usage } else { Exit::Damaged }
}

/// The job of a bundle. Its pipeline may name nothing outside the bundle.
fn job(args: &VerifyArgs, bundle: &Bundle) -> Result<Job, BundleFact> {
    let path = bundle.root().join(names::PIPELINE);
    let job = bundle.files().contains(names::PIPELINE).then(|| Job::settle(Some(&path), None, &args.working)).flatten();
    let job = job.ok_or(BundleFact::NoPipeline)?;
    let datasets = normalize_path(&bundle.root().join(names::DATASETS));
    let outside = job.pipeline.datasets.iter().find(|set| !normalize_path(set).starts_with(&datasets));
    match outside {
        Some(path) => Err(BundleFact::ReadsOutside { path: path.clone() }),
        None if job.pipeline.read_outside => Err(BundleFact::ReadsOutside { path: "read_outside".into() }),
        None => Ok(job),
    }
}

/// Runs the pipeline into a folder and compares the results.
fn rerun(args: &VerifyArgs, bundle: &Bundle, job: &Job, results: &Path) -> Result<Exit, ReportError> {
    let Some((inputs, request)) = job.open().zip(request(job)) else {
        return Ok(refuse(&args.bundle, vec![BundleFact::NoPipeline]));
    };
    let files = job.pool.install(|| analyse_and_write(job, &inputs, &request, results))?.written.files;
    let again: BTreeSet<String> = files.iter().map(|file| file.to_string_lossy().replace('\\', "/")).collect();
    let below = format!("{}/", names::RESULTS);
    let sealed: BTreeSet<String> =
        bundle.files().iter().filter_map(|name| name.strip_prefix(&below)).map(str::to_owned).collect();
    let root = bundle.root().join(names::RESULTS);
    let found = compare::folders(&root, results, (&sealed, &again)).map_err(ReportError::io("read", &root))?;
    let (made, this) = (version(&root), env!("CARGO_PKG_VERSION"));
    let lines = words::lines(&Wording::plain(), &found, (&made, this));
    let agreement = found.agreement(made == this);
    if !args.working.quiet || agreement == Agreement::Differs {
        for line in &lines {
            messages::say(line);
        }
    }
    match agreement {
        Agreement::Differs => Ok(Exit::DataErrors),
        Agreement::Close => Ok(Exit::Done),
        Agreement::Same => frame(args, bundle),
    }
}

/// Whether the archive itself is the one that `seal` writes of these files.
fn frame(args: &VerifyArgs, bundle: &Bundle) -> Result<Exit, ReportError> {
    let difference = bundle.archive_difference().map_err(ReportError::io("read", &args.bundle))?;
    let Some(byte) = difference else { return Ok(Exit::Done) };
    messages::say(&format!(
        "the archive around the files is not the one that `calefact seal` writes: it differs from byte {byte} on. Its files are as they \
         were sealed; if another program packed them, unpack the archive and verify the folder"
    ));
    Ok(Exit::DataErrors)
}

/// The version of the program that made the results, by their manifest.
fn version(results: &Path) -> String {
    let text = std::fs::read(results.join("manifest.json")).unwrap_or_default();
    let manifest: serde_json::Value = serde_json::from_slice(&text).unwrap_or_default();
    manifest["tool"]["version"].as_str().unwrap_or("unknown").to_owned()
}
