//! The opened datasets of a pipeline and the log files to read.

use super::{apparatus, levels, usual};
use crate::pipeline_file::PipelineFile;
use crate::scratch::Scratch;
use calefact_analysis::fact::{BundleFact, PipelineFact};
use calefact_analysis::finding::Finding;
use calefact_analysis::unstated;
use calefact_bundle::Bundle;
use calefact_data::{
    Apparatus, DESCRIPTION, Dataset, InputFile, LogBatch, RegisterRow, SheetAddress, TrialKind, holds_tables, nearest,
};
use std::collections::{BTreeSet, HashSet};
use std::path::{Path, PathBuf};

/// One log file and the trials in it.
#[derive(Debug, Clone)]
pub(crate) struct Batch {
    /// Index of the dataset.
    pub(crate) set: usize,
    /// Log file and register rows.
    pub(crate) log: LogBatch,
    /// Size of the file.
    pub(crate) bytes: u64,
}

/// Inputs of a pipeline.
pub(crate) struct Inputs {
    /// Datasets that could be opened.
    pub(crate) sets: Vec<Dataset>,
    /// Their apparatus as one.
    pub(crate) apparatus: Apparatus,
    /// Every log file, in register order.
    pub(crate) batches: Vec<Batch>,
    /// Problems so far, of no single trial.
    pub(crate) findings: Vec<Finding>,
    /// Marks of bundles so far.
    marks: BTreeSet<String>,
    /// Where bundles are unpacked, as long as this value lives.
    unpacked: Vec<Scratch>,
}

impl Inputs {
    /// Opens the datasets of a pipeline. Logs are not read yet.
    pub(crate) fn open(pipeline: &PipelineFile) -> Self {
        let mut inputs = Self {
            sets: Vec::new(),
            apparatus: Apparatus::default(),
            batches: Vec::new(),
            findings: Vec::new(),
            marks: BTreeSet::new(),
            unpacked: Vec::new(),
        };
        // Ids of a bundle are set apart from those of one's own datasets, wherever the pipeline names it.
        let (bundles, own): (Vec<&PathBuf>, Vec<&PathBuf>) =
            pipeline.datasets.iter().partition(|path| Bundle::is_at(path));
        for folder in own {
            inputs.add(folder, pipeline.read_outside);
        }
        for path in bundles {
            inputs.add_bundle(path);
        }
        let named: HashSet<PathBuf> = inputs.sets.iter().flat_map(Dataset::named_logs).collect();
        let strays = inputs.sets.iter().flat_map(|set| set.unregistered_logs(&named));
        let about_logs = strays.chain(Dataset::equal_logs(&inputs.sets));
        inputs.findings.extend(about_logs.map(calefact_data::Finding::widen));
        inputs.refuse_repeated_ids();
        inputs.refuse_currencies();
        inputs.apparatus.assumes_nothing =
            !inputs.sets.is_empty() && inputs.sets.iter().all(|set| set.apparatus.assumes_nothing);
        let rows = inputs.sets.iter().flat_map(|set| &set.rows);
        inputs.findings.extend(unstated::finding(&inputs.apparatus, rows));
        inputs.findings.extend(usual::nameless(pipeline, &inputs.sets));
        inputs
    }

    fn add(&mut self, folder: &Path, read_outside: bool) {
        if folder.join(DESCRIPTION).try_exists().is_ok_and(|exists| !exists) {
            self.findings.push(no_dataset(folder));
            return;
        }
        let (set, findings) = if read_outside { Dataset::open_anywhere(folder) } else { Dataset::open(folder) };
        self.findings.extend(findings.into_iter().map(calefact_data::Finding::widen));
        if let Some(set) = set {
            self.join(folder, set);
        }
    }

    /// Adds the datasets of a bundle, whose rigs are kept apart. A bundle that is not as it was sealed is left out.
    fn add_bundle(&mut self, path: &Path) {
        let opened = Scratch::new().map_err(|e| vec![BundleFact::Unreadable { reason: e.to_string() }]);
        let opened =
            opened.and_then(|scratch| Ok((Bundle::open_sound(path, &scratch.path().join("bundle"))?, scratch)));
        let (bundle, scratch) = match opened {
            Ok(opened) => opened,
            Err(faults) => {
                let refused = BundleFact::refused(faults).map(|fact| Finding::error(fact).at(path, None, None));
                self.findings.extend(refused);
                return;
            }
        };
        let mark = self.mark(&path.file_stem().unwrap_or_default().to_string_lossy());
        for folder in bundle.datasets() {
            let (set, findings) = Dataset::open_unpacked(&path.join(&folder), &bundle.root().join(&folder));
            self.findings.extend(findings.into_iter().map(calefact_data::Finding::widen));
            if let Some(mut set) = set {
                set.set_apart(&mark, &self.apparatus);
                self.join(&path.join(&folder), set);
            }
        }
        self.unpacked.push(scratch);
    }

    /// A mark for the ids of a bundle that none before it has.
    fn mark(&mut self, stem: &str) -> String {
        let numbered = (2..).map(|n| format!("{stem}-{n}"));
        let mut marks = std::iter::once(stem.to_owned()).chain(numbered);
        let fresh = marks.find(|mark| self.marks.insert(mark.clone()));
        fresh.unwrap_or_default()
    }

    fn join(&mut self, folder: &Path, set: Dataset) {
        apparatus::join(&mut self.apparatus, &set.apparatus, folder, &mut self.findings);
        let index = self.sets.len();
        self.batches.extend(set.batches().into_iter().map(|log| Batch::new(index, log)));
        self.sets.push(set);
    }

    /// The register row of a trial, completed by what only its dataset knows: the site's altitude where the row states none, and
    /// where its log lies.
    pub(crate) fn row(&self, batch: &Batch, row: usize) -> RegisterRow {
        let set = &self.sets[batch.set];
        let mut row = set.rows[row].clone();
        row.log.clone_from(&batch.log.path);
        levels::add(&mut row);
        row.altitude = row.altitude.or(set.apparatus.site.altitude_m);
        row
    }

    /// Dataset and register row of every trial, in the order of the registers.
    pub(crate) fn places(&self) -> Vec<(usize, usize)> {
        let mut places: Vec<_> = self.batches.iter().flat_map(|b| b.log.rows.iter().map(|row| (b.set, *row))).collect();
        places.sort_unstable();
        places
    }

    /// The log files that hold trials of a kind, with those trials alone.
    pub(crate) fn batches_of(&self, kind: TrialKind) -> Vec<Batch> {
        let of_kind = |batch: &Batch| {
            let rows = &self.sets[batch.set].rows;
            let mut batch = batch.clone();
            batch.log.rows.retain(|r| rows[*r].kind == kind);
            (!batch.log.rows.is_empty()).then_some(batch)
        };
        self.batches.iter().filter_map(of_kind).collect()
    }

    /// Every file read so far, the pipeline file aside. A log that could not be read is a finding, not an input.
    pub(crate) fn files(&self) -> Vec<InputFile> {
        self.sets.iter().flat_map(Dataset::input_files).collect()
    }

    /// Prices in several currencies are left out, since costs could not be compared.
    fn refuse_currencies(&mut self) {
        let currencies = self.apparatus.currencies();
        if currencies.len() < 2 {
            return;
        }
        let of_sets = self.sets.iter_mut().map(|set| &mut set.apparatus);
        let fuels = of_sets.chain([&mut self.apparatus]).flat_map(|apparatus| apparatus.fuels.values_mut());
        fuels.for_each(|fuel| fuel.price_per_kg = None);
        let fact = PipelineFact::SeveralCurrencies(currencies.into_iter().collect());
        self.findings.push(Finding::warning(fact));
    }

    /// Trial ids are unique within a register; here between the datasets of a pipeline.
    fn refuse_repeated_ids(&mut self) {
        let mut seen = BTreeSet::new();
        for batch in &mut self.batches {
            let set = &self.sets[batch.set];
            batch.log.rows.retain(|r| {
                let fresh = seen.insert(set.rows[*r].trial.clone());
                if !fresh {
                    let trial = set.rows[*r].trial.clone();
                    let fact = PipelineFact::DuplicateTrial { trial: trial.clone() };
                    self.findings.push(Finding::error(fact).trial(trial));
                }
                fresh
            });
        }
        self.batches.retain(|b| !b.log.rows.is_empty());
    }
}

impl Batch {
    fn new(set: usize, log: LogBatch) -> Self {
        let workbook = SheetAddress::parse(&log.path).map(|address| address.workbook);
        let bytes = std::fs::metadata(workbook.as_ref().unwrap_or(&log.path)).map_or(0, |m| m.len());
        Self { set, log, bytes }
    }
}

/// A folder that is no dataset, with the one beside it that may have been meant.
fn no_dataset(folder: &Path) -> Finding {
    let parent = folder.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let beside = std::fs::read_dir(parent).into_iter().flatten();
    let sets = beside.flatten().map(|e| e.path()).filter(|p| p.join(DESCRIPTION).is_file());
    let mut names: Vec<String> = sets.filter_map(|p| p.file_name().map(|n| n.to_string_lossy().into_owned())).collect();
    names.sort();
    let wanted = folder.file_name().unwrap_or_default().to_string_lossy();
    let near = nearest(&wanted, names.iter().map(String::as_str)).map(Into::into);
    Finding::error(PipelineFact::NoDataset { folder: folder.into(), near, tables: holds_tables(folder) })
}
