//! `seal`: packs inputs, pipeline and results as a bundle that a stranger can check and rerun.
//!
//! The pipeline runs twice: on the files as they are, which tells which files are read, and on the packed ones, whose results are
//! those of the bundle.

use super::Job;
use super::run::{analyse_and_write, request};
use super::seal_files::{Packing, SealError};
use crate::args::{SealArgs, Without};
use crate::driver::Inputs;
use crate::scratch::Scratch;
use crate::{Exit, messages};
use calefact_bundle::{
    Bundle, DatasetEntry, Descriptors, Layout, Publication, Software, archive, checksums, compare, descriptors,
    is_archive, list, names,
};
use calefact_data::InputFile;
use calefact_report::words::{Wording, seal as words};
use calefact_report::{ReportError, Staging};
use std::collections::BTreeSet;
use std::fs::File;
use std::path::{Path, PathBuf};

/// Runs `seal`.
pub(super) fn seal(args: &SealArgs) -> Exit {
    let Some(job) = Job::settle(Some(&args.pipeline), None, &args.working) else { return Exit::Usage };
    let Some(publication) = publication(&job, args) else { return Exit::Usage };
    if is_taken(&args.out) {
        messages::say(&format!(
            "error: {} exists; a bundle is never replaced. Name another, or delete it",
            args.out.display()
        ));
        return Exit::WriteFailed;
    }
    if let Some(bundle) = job.pipeline.datasets.iter().find(|path| Bundle::is_at(path)) {
        messages::say(&words::reads_bundle(&Wording::plain(), bundle));
        return Exit::DataErrors;
    }
    let Some(inputs) = job.open() else { return Exit::Usage };
    if inputs.sets.len() < job.pipeline.datasets.len() {
        messages::list_findings(&Wording::plain(), &inputs.findings.iter().collect(), job.shown());
        messages::say("nothing was sealed: a dataset cannot be read");
        return Exit::DataErrors;
    }
    match sealed(args, &job, &inputs, &publication) {
        Ok(exit) => exit,
        Err(SealError::Data(words)) => {
            messages::say(&words);
            messages::say("nothing was sealed");
            Exit::DataErrors
        }
        Err(SealError::Write(error)) => messages::not_written(&error),
    }
}

/// What the publication says of itself, with a licence; messages say what is missing.
fn publication(job: &Job, args: &SealArgs) -> Option<Publication> {
    let Some(mut publication) = job.pipeline.publication.clone() else {
        messages::say(&words::no_publication());
        return None;
    };
    publication.licence = args.licence.or(publication.licence);
    if publication.licence.is_none() {
        messages::say(
            "error: no licence is named\n  hint: add `licence = \"CC-BY-4.0\"` to [publish], or give `--licence CC-BY-4.0`",
        );
        return None;
    }
    Some(publication)
}

/// Whether something is there that a bundle would replace; an empty folder is nothing.
fn is_taken(out: &Path) -> bool {
    let is_empty = || std::fs::read_dir(out).is_ok_and(|mut entries| entries.next().is_none());
    out.symlink_metadata().is_ok() && (is_archive(out) || !is_empty())
}

fn sealed(args: &SealArgs, job: &Job, inputs: &Inputs, publication: &Publication) -> Result<Exit, SealError> {
    let staging = Staging::begin(&folder_of(&args.out))?;
    let root = staging.dir();
    let first = Scratch::new()?;
    let read = run_on_originals(job, inputs, &first.path().join(names::RESULTS))?;
    let wording = Wording::plain();
    let layout =
        Layout::new(&job.pipeline.datasets, &read).map_err(|e| SealError::Data(words::layout_error(&wording, &e)))?;
    let mut packing = Packing::new(job, inputs, &layout);
    packing.choose(args.without.contains(&Without::Notes), args.without.contains(&Without::Operators))?;
    for line in packing.summary(publication).lines(&wording) {
        messages::say(&line);
    }
    packing.write(&root)?;
    let any_error = run_on_packed(args, &root)?;
    if !args.without.is_empty() {
        say_changes(&first.path(), &root.join(names::RESULTS))?;
    }
    for line in packing.still_named(&root)? {
        messages::say(&line);
    }
    describe(job, inputs, &layout, publication, &root)?;
    let bundle = publish(staging, &args.out)?;
    if !job.quiet {
        messages::say(&format!("bundle: {}; check it with `calefact verify {}`", bundle.display(), bundle.display()));
    }
    Ok(if any_error { Exit::DataErrors } else { Exit::Done })
}

/// The folder that the bundle is made in: its own, or for an archive one beside it that is never there.
fn folder_of(out: &Path) -> PathBuf {
    if is_archive(out) { out.with_extension("zip-contents") } else { out.to_path_buf() }
}

/// Runs on the files as they are, with the results in a folder. Gives the files that were read but for the pipeline file.
fn run_on_originals(job: &Job, inputs: &Inputs, out: &Path) -> Result<Vec<InputFile>, SealError> {
    let request = request(job).ok_or_else(unusable)?;
    job.pool.install(|| analyse_and_write(job, inputs, &request, out))?;
    Ok(inputs.files())
}

/// Runs on the packed files. Gives whether the data has errors.
fn run_on_packed(args: &SealArgs, root: &Path) -> Result<bool, SealError> {
    let pipeline = root.join(names::PIPELINE);
    let job = Job::settle(Some(&pipeline), None, &args.working).ok_or_else(unusable)?;
    let inputs = job.open().ok_or_else(unusable)?;
    let request = request(&job).ok_or_else(unusable)?;
    let done = job.pool.install(|| analyse_and_write(&job, &inputs, &request, &root.join(names::RESULTS)))?;
    let any_error = done.analysis.noticed.any_error();
    if any_error {
        messages::say(&format!("the data has errors; `calefact check {}` lists them", args.pipeline.display()));
    }
    Ok(any_error)
}

fn unusable() -> SealError {
    SealError::Data("error: the pipeline cannot be run".into())
}

/// Says where the results are others than those of the files as they are.
fn say_changes(first: &Path, packed: &Path) -> Result<(), SealError> {
    let first = first.join(names::RESULTS);
    let files = |folder: &Path| list(folder).unwrap_or_default();
    let names = (files(&first), files(packed));
    let found = compare::folders(&first, packed, (&names.0, &names.1)).map_err(ReportError::io("read", packed))?;
    if let Some(words) = words::changed_results(&Wording::plain(), &found) {
        messages::say(&words);
    }
    Ok(())
}

/// Writes the descriptors and the list of checksums.
fn describe(
    job: &Job,
    inputs: &Inputs,
    layout: &Layout,
    publication: &Publication,
    root: &Path,
) -> Result<(), SealError> {
    let datasets: Vec<DatasetEntry> =
        inputs.sets.iter().zip(&layout.datasets).map(|(set, folder)| entry(set, folder)).collect();
    let tool = job.tool("seal", "");
    let all = || list(root).map_err(|faults| SealError::Data(format!("error: {}", faults_words(&faults))));
    let files: BTreeSet<String> = all()?;
    let about = Descriptors {
        root,
        name: &job.pipeline.name,
        publication,
        software: &Software { name: tool.name, version: tool.version },
        datasets: &datasets,
        files: &files,
    };
    descriptors::write(&about).map_err(ReportError::io("write", root))?;
    Ok(checksums::write(root, &all()?).map_err(ReportError::io("write", root))?)
}

fn faults_words(faults: &[calefact_analysis::fact::BundleFact]) -> String {
    let first = faults.first().cloned().map(calefact_analysis::finding::Finding::error);
    first.map(|finding| calefact_report::words::message(&Wording::plain(), &finding).text).unwrap_or_default()
}

fn entry(set: &calefact_data::Dataset, folder: &str) -> DatasetEntry {
    let apparatus = &set.apparatus;
    DatasetEntry {
        folder: folder.to_owned(),
        title: apparatus.title.clone(),
        invented: apparatus.invented,
        site: apparatus.site.name.clone(),
        instruments: apparatus.instruments.values().map(|i| (i.name.clone(), i.reads.clone())).collect(),
    }
}

/// Puts the folder, or the archive of it, in its place.
fn publish(staging: Staging, out: &Path) -> Result<PathBuf, SealError> {
    if !is_archive(out) {
        return Ok(staging.publish()?);
    }
    let root = staging.dir();
    let files = list(&root).map_err(|faults| SealError::Data(faults_words(&faults)))?;
    let packed = root.with_extension("zip");
    let write = || {
        let file = File::create(&packed)?;
        archive::pack(&root, &files, file)?.sync_all()?;
        std::fs::rename(&packed, out)
    };
    write().map_err(ReportError::io("write", out))?;
    Ok(out.to_path_buf())
}
