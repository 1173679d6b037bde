//! The files of `new` on disk: which logs there are, where they go, and that nothing is overwritten.

use calefact_data::tables;
use calefact_report::StarterFile;
use std::collections::BTreeSet;
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Most files that are looked at.
const MOST_FILES: usize = 10_000;

/// A log and where it lies in the dataset.
pub(super) struct Place {
    /// The file as it is.
    from: PathBuf,
    /// Its path in the folder of the dataset, with forward slashes.
    name: String,
    /// Whether it has to be copied there.
    copied: bool,
}

impl Place {
    /// Its path in the folder of the dataset.
    pub(super) fn name(&self) -> String {
        self.name.clone()
    }
}

/// The files that are named, and the tables of the folders that are named, each once, sorted within a folder.
///
/// # Errors
/// A line that says which is not there, or that there are too many.
pub(super) fn expand(from: &[PathBuf]) -> Result<Vec<PathBuf>, String> {
    let mut files: Vec<PathBuf> = Vec::new();
    let mut seen = BTreeSet::new();
    for path in from {
        let found = if path.is_dir() { tables(path) } else { vec![path.clone()] };
        if found.is_empty() {
            return Err(format!("{} holds no CSV, TSV or text file", path.display()));
        }
        for file in found {
            let real = fs::canonicalize(&file).map_err(|error| format!("cannot read {}: {error}", file.display()))?;
            if seen.insert(real) {
                files.push(file);
            }
        }
    }
    if files.len() > MOST_FILES {
        return Err(format!("{} files are more than the {MOST_FILES} that `new` looks at; name fewer", files.len()));
    }
    Ok(files)
}

/// Where logs go: those in the folder of the dataset stay, others are copied below `logs`.
pub(super) fn places<'p>(dir: &Path, logs: impl Iterator<Item = &'p Path>) -> Vec<Place> {
    let root = fs::canonicalize(if dir.as_os_str().is_empty() { Path::new(".") } else { dir }).ok();
    let mut taken = BTreeSet::new();
    let mut place = |log: &Path| {
        let real = fs::canonicalize(log).ok();
        let inside = real.as_ref().zip(root.as_ref()).and_then(|(real, root)| real.strip_prefix(root).ok());
        let is_link = log.is_symlink();
        if let Some(inside) = inside.filter(|_| !is_link) {
            let parts: Vec<String> =
                inside.components().map(|c| c.as_os_str().to_string_lossy().into_owned()).collect();
            return Place { from: log.to_path_buf(), name: parts.join("/"), copied: false };
        }
        Place { from: log.to_path_buf(), name: free(log, &mut taken), copied: true }
    };
    logs.map(&mut place).collect()
}

/// A name below `logs` that no other log has.
fn free(log: &Path, taken: &mut BTreeSet<String>) -> String {
    let stem = log.file_stem().unwrap_or_default().to_string_lossy();
    let ending = log.extension().map(|e| format!(".{}", e.to_string_lossy())).unwrap_or_default();
    let mut name = format!("logs/{stem}{ending}");
    let mut number = 1;
    while !taken.insert(name.to_lowercase()) {
        number += 1;
        name = format!("logs/{stem}-{number}{ending}");
    }
    name
}

/// The schemas of the two TOML files, for editors that check by them.
const SCHEMAS: [StarterSchema; 2] = [
    StarterSchema {
        path: "schemas/dataset.schema.json",
        text: include_str!("../../../../../datasets/dataset.schema.json"),
    },
    StarterSchema {
        path: "schemas/pipeline.schema.json",
        text: include_str!("../../../../../pipelines/pipeline.schema.json"),
    },
];

struct StarterSchema {
    path: &'static str,
    text: &'static str,
}

/// Writes the texts and copies the logs, if none of the files is there yet; gives what was written for the person.
///
/// # Errors
/// A line that says which file is there, or could not be written.
pub(super) fn write(dir: &Path, texts: &[StarterFile], places: &[Place], sheet: &Path) -> Result<Vec<PathBuf>, String> {
    let copied = || places.iter().filter(|place| place.copied);
    let names = texts.iter().map(|file| file.path).chain(SCHEMAS.iter().map(|s| s.path));
    let paths = names.chain(copied().map(|place| place.name.as_str())).map(|name| dir.join(name));
    let there: Vec<String> = paths
        .chain([sheet.to_path_buf()])
        .filter(|path| path.symlink_metadata().is_ok())
        .map(|p| p.display().to_string())
        .collect();
    if !there.is_empty() {
        return Err(format!("nothing was written, since there is a file already: {}", there.join(", ")));
    }
    for schema in &SCHEMAS {
        create(&dir.join(schema.path), schema.text)?;
    }
    for place in copied() {
        let to = dir.join(&place.name);
        folder_of(&to)?;
        fs::copy(&place.from, &to).map_err(|error| format!("cannot copy {}: {error}", place.from.display()))?;
    }
    let mut written = Vec::new();
    for file in texts {
        let path = dir.join(file.path);
        create(&path, &file.text)?;
        written.push(path);
    }
    Ok(written)
}

/// Writes a file that is not there.
fn create(path: &Path, text: &str) -> Result<(), String> {
    folder_of(path)?;
    let file = OpenOptions::new().write(true).create_new(true).open(path);
    file.and_then(|mut file| file.write_all(text.as_bytes()))
        .map_err(|error| format!("cannot write {}: {error}", path.display()))
}

fn folder_of(path: &Path) -> Result<(), String> {
    let parent = path.parent().unwrap_or(Path::new(""));
    fs::create_dir_all(parent).map_err(|error| format!("cannot create {}: {error}", parent.display()))
}
