//! Where each file that was read lies in the bundle. Only files in the folders of datasets are packed.

use crate::entry_names::EntryNames;
use crate::names::DATASETS;
use calefact_analysis::fact::NameFault;
use calefact_data::{InputFile, normalize_path};
use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

/// A file to pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackedFile {
    /// The file as it was read.
    pub source: InputFile,
    /// Its path in the bundle.
    pub name: String,
    /// Index of its dataset.
    pub dataset: usize,
}

/// The files of a bundle and the folders of its datasets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// Folders of the datasets in the bundle, in the order of the pipeline.
    pub datasets: Vec<String>,
    /// Files, in the order of their paths in the bundle.
    pub files: Vec<PackedFile>,
}

/// Why files cannot be packed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LayoutError {
    /// A file that was read lies in no folder of a dataset.
    Outside(PathBuf),
    /// A name that some system cannot hold.
    Name(PathBuf, NameFault),
    /// A file that changed between two reads of it.
    Changed(PathBuf),
}

impl Layout {
    /// The places of files that were read from the folders of datasets.
    ///
    /// # Errors
    /// The first file that cannot be packed.
    pub fn new(folders: &[PathBuf], read: &[InputFile]) -> Result<Self, LayoutError> {
        let datasets = dataset_names(folders);
        let roots: Vec<PathBuf> = folders.iter().map(|folder| normalize_path(folder)).collect();
        let mut by_path: BTreeMap<PathBuf, &InputFile> = BTreeMap::new();
        for file in read {
            let same = by_path.insert(normalize_path(&file.path), file);
            if same.is_some_and(|other| other.sha256 != file.sha256) {
                return Err(LayoutError::Changed(file.path.clone()));
            }
        }
        let (mut names, mut files) = (EntryNames::default(), Vec::new());
        for (path, source) in by_path {
            let (dataset, inside) = place(&roots, &path).ok_or_else(|| LayoutError::Outside(source.path.clone()))?;
            let name = format!("{}/{inside}", datasets[dataset]);
            names.add(&name).map_err(|fault| LayoutError::Name(source.path.clone(), fault))?;
            files.push(PackedFile { source: source.clone(), name, dataset });
        }
        files.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(Self { datasets, files })
    }
}

/// The dataset that holds a file, the innermost where one lies in another, and the file's path in it.
fn place(roots: &[PathBuf], path: &Path) -> Option<(usize, String)> {
    let inside = |(index, root): (usize, &PathBuf)| {
        let rest = path.strip_prefix(root).ok()?;
        let parts = rest.components().map(|part| match part {
            Component::Normal(name) => Some(name.to_string_lossy()),
            _ => None,
        });
        Some((root.components().count(), index, parts.collect::<Option<Vec<_>>>()?.join("/")))
    };
    let innermost = roots.iter().enumerate().filter_map(inside).max_by_key(|(depth, ..)| *depth);
    innermost.map(|(_, index, inside)| (index, inside))
}

/// A folder below [`DATASETS`] for each dataset, by the name of its own folder.
fn dataset_names(folders: &[PathBuf]) -> Vec<String> {
    let mut names = EntryNames::default();
    let free = |folder: &PathBuf| {
        let own = folder_name(folder);
        let numbered = (2..).map(|n| format!("{own}-{n}"));
        let mut wanted = std::iter::once(own.clone()).chain(numbered).map(|name| format!("{DATASETS}/{name}"));
        wanted.find(|name| names.add(name).is_ok()).unwrap_or_default()
    };
    folders.iter().map(free).collect()
}

/// The name of a folder, with letters, digits, `-`, `_` and `.` only.
fn folder_name(folder: &Path) -> String {
    let own = folder.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let fits = |c: char| if c.is_alphanumeric() || "-_.".contains(c) { c } else { '-' };
    let name: String = own.chars().take(60).map(fits).collect();
    let name = name.trim_matches(['.', '-']).to_owned();
    if name.is_empty() || crate::name_fault(&name).is_some() { "dataset".into() } else { name }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str) -> InputFile {
        InputFile::new(Path::new(path), path.as_bytes())
    }

    fn names(folders: &[&str], files: &[&str]) -> Result<Vec<String>, LayoutError> {
        let folders: Vec<PathBuf> = folders.iter().map(PathBuf::from).collect();
        let files: Vec<InputFile> = files.iter().map(|path| file(path)).collect();
        Layout::new(&folders, &files).map(|layout| layout.files.into_iter().map(|f| f.name).collect())
    }

    #[test]
    fn folders_of_one_name_are_kept_apart() {
        let found = names(&["a/Hill", "b/hill", "c/CON"], &["a/Hill/t.csv", "b/hill/t.csv", "./c/CON/t.csv"]);
        let wanted = ["datasets/Hill/t.csv", "datasets/dataset/t.csv", "datasets/hill-2/t.csv"];
        assert_eq!(found, Ok(wanted.map(str::to_owned).to_vec()));
    }

    #[test]
    fn nothing_outside_a_dataset_is_packed() {
        for path in ["/etc/passwd", "set/../secret.csv", "pipeline.toml", "settings/a.csv"] {
            assert_eq!(names(&["set"], &["set/a.csv", path]), Err(LayoutError::Outside(path.into())), "{path}");
        }
    }

    #[test]
    fn names_and_changes_are_refused() {
        assert_eq!(names(&["d"], &["d/12:30.csv"]), Err(LayoutError::Name("d/12:30.csv".into(), NameFault::Character)));
        let changed = [file("d/a.csv"), InputFile::new(Path::new("d/a.csv"), b"longer")];
        assert_eq!(Layout::new(&["d".into()], &changed), Err(LayoutError::Changed("d/a.csv".into())));
        assert_eq!(names(&[""], &["logs/a.csv"]), Ok(vec!["datasets/dataset/logs/a.csv".into()]));
    }
}
