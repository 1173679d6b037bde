//! The pipeline that a command line means: a file, the only one of a folder, or the usual comparisons of a dataset.

use calefact_analysis::fact::PipelineFact;
use calefact_analysis::finding::Finding;
use calefact_data::{DESCRIPTION, holds_tables, is_table, normalize_path};
use std::fs;
use std::path::{Path, PathBuf};

/// A pipeline that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Located {
    /// A pipeline file, and whether it was named.
    File(PathBuf, bool),
    /// The folder of a dataset that no pipeline file goes with.
    Dataset(PathBuf),
}

/// Looks for the pipeline at a path, or in the folder that the command runs in.
///
/// # Errors
/// The finding where there is none, or more than one.
pub(crate) fn locate(typed: Option<&Path>) -> Result<Located, Box<Finding>> {
    let path = typed.map_or_else(PathBuf::new, normalize_path);
    if path.as_os_str().is_empty() || path.is_dir() {
        return in_folder(&path);
    }
    if path.file_name().is_some_and(|name| name == DESCRIPTION) && path.exists() {
        return Ok(Located::Dataset(path.parent().unwrap_or(Path::new("")).to_path_buf()));
    }
    if is_table(&path) {
        return Err(Finding::error(PipelineFact::NotAPipeline { path: path.clone() }).at(path, None, None).into());
    }
    Ok(Located::File(path, true))
}

fn in_folder(folder: &Path) -> Result<Located, Box<Finding>> {
    let mut files = pipelines(folder);
    let is_dataset = folder.join(DESCRIPTION).is_file();
    let fact = match (files.len(), is_dataset) {
        (1, _) => return Ok(Located::File(files.remove(0), false)),
        (0, true) => return Ok(Located::Dataset(folder.to_path_buf())),
        (0, false) => PipelineFact::NothingToRun { folder: folder.to_path_buf(), tables: holds_tables(folder) },
        _ => PipelineFact::SeveralPipelines { files },
    };
    let shown = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    Err(Finding::error(fact).at(shown, None, None).into())
}

/// Largest file that is looked into, bytes: a pipeline file is small.
const MOST_BYTES: u64 = 1 << 20;

/// Pipeline files of a folder, by their key `datasets`, sorted.
fn pipelines(folder: &Path) -> Vec<PathBuf> {
    let opened = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let entries = fs::read_dir(opened).into_iter().flatten().filter_map(Result::ok);
    let names = entries.map(|entry| folder.join(entry.file_name()));
    let mut files: Vec<PathBuf> = names.filter(|path| is_pipeline(path)).collect();
    files.sort();
    files
}

fn is_pipeline(path: &Path) -> bool {
    let is_small = || fs::metadata(path).is_ok_and(|about| about.is_file() && about.len() <= MOST_BYTES);
    let has_key = |text: String| {
        let value =
            |line: &str| line.trim_start().strip_prefix("datasets").map(|rest| rest.trim_start().starts_with('='));
        text.lines().any(|line| value(line) == Some(true))
    };
    path.extension().is_some_and(|e| e == "toml") && is_small() && fs::read_to_string(path).is_ok_and(has_key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_leads_to_its_only_pipeline_or_its_dataset() {
        let dir = tempfile::tempdir().expect("a folder");
        let found = || locate(Some(dir.path())).map_err(|finding| finding.code());
        let write = |name: &str, text: &str| fs::write(dir.path().join(name), text).expect("a file");
        assert_eq!(found(), Err("not-a-pipeline"));
        write("dataset.toml", "title = \"datasets = []\"\n");
        write("Cargo.toml", "[package]\nname = \"x\"\n");
        assert_eq!(found(), Ok(Located::Dataset(dir.path().into())));
        write("a.toml", "name = \"a\"\n datasets=[\".\"]\n");
        assert_eq!(found(), Ok(Located::File(dir.path().join("a.toml"), false)));
        write("b.toml", "datasets = [\n");
        assert_eq!(found(), Err("several-pipelines"));
        assert_eq!(locate(Some(&dir.path().join("dataset.toml"))), Ok(Located::Dataset(dir.path().into())));
    }

    #[test]
    fn tables_are_no_pipelines_and_other_names_are_taken_as_typed() {
        for name in ["trials.csv", "x/Burn 3.XLSX"] {
            assert_eq!(locate(Some(Path::new(name))).map_err(|f| f.code()), Err("not-a-pipeline"), "{name}");
        }
        assert_eq!(locate(Some(Path::new("./p.toml"))), Ok(Located::File("p.toml".into(), true)));
    }
}
