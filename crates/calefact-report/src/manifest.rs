//! The manifest: what went in and what came out, each with its SHA-256, so that a stranger can check a rerun.

use crate::words::{self, Typography, Units, Wording};
use crate::{ReportError, place};
use calefact_analysis::Settings;
use calefact_analysis::result::Analysis;
use calefact_data::InputFile;
use rayon::prelude::*;
use serde::Serialize;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// File name.
const NAME: &str = "manifest.json";

/// The program that wrote the report and the command that made it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ToolInfo {
    /// Name of the program.
    pub name: String,
    /// Its version.
    pub version: String,
    /// The command as a person would type it again.
    pub command: String,
}

/// A file and its hash.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(crate) struct Hashed {
    /// Relative path with forward slashes.
    pub(crate) path: String,
    /// Size.
    pub(crate) bytes: u64,
    /// SHA-256 of the bytes, hexadecimal.
    pub(crate) sha256: String,
}

#[derive(Serialize)]
struct Manifest<'a> {
    report: &'a str,
    title: &'a str,
    invented_data: bool,
    tool: &'a ToolInfo,
    method: Vec<String>,
    settings: &'a Settings,
    inputs: &'a [Hashed],
    outputs: &'a [Hashed],
}

impl Hashed {
    /// A file that was read, shown relative to `base`.
    fn from_input(file: &InputFile, base: &Path) -> Self {
        Self { path: place::relative(&file.path, base), bytes: file.bytes, sha256: file.hex() }
    }
}

/// The files that were read, shown relative to `base`, sorted by the path shown.
pub(crate) fn inputs(files: &[InputFile], base: &Path) -> Vec<Hashed> {
    sorted(files.iter().map(|file| Hashed::from_input(file, base)).collect())
}

fn sorted(mut all: Vec<Hashed>) -> Vec<Hashed> {
    all.sort_by(|a, b| a.path.cmp(&b.path));
    all.dedup();
    all
}

/// Hashes files, shown relative to `base`, sorted by the path shown.
pub(crate) fn hash_all(paths: &[PathBuf], base: &Path) -> Result<Vec<Hashed>, ReportError> {
    Ok(sorted(paths.par_iter().map(|p| hash(p, base)).collect::<Result<Vec<_>, _>>()?))
}

/// Writes `manifest.json` into a folder.
pub(crate) fn write(
    dir: &Path,
    analysis: &Analysis,
    tool: &ToolInfo,
    inputs: &[Hashed],
    outputs: &[Hashed],
) -> Result<(), ReportError> {
    let w = Wording::of_analysis(analysis, Units::Metric, Typography::Plain);
    let manifest = Manifest {
        report: &analysis.name,
        title: &analysis.title,
        invented_data: analysis.invented,
        tool,
        method: words::method::settings(&w, &analysis.settings),
        settings: &analysis.settings,
        inputs,
        outputs,
    };
    save(dir, &manifest)
}

/// Writes `manifest.json` of a folder that no settings of an analysis describe: what went in and what came out.
pub(crate) fn write_files(
    dir: &Path,
    (kind, name): (&str, &str),
    tool: &ToolInfo,
    (inputs, outputs): (&[Hashed], &[Hashed]),
) -> Result<(), ReportError> {
    save(dir, &serde_json::json!({ kind: name, "tool": tool, "inputs": inputs, "outputs": outputs }))
}

fn save(dir: &Path, manifest: &impl Serialize) -> Result<(), ReportError> {
    let path = dir.join(NAME);
    let mut text = serde_json::to_string_pretty(manifest).map_err(|e| ReportError::io("write", &path)(e.into()))?;
    text.push('\n');
    std::fs::write(&path, text).map_err(ReportError::io("write", &path))
}

/// The files of a report, its manifest among them; none where the folder holds no manifest as written here.
pub(crate) fn listed(dir: &Path) -> Option<BTreeSet<String>> {
    let bytes = std::fs::read(dir.join(NAME)).ok()?;
    let value: serde_json::Value = serde_json::from_slice(&bytes).ok()?;
    let is_ours = value.get("tool").and_then(|tool| tool.get("name")).is_some_and(|name| name == "calefact");
    let outputs = value.get("outputs").filter(|_| is_ours && value.get("inputs").is_some())?;
    let path = |file: &serde_json::Value| file.get("path").and_then(|p| p.as_str()).map(ToOwned::to_owned);
    Some(outputs.as_array()?.iter().filter_map(path).chain([NAME.to_owned()]).collect())
}

/// The pipeline file, or `dataset.toml`, that the results in a folder were made of, without its folder; none where the folder
/// holds no manifest as written here.
pub fn made_of(dir: &Path) -> Option<String> {
    let value: serde_json::Value = serde_json::from_slice(&std::fs::read(dir.join(NAME)).ok()?).ok()?;
    let mut words = value.get("tool")?.get("command")?.as_str()?.splitn(3, ' ');
    let name = words.nth(2)?;
    Some(name.split(" --").next().unwrap_or(name).to_owned())
}

/// Hashes one file, shown relative to `base`.
pub(crate) fn hash(path: &Path, base: &Path) -> Result<Hashed, ReportError> {
    let file = InputFile::read(path).map_err(ReportError::io("read", path))?;
    Ok(Hashed::from_input(&file, base))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_manifest_of_another_program_lists_nothing_of_ours() {
        let dir = tempfile::tempdir().unwrap();
        let of_tool = |tool: &str| {
            let manifest = format!(r#"{{"tool":{tool},"inputs":[],"outputs":[{{"path":"index.html"}}]}}"#);
            std::fs::write(dir.path().join(NAME), manifest).unwrap();
            listed(dir.path())
        };
        assert_eq!(of_tool(r#"{"name":"other"}"#), None);
        let ours = ["index.html", NAME].map(ToOwned::to_owned);
        assert_eq!(of_tool(r#"{"name":"calefact"}"#), Some(ours.into()));
    }

    /// FIPS 180-2, appendix B.1: the message "abc".
    #[test]
    fn sha256_of_the_published_example() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("abc.txt");
        std::fs::write(&path, "abc").unwrap();
        let all = hash_all(&[path], dir.path()).unwrap();
        assert_eq!(all[0].sha256, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!((all[0].path.as_str(), all[0].bytes), ("abc.txt", 3));
    }
}
