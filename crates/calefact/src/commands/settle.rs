//! From arguments as typed to a job that can start: pipeline read, results folder settled, workers made.

use crate::args::Working;
use crate::driver::{self, Inputs};
use crate::messages;
use crate::pipeline_file::{Located, PipelineFile, locate};
use calefact_analysis::fact::PipelineFact;
use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_data::{DESCRIPTION, InputFile, Severity};
use calefact_report::words::{Units, Wording};
use calefact_report::{Formats, ToolInfo, made_of};
use rayon::ThreadPool;
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};

/// Everything a subcommand on a pipeline needs, resolved together before any long work.
pub(crate) struct Job {
    /// The pipeline file's path, as typed.
    pub(crate) path: PathBuf,
    /// The pipeline.
    pub(crate) pipeline: PipelineFile,
    /// Folder of the results.
    pub(crate) out: PathBuf,
    /// The workers.
    pub(crate) pool: ThreadPool,
    /// Forms and units of what is written.
    pub(crate) formats: Formats,
    /// Whether only errors are shown.
    pub(crate) quiet: bool,
}

impl Job {
    /// Resolves the arguments that the subcommands on a pipeline share. `None` when the pipeline file is wrong; messages say why.
    pub(crate) fn settle(typed: Option<&Path>, out: Option<PathBuf>, working: &Working) -> Option<Self> {
        let (path, pipeline) = pipeline(typed, working.quiet)?;
        let out = out
            .or_else(|| pipeline.outputs.folder.clone())
            .unwrap_or_else(|| Path::new("reports").join(&pipeline.name));
        let pool = pool(working.jobs)?;
        let formats = pipeline.outputs.formats;
        Some(Self { path, pipeline, out, pool, formats, quiet: working.quiet })
    }

    /// The same in other units.
    #[must_use]
    pub(crate) fn in_units(mut self, units: Option<Units>) -> Self {
        self.formats.units = units.unwrap_or(self.formats.units);
        self
    }

    /// Opens the datasets. `None` when the comparisons name a column or level that no register has; messages say so.
    pub(crate) fn open(&self) -> Option<Inputs> {
        let inputs = Inputs::open(&self.pipeline);
        let unknown: FindingSummary = driver::unknown_names(&self.pipeline, &inputs).iter().collect();
        if !unknown.any_error() {
            return Some(inputs);
        }
        refuse(&self.path, &unknown);
        None
    }

    /// The same with no comparison, for answers that need none.
    #[must_use]
    pub(crate) fn without_comparisons(mut self) -> Self {
        self.pipeline.comparisons_named = true;
        self.pipeline.settings.comparisons.clear();
        self
    }

    /// The default folder of results that lie beside those of `run`: its name with an ending.
    pub(crate) fn beside(&self, ending: &str) -> PathBuf {
        let mut name = self.out.file_name().unwrap_or_default().to_owned();
        name.push(ending);
        self.out.with_file_name(name)
    }

    /// Whether results may go into a folder: not where another pipeline's are, with the message that says so. Results of the
    /// same data without a pipeline file give way to those of one.
    pub(crate) fn may_write(&self, folder: &Path) -> bool {
        let own = self.path.file_name().unwrap_or_default().to_string_lossy();
        let Some(by) = made_of(folder).filter(|by| *by != own && by != DESCRIPTION) else { return true };
        let finding = Finding::error(PipelineFact::FolderTaken { folder: folder.to_path_buf(), by });
        messages::list_findings(&Wording::plain(), &[finding].iter().collect(), Severity::Error);
        false
    }

    /// Every file read so far, the pipeline file among them.
    pub(crate) fn files(&self, inputs: &Inputs) -> Vec<InputFile> {
        inputs.files().into_iter().chain(self.pipeline.file.clone()).collect()
    }

    /// The program and its command for a manifest, as seen from the folder of the pipeline file: the same wherever the checkout
    /// lies and whatever folder the command was typed in. Units that were typed, and not named in the pipeline file, are part
    /// of it.
    pub(crate) fn tool(&self, command: &str, options: &str) -> ToolInfo {
        let name = self.path.file_name().unwrap_or_default().to_string_lossy();
        let units = match self.formats.units {
            units if units == self.pipeline.outputs.formats.units => "",
            Units::Metric => " --units metric",
            Units::Us => " --units us",
        };
        ToolInfo {
            name: env!("CARGO_PKG_NAME").into(),
            version: env!("CARGO_PKG_VERSION").into(),
            command: format!("calefact {command} {name}{options}{units}"),
        }
    }

    /// Folder of the pipeline file.
    pub(crate) fn base(&self) -> &Path {
        self.path.parent().unwrap_or(Path::new(""))
    }

    /// The least severity shown in full.
    pub(crate) fn shown(&self) -> Severity {
        if self.quiet { Severity::Error } else { Severity::Warning }
    }
}

/// The pipeline that is meant, and the path its results are seen from.
fn pipeline(typed: Option<&Path>, quiet: bool) -> Option<(PathBuf, PipelineFile)> {
    let (path, is_named) = match locate(typed) {
        Ok(Located::File(path, is_named)) => (path, is_named),
        Ok(Located::Dataset(folder)) => {
            let path = folder.join(DESCRIPTION);
            if !quiet {
                messages::say(&format!("{}: no pipeline file, so the usual comparisons are made", path.display()));
            }
            return Some((path, PipelineFile::of_dataset(&folder)?));
        }
        Err(finding) => {
            messages::list_refusal(&[*finding].iter().collect());
            return None;
        }
    };
    if !quiet && !is_named {
        messages::say(&format!("pipeline: {}", path.display()));
    }
    let (pipeline, findings) = PipelineFile::read(&path);
    let noticed = findings.iter().collect();
    let Some(pipeline) = pipeline else {
        refuse(&path, &noticed);
        return None;
    };
    messages::list_findings(&Wording::plain(), &noticed, Severity::Note);
    Some((path, pipeline))
}

fn refuse(path: &Path, why: &FindingSummary) {
    messages::list_refusal(why);
    messages::say(&format!("the pipeline file {} cannot be used: {}", path.display(), messages::count_findings(why)));
}

/// Most workers for each processor: more would only wait for each other.
const MOST_PER_PROCESSOR: usize = 4;

/// The workers: as many as asked for, within what the machine has. Where the system gives no threads, fewer do.
fn pool(jobs: Option<NonZeroUsize>) -> Option<ThreadPool> {
    let processors = std::thread::available_parallelism().map_or(1, NonZeroUsize::get);
    let wanted = jobs.map_or(processors, NonZeroUsize::get).min(MOST_PER_PROCESSOR * processors);
    let mut counts = std::iter::successors(Some(wanted), |n| (*n > 2).then_some(n / 2));
    counts
        .find_map(|threads| rayon::ThreadPoolBuilder::new().num_threads(threads).build().ok())
        .or_else(|| rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build().ok())
        .or_else(|| {
            messages::say("error: the system gives this program no thread; end other programs and run again");
            None
        })
}
