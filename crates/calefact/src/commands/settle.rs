//! From arguments as typed to a job that can start: pipeline read, results folder settled, workers made.

use crate::driver::{self, Inputs};
use crate::messages;
use crate::pipeline_file::PipelineFile;
use calefact_analysis::finding::FindingSummary;
use calefact_data::{InputFile, Severity};
use calefact_report::Formats;
use calefact_report::words::{Units, Wording};
use rayon::ThreadPool;
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};

/// Everything a subcommand on a pipeline needs, resolved together before any long work.
pub(crate) struct Job {
    /// The pipeline file's path, as typed.
    pub(crate) path: PathBuf,
    /// The pipeline file as it was read.
    pub(crate) file: Option<InputFile>,
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
    /// Resolves the arguments that `run` and `check` share. `None` when the pipeline file is wrong; messages say why.
    pub(crate) fn settle(path: &Path, out: Option<PathBuf>, jobs: Option<NonZeroUsize>, quiet: bool) -> Option<Self> {
        let (pipeline, findings) = PipelineFile::read(path);
        let noticed = findings.iter().collect();
        let Some(pipeline) = pipeline else {
            refuse(path, &noticed);
            return None;
        };
        let file = InputFile::read(path).ok();
        messages::list_findings(&Wording::plain(), &noticed, Severity::Note);
        let out = out
            .or_else(|| pipeline.outputs.folder.clone())
            .unwrap_or_else(|| Path::new("reports").join(&pipeline.name));
        let pool = pool(jobs)?;
        let formats = pipeline.outputs.formats;
        Some(Self { path: path.to_path_buf(), file, pipeline, out, pool, formats, quiet })
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

    /// Folder of the pipeline file.
    pub(crate) fn base(&self) -> &Path {
        self.path.parent().unwrap_or(Path::new(""))
    }

    /// The least severity shown in full.
    pub(crate) fn shown(&self) -> Severity {
        if self.quiet { Severity::Error } else { Severity::Warning }
    }
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
