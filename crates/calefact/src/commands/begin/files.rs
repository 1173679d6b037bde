//! The files of `new` on disk: which logs there are, where they go, and that nothing is overwritten.

use calefact_data::{SheetAddress, tables};
use calefact_report::StarterFile;
use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Most files that are looked at.
const MOST_FILES: usize = 10_000;

/// A log and where it lies in the dataset.
#[derive(Clone)]
pub(super) struct Place {
    /// The file as it is.
    from: PathBuf,
    /// Its path in the folder of the dataset, with forward slashes and the name of its sheet.
    name: String,
    /// Path that the file has to be copied to.
    to: Option<String>,
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

/// Where logs go: those in the folder of the dataset stay, others are copied below `logs`, a workbook once with all its sheets.
pub(super) fn places<'p>(dir: &Path, logs: impl Iterator<Item = &'p Path>) -> Vec<Place> {
    let root = fs::canonicalize(if dir.as_os_str().is_empty() { Path::new(".") } else { dir }).ok();
    let mut taken = BTreeSet::new();
    let mut names: BTreeMap<PathBuf, Place> = BTreeMap::new();
    let mut place = |log: &Path| {
        let address = SheetAddress::parse(log);
        let file = address.as_ref().map_or_else(|| log.to_path_buf(), |a| a.workbook.clone());
        let place = names.entry(file.clone()).or_insert_with(|| place_of(&file, root.as_deref(), &mut taken)).clone();
        match address.and_then(|a| a.sheet) {
            Some(sheet) => Place { name: format!("{}#{sheet}", place.name), ..place },
            None => place,
        }
    };
    logs.map(&mut place).collect()
}

/// The place of a file.
fn place_of(file: &Path, root: Option<&Path>, taken: &mut BTreeSet<String>) -> Place {
    let real = fs::canonicalize(file).ok().filter(|_| !file.is_symlink());
    let inside = real.as_ref().zip(root).and_then(|(real, root)| real.strip_prefix(root).ok());
    let Some(inside) = inside else {
        let name = free(file, taken);
        return Place { from: file.to_path_buf(), to: Some(name.clone()), name };
    };
    let parts: Vec<String> = inside.components().map(|c| c.as_os_str().to_string_lossy().into_owned()).collect();
    Place { from: file.to_path_buf(), to: None, name: parts.join("/") }
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
    let copied: BTreeMap<&str, &Path> =
        places.iter().filter_map(|place| Some((place.to.as_deref()?, place.from.as_path()))).collect();
    let names = texts.iter().map(|file| file.path).chain(SCHEMAS.iter().map(|s| s.path));
    let paths = names.chain(copied.keys().copied()).map(|name| dir.join(name));
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
    for (name, from) in copied {
        let to = dir.join(name);
        folder_of(&to)?;
        fs::copy(from, &to).map_err(|error| format!("cannot copy {}: {error}", from.display()))?;
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
