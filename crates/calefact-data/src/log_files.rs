//! The log files of a dataset on disk: those that no register names, and those that hold the same bytes. Nothing is read
//! from them but their bytes.

use crate::Finding;
use crate::fact::Log;
use crate::file;
use crate::layout::FileStyle;
use crate::normalize_path;
use crate::reach::Reach;
use crate::table_reader::TableReader;
use crate::text::header::same_name;
use crate::workbook::SheetAddress;
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::ffi::OsStr;
use std::fs::{DirEntry, File};
use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::io::Read as _;
use std::path::{Component, Path, PathBuf};

/// The log of a trial where it is a sheet: `#Burn 3`, or `Burn 3` beside a register that is a sheet, is one of the register's own
/// workbook; a workbook without the name of a sheet means the sheet named like the trial.
pub(crate) fn sheet_of(log: &Path, register: &Path, trial: Option<&str>) -> PathBuf {
    if let Some(address) = SheetAddress::parse(log).filter(|address| address.sheet.is_none()) {
        return trial.map_or_else(|| log.into(), |trial| address.with_sheet(trial));
    }
    let is_plain = log.extension().is_none() && log.components().count() == 1;
    let sheet = log.to_str().and_then(|log| log.strip_prefix('#').or_else(|| is_plain.then_some(log)));
    let own = sheet.zip(SheetAddress::parse(register));
    own.map_or_else(
        || log.into(),
        |(sheet, register)| {
            let workbook = register.workbook.file_name().unwrap_or_default().into();
            SheetAddress { workbook, sheet: None }.with_sheet(sheet)
        },
    )
}

/// Sheets that no register names, of the workbooks in which a register or its logs lie; one note a workbook. `named` are the
/// logs of all registers.
pub(crate) fn unregistered_sheets(
    logs: &[PathBuf],
    register: &Path,
    named: &HashSet<PathBuf>,
    tables: &TableReader,
) -> Vec<Finding> {
    let address = |path: &PathBuf| SheetAddress::parse(path);
    let named: Vec<SheetAddress> = named.iter().chain([&normalize_path(register)]).filter_map(address).collect();
    let register = register.to_path_buf();
    let workbooks: BTreeSet<PathBuf> =
        logs.iter().chain([&register]).filter_map(address).map(|a| normalize_path(&a.workbook)).collect();
    let note = |workbook: PathBuf| {
        let is_named = |sheet: &String| {
            let mut of_workbook = named.iter().filter(|a| a.workbook == workbook);
            of_workbook.any(|a| a.sheet.as_deref().is_none_or(|named| same_name(named, sheet)))
        };
        let strays: Vec<String> = tables.sheet_names(&workbook).into_iter().filter(|s| !is_named(s)).collect();
        (!strays.is_empty()).then(|| Finding::from(Log::SheetsUnregistered(strays)).at(workbook, None, None))
    };
    workbooks.into_iter().filter_map(note).collect()
}

/// Endings of files that may be logs, besides those of the named ones.
const ENDINGS: [&str; 3] = ["csv", "tsv", "txt"];

/// Whether a file may hold a table, by its ending: delimited text or a workbook.
pub fn is_table(path: &Path) -> bool {
    let is_text = path.extension().is_some_and(|e| ENDINGS.iter().any(|x| e.eq_ignore_ascii_case(x)));
    is_text || SheetAddress::parse(path).is_some()
}

/// Whether a folder, or one in it, holds a table.
pub fn holds_tables(folder: &Path) -> bool {
    !tables(folder).is_empty()
}

/// The tables in a folder and in the folders right below it, sorted.
pub fn tables(folder: &Path) -> Vec<PathBuf> {
    let mut files = BTreeSet::new();
    add_files(folder, false, &mut files);
    let opened = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let entries = std::fs::read_dir(opened).into_iter().flatten().filter_map(Result::ok);
    let below = entries.filter(|entry| entry.file_type().is_ok_and(|t| t.is_dir()));
    below.for_each(|entry| add_files(&folder.join(entry.file_name()), false, &mut files));
    files.into_iter().filter(|file| is_table(file)).collect()
}

/// Files that lie where the logs of a register lie and that no register names. `root` is the folder that `logs`, the logs of this
/// register, are relative to; `named` are the logs of all registers. Only folders in `reach` are looked into.
pub(crate) fn unregistered(
    root: &Path,
    logs: &[&PathBuf],
    register: &Path,
    named: &HashSet<PathBuf>,
    reach: &Reach,
) -> Vec<Finding> {
    let register = normalize_path(register);
    let beside = register.parent();
    let endings: BTreeSet<&OsStr> = logs.iter().filter_map(|log| log.extension()).collect();
    let is_log = |path: &PathBuf| {
        path.extension().is_some_and(|e| endings.contains(e) || ENDINGS.iter().any(|x| e.eq_ignore_ascii_case(x)))
    };
    let mut files = BTreeSet::new();
    for (folder, deep) in folders(root, logs).into_iter().filter(|(folder, _)| reach.check(folder).is_ok()) {
        add_files(&folder, deep, &mut files);
    }
    let stray = files.into_iter().filter(|f| is_log(f) && !named.contains(f) && *f != register);
    stray
        .map(|f| Finding::from(Log::Unregistered { beside_register: f.parent() == beside }).at(&f, None, None))
        .collect()
}

/// The folders to look in and whether to look below them: all below a folder of logs in `root`, but not all below `root` itself,
/// which may hold anything.
fn folders(root: &Path, logs: &[&PathBuf]) -> BTreeMap<PathBuf, bool> {
    let mut folders = BTreeMap::from([(normalize_path(&root.join("logs")), true)]);
    for log in logs.iter().map(|log| normalize_path(log)) {
        let mut parts = log.components();
        let (first, is_below) = (parts.next(), parts.next().is_some());
        match first {
            Some(Component::Normal(folder)) if is_below => folders.insert(normalize_path(&root.join(folder)), true),
            _ => folders.insert(normalize_path(root.join(&log).parent().unwrap_or(root)), false),
        };
    }
    folders
}

fn add_files(folder: &Path, deep: bool, files: &mut BTreeSet<PathBuf>) {
    // The folder that the command runs in has an empty name.
    let opened = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    for entry in std::fs::read_dir(opened).into_iter().flatten().filter_map(Result::ok) {
        let path = folder.join(entry.file_name());
        if is_file(&entry) {
            files.insert(path);
        } else if deep && entry.file_type().is_ok_and(|t| t.is_dir()) {
            add_files(&path, deep, files);
        }
    }
}

/// The folder itself says what most entries are; only a link has to be asked where it leads.
fn is_file(entry: &DirEntry) -> bool {
    entry.file_type().is_ok_and(|t| t.is_file() || (t.is_symlink() && entry.path().is_file()))
}

/// Bytes at the start of a log by which most logs of one size differ.
const START: u64 = 4096;

/// A log as people know it, and where it lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct LogPath {
    pub(crate) shown: PathBuf,
    pub(crate) real: PathBuf,
}

/// Logs that hold the same bytes as an earlier one. Only files of one size and one start are read to their end.
pub(crate) fn equal(logs: &[LogPath]) -> Vec<Finding> {
    let mut by_size: BTreeMap<u64, Vec<&LogPath>> = BTreeMap::new();
    for log in logs {
        if let Ok(about) = std::fs::metadata(&log.real) {
            by_size.entry(about.len()).or_default().push(log);
        }
    }
    let mut findings = Vec::new();
    for same_size in by_size.into_values().filter(|logs| logs.len() > 1) {
        let mut by_hash: BTreeMap<u64, &LogPath> = BTreeMap::new();
        for log in of_one_start(&same_size) {
            let Ok(bytes) = file::read(&log.real) else { continue };
            let first = *by_hash.entry(hash(&bytes)).or_insert(log);
            if first != log && file::read(&first.real).is_ok_and(|other| other == bytes) {
                let fact = Log::SameBytes { first: first.shown.clone() };
                findings.push(Finding::from(fact).at(&log.shown, None, None));
            }
        }
    }
    findings
}

/// Sheets that hold the same cells as an earlier one: one that was copied and not filled in.
pub(crate) fn equal_sheets<'p>(logs: impl Iterator<Item = &'p Path>, tables: &TableReader) -> Vec<Finding> {
    let mut by_hash: BTreeMap<u64, &Path> = BTreeMap::new();
    let mut findings = Vec::new();
    for sheet in logs.filter(|log| SheetAddress::parse(log).is_some()) {
        let Ok(table) = tables.table(sheet, &FileStyle::default()) else { continue };
        let first = *by_hash.entry(hash(&table.bytes)).or_insert(sheet);
        if first != sheet && !table.bytes.is_empty() {
            findings.push(Finding::from(Log::SameBytes { first: first.into() }).at(sheet, None, None));
        }
    }
    findings
}

/// Those of some logs that begin as another one does, in their order.
fn of_one_start<'p>(logs: &[&'p LogPath]) -> Vec<&'p LogPath> {
    let starts: Vec<Option<u64>> = logs.iter().map(|log| start(&log.real).ok()).collect();
    let mut counts: BTreeMap<u64, usize> = BTreeMap::new();
    starts.iter().flatten().for_each(|start| *counts.entry(*start).or_insert(0) += 1);
    let is_shared = |start: &Option<u64>| start.is_some_and(|start| counts[&start] > 1);
    logs.iter().zip(&starts).filter(|(_, start)| is_shared(start)).map(|(log, _)| *log).collect()
}

/// Hash of the start of a file.
fn start(log: &Path) -> std::io::Result<u64> {
    let mut bytes = Vec::new();
    File::open(log)?.take(START).read_to_end(&mut bytes)?;
    Ok(hash(&bytes))
}

/// Equal bytes have equal hashes; the logs of a large dataset would not fit in memory.
fn hash(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    bytes.hash(&mut hasher);
    hasher.finish()
}
