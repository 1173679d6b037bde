//! A dataset on disk: which files it has, and the readings of each trial on demand.

use crate::dataset_file;
use crate::fact::{Log, ReadFailure};
use crate::faults;
use crate::file;
use crate::layout::{LogSettings, RegisterSettings};
use crate::log_file::{self, LogTrial, Wanted};
use crate::log_files::{self, LogPath};
use crate::named;
use crate::normalize_path;
use crate::personal::{LeftOut, PersonalWords, TextTable};
use crate::reach::Reach;
use crate::register_file;
use crate::set_apart::set_apart;
use crate::table_reader::{Table, TableReader};
use crate::{Apparatus, DESCRIPTION, Finding, InputFile, Origin, ReadAs, Readings, RegisterRow, TrialKind};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A dataset: apparatus and register in memory, logs on disk.
#[derive(Debug, Clone)]
pub struct Dataset {
    /// Folder that holds `dataset.toml`.
    pub folder: PathBuf,
    /// Apparatus.
    pub apparatus: Apparatus,
    /// Register rows without errors, in the order of the register.
    pub rows: Vec<RegisterRow>,
    /// Columns of the register, canonical where they are known.
    pub columns: Vec<String>,
    register: PathBuf,
    logs_root: PathBuf,
    logs_left_out: Vec<PathBuf>,
    settings: LogSettings,
    tables: TableReader,
    register_settings: RegisterSettings,
    /// Stands before the ids of trials of a rig that is kept apart.
    mark: String,
}

/// One log file and the register rows it serves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogBatch {
    /// The log, as the user would type it.
    pub path: PathBuf,
    /// Indices into [`Dataset::rows`].
    pub rows: Vec<usize>,
}

/// Readings of one register row.
#[derive(Debug, Clone)]
pub struct ReadTrial {
    /// Index into [`Dataset::rows`].
    pub row: usize,
    /// Readings, unless an error stopped the trial.
    pub readings: Option<Readings>,
    /// Findings on them.
    pub findings: Vec<Finding>,
    /// How they were read.
    pub read_as: ReadAs,
}

impl Dataset {
    /// Opens a dataset folder whose files all lie in it: what lies elsewhere is not read. `None` if `dataset.toml` or the
    /// register cannot be read at all.
    pub fn open(folder: &Path) -> (Option<Self>, Vec<Finding>) {
        Self::open_reaching(folder, None, Reach::inside(folder))
    }

    /// Opens a dataset folder whose register and logs may lie anywhere.
    pub fn open_anywhere(folder: &Path) -> (Option<Self>, Vec<Finding>) {
        Self::open_reaching(folder, None, Reach::Anywhere)
    }

    /// Opens a dataset whose register and logs lie under `files_root` instead of where `dataset.toml` says.
    pub fn open_with(folder: &Path, files_root: Option<&Path>) -> (Option<Self>, Vec<Finding>) {
        Self::open_reaching(folder, files_root, Reach::Anywhere)
    }

    /// Opens a dataset that was unpacked: it lies in `real`, and findings and lists of files show it as `shown`.
    pub fn open_unpacked(shown: &Path, real: &Path) -> (Option<Self>, Vec<Finding>) {
        Self::open_reaching(shown, None, Reach::Unpacked { shown: normalize_path(shown), real: real.into() })
    }

    fn open_reaching(folder: &Path, files_root: Option<&Path>, reach: Reach) -> (Option<Self>, Vec<Finding>) {
        let tables = TableReader::new(reach);
        let description = folder.join(DESCRIPTION);
        let bytes = match tables.bytes(&description) {
            Ok(bytes) => bytes,
            Err(failure) => return (None, vec![file::unreadable(&description, failure)]),
        };
        let (described, mut findings) = dataset_file::read(&description, bytes);
        let Some(stated) = described else { return (None, findings) };
        let named = stated.register.unwrap_or_else(|| "trials.csv".into());
        let register = match files_root {
            Some(root) => root.join(named.file_name().unwrap_or_default()),
            None => folder.join(named),
        };
        let beside = register.parent().map(Path::to_path_buf).unwrap_or_default();
        let logs_root = match (files_root, stated.logs_root) {
            (None, Some(root)) => folder.join(root),
            _ => beside,
        };
        let table = match tables.table(&register, &stated.register_style.style) {
            Ok(table) => table,
            Err(failure) => {
                findings.push(file::unreadable(&register, failure));
                return (None, findings);
            }
        };
        let Table { path: register, bytes, style, findings: of_sheet } = table;
        let register_style = RegisterSettings { style, ..stated.register_style };
        let (rows, more) = register_file::read(&register, &bytes, &register_style, &stated.apparatus);
        findings.extend(more.into_iter().chain(of_sheet.into_iter().map(|f| at_sheet(f, &register))));
        let mut apparatus = stated.apparatus;
        named::add_usual_fuels(&mut apparatus, rows.as_ref().map_or(&[], |r| &r.rows));
        let origin = Arc::new(Origin { title: apparatus.title.clone(), assume: stated.assume });
        let dataset = rows.map(|r| Self {
            folder: folder.into(),
            apparatus,
            rows: r.rows.into_iter().map(|row| completed(row, &register, &origin)).collect(),
            columns: r.columns,
            logs_left_out: r.logs_left_out.iter().map(|log| log_files::sheet_of(log, &register, None)).collect(),
            register,
            logs_root,
            settings: stated.logs,
            tables,
            register_settings: register_style,
            mark: String::new(),
        });
        (dataset, findings)
    }

    /// Keeps the rig apart from others: a mark stands before the ids of its trials, and before those ids of its apparatus that mean
    /// something else in `others`.
    pub fn set_apart(&mut self, mark: &str, others: &Apparatus) {
        self.mark = format!("{mark}:");
        set_apart(mark, (&mut self.apparatus, &mut self.rows), others);
    }

    /// The logs and the rows each serves, in the order of first use in the register.
    pub fn batches(&self) -> Vec<LogBatch> {
        let mut batches: Vec<LogBatch> = Vec::new();
        let mut by_path = HashMap::new();
        for (index, row) in self.rows.iter().enumerate() {
            // `./b1.csv` and `b1.csv` are one file.
            let at = *by_path.entry(normalize_path(&row.log)).or_insert_with(|| {
                batches.push(LogBatch { path: self.logs_root.join(&row.log), rows: Vec::new() });
                batches.len() - 1
            });
            batches[at].rows.push(index);
        }
        batches
    }

    /// Reads one log. Depends on nothing but the file; can be called from many threads.
    pub fn read(&self, batch: &LogBatch) -> Vec<ReadTrial> {
        let rows: Vec<&RegisterRow> = batch.rows.iter().filter_map(|i| self.rows.get(*i)).collect();
        let wanted: Vec<Wanted<'_>> = rows.iter().map(|r| wanted(r, &self.mark)).collect();
        let trials = match self.tables.table(&batch.path, &self.settings.style) {
            Ok(table) => self.read_table(table, &wanted),
            Err(failure) => rows.iter().map(|r| self.unreadable(r, &batch.path, failure.clone())).collect(),
        };
        batch.rows.iter().zip(trials).map(|(row, trial)| self.without_faults(batch, *row, trial)).collect()
    }

    fn read_table(&self, table: Table, wanted: &[Wanted<'_>]) -> Vec<LogTrial> {
        let Table { path, bytes, style, findings } = table;
        let mut trials = log_file::read(&path, &bytes, &LogSettings { style, ..self.settings.clone() }, wanted);
        if let (Some(first), Some(w)) = (trials.first_mut(), wanted.first()) {
            first.findings.extend(findings.into_iter().map(|f| at_sheet(f, &path).trial(w.trial)));
        }
        trials
    }

    /// The trial of a row with faulty readings left out.
    fn without_faults(&self, batch: &LogBatch, row: usize, mut trial: LogTrial) -> ReadTrial {
        if let (Some(readings), Some(register)) = (&mut trial.readings, self.rows.get(row)) {
            let found = faults::leave_out(readings, register.kind).into_iter().map(Finding::from);
            trial.findings.extend(found.map(|f| f.at(&batch.path, None, None).trial(&register.trial)));
        }
        if let Some(register) = self.rows.get(row).filter(|_| !self.mark.is_empty()) {
            trial.findings.iter_mut().for_each(|f| f.trial = Some(register.trial.clone()));
        }
        ReadTrial { row, readings: trial.readings, findings: trial.findings, read_as: trial.read_as }
    }

    /// The logs that the register names, those of rows that were left out among them, as one spelling of their paths.
    pub fn named_logs(&self) -> HashSet<PathBuf> {
        let named = self.rows.iter().map(|r| &r.log).chain(&self.logs_left_out);
        named.map(|log| normalize_path(&self.logs_root.join(log))).collect()
    }

    /// Files in the folders of the logs that no register names; `named` are the logs of all registers. What lies beside the
    /// register may be anything else, and is a note only.
    pub fn unregistered_logs(&self, named: &HashSet<PathBuf>) -> Vec<Finding> {
        let logs: Vec<&PathBuf> = self.rows.iter().map(|r| &r.log).chain(&self.logs_left_out).collect();
        let mut findings = log_files::unregistered(&self.logs_root, &logs, &self.register, named, &self.tables.reach);
        let logs: Vec<PathBuf> = logs.into_iter().map(|log| self.logs_root.join(log)).collect();
        findings.extend(log_files::unregistered_sheets(&logs, &self.register, named, &self.tables));
        findings
    }

    /// Logs of some datasets that hold the same bytes as another, and sheets that hold the same cells as another of their dataset.
    pub fn equal_logs(sets: &[Self]) -> Vec<Finding> {
        let paths = |set: &Self| -> Vec<PathBuf> { set.batches().into_iter().map(|batch| batch.path).collect() };
        let of_set = |set: &Self| {
            let log = |shown: PathBuf| Some(LogPath { real: set.tables.reach.resolve(&shown).ok()?, shown });
            paths(set).into_iter().filter_map(log).collect::<Vec<LogPath>>()
        };
        let files = log_files::equal(&sets.iter().flat_map(of_set).collect::<Vec<_>>());
        let sheets =
            sets.iter().flat_map(|set| log_files::equal_sheets(paths(set).iter().map(PathBuf::as_path), &set.tables));
        files.into_iter().chain(sheets).collect()
    }

    /// The register's file, and the number of a canonical column in it, where it has that column.
    pub fn register_column(&self, name: &str) -> (&Path, Option<u64>) {
        (&self.register, self.columns.iter().position(|c| c == name).map(|index| index as u64 + 1))
    }

    /// The files read so far, in the order of their paths.
    pub fn input_files(&self) -> Vec<InputFile> {
        self.tables.files()
    }

    /// The register's file.
    pub fn register(&self) -> &Path {
        &self.register
    }

    /// The words of people in the bytes of the register or of a log. `None` where its columns cannot be told.
    pub fn personal_words(&self, path: &Path, bytes: &[u8]) -> Option<PersonalWords> {
        self.with_table(path, bytes, |table| table.words())
    }

    /// The bytes of the register or of a log without what is left out. `None` where its columns cannot be told.
    pub fn without(&self, path: &Path, bytes: &[u8], left_out: &LeftOut) -> Option<Vec<u8>> {
        self.with_table(path, bytes, |table| table.without(left_out))
    }

    fn with_table<T>(&self, path: &Path, bytes: &[u8], take: impl FnOnce(TextTable<'_>) -> T) -> Option<T> {
        if normalize_path(path) == normalize_path(&self.register) {
            register_file::with_table(bytes, &self.register_settings, take)
        } else {
            log_file::with_table(bytes, &self.settings, take)
        }
    }

    fn unreadable(&self, row: &RegisterRow, log: &Path, failure: ReadFailure) -> LogTrial {
        let finding = Finding::from(Log::Unreadable { log: log.into(), failure });
        let finding = finding.at(&self.register, Some(row.line), None).trial(&row.trial);
        LogTrial { findings: vec![finding], ..LogTrial::default() }
    }
}

/// A finding on a sheet, at its place.
fn at_sheet(mut finding: Finding, sheet: &Path) -> Finding {
    finding.file = Some(sheet.into());
    finding
}

/// A register row that knows its dataset; the log `#Burn 3` is a sheet of the register's own workbook, and a workbook without
/// the name of a sheet means the sheet named like the trial.
fn completed(mut row: RegisterRow, register: &Path, origin: &Arc<Origin>) -> RegisterRow {
    row.origin = origin.clone();
    row.log = log_files::sheet_of(&row.log, register, Some(&row.trial));
    row
}

/// A row as its log knows it; `mark` stands before ids in this program only.
fn wanted<'r>(row: &'r RegisterRow, mark: &str) -> Wanted<'r> {
    let is_burn = row.kind == TrialKind::Burn;
    Wanted {
        trial: row.trial.strip_prefix(mark).unwrap_or(&row.trial),
        date: row.date.as_deref(),
        is_burn,
        air: row.ambient,
    }
}

#[cfg(test)]
mod tests;
