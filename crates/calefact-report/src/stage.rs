//! A report in the making: a temporary folder beside the target that takes the target's place when everything is there.

use crate::folder::{files, keep_foreign, occupied};
use crate::manifest::{self, Hashed, ToolInfo};
use crate::readings::{ReadingsFiles, ReadingsWriter};
use crate::trial_tables::TrialTables;
use crate::words::{Typography, Wording};
use crate::{Formats, ReportError, charts, html, tables};
use calefact_analysis::result::Analysis;
use calefact_data::Apparatus;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// What was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Summary {
    /// Folder of the report.
    pub folder: PathBuf,
    /// The page to open first.
    pub page: PathBuf,
    /// Everything written, relative to the folder, in the order of their names.
    pub files: Vec<PathBuf>,
}

/// A report in the making. Dropping it unfinished leaves the target as it was.
#[derive(Debug)]
pub struct Stage {
    out: PathBuf,
    formats: Formats,
    temporary: TempDir,
}

impl Stage {
    /// Creates the temporary folder beside `out`.
    ///
    /// # Errors
    /// If it cannot be created, or if `out` exists and holds anything but an earlier report.
    pub fn begin(out: &Path, formats: Formats) -> Result<Self, ReportError> {
        // A link is followed: its place stays a link. A slash at the end would hide that it is one.
        let out: PathBuf = out.components().collect();
        let out = if out.is_symlink() { fs::canonicalize(&out).unwrap_or(out) } else { out };
        let out = out.as_path();
        if occupied(out)? && manifest::listed(out).is_none() {
            return Err(ReportError::NotAReport { path: out.to_path_buf() });
        }
        let parent = match out.parent() {
            Some(p) if !p.as_os_str().is_empty() => p,
            _ => Path::new("."),
        };
        fs::create_dir_all(parent).map_err(ReportError::io("create", parent))?;
        let temporary = tempfile::Builder::new()
            .prefix(".calefact-")
            .tempdir_in(parent)
            .map_err(ReportError::io("create a temporary folder in", parent))?;
        let stage = Self { out: out.to_path_buf(), formats, temporary };
        for dir in [stage.dir(), stage.tables(), stage.charts()] {
            fs::create_dir(&dir).map_err(ReportError::io("create", &dir))?;
        }
        Ok(stage)
    }

    /// Opens the writer of the readings table, whose files [`Self::finish`] asks for.
    ///
    /// # Errors
    /// If the files cannot be created.
    pub fn readings_writer(&self) -> Result<ReadingsWriter, ReportError> {
        ReadingsWriter::open(&self.tables(), &self.dir(), self.formats)
    }

    /// Opens the tables of trials; files that their findings name are shown relative to `base`, and apparatus by its name.
    ///
    /// # Errors
    /// If the files cannot be created.
    pub fn trial_tables(&self, base: &Path, apparatus: &Apparatus) -> Result<TrialTables, ReportError> {
        TrialTables::open(&self.tables(), base, apparatus, self.formats)
    }

    /// Writes the other tables, charts, page and manifest, waits for the readings, and puts the folder in its place.
    /// `inputs` are hashed for the manifest; they and the files that findings name are shown relative to `base`.
    ///
    /// # Errors
    /// If an input cannot be read or an output cannot be written; the target is then as it was. Where only the reader's own
    /// files of an earlier report could not be moved, the new report is in place and the earlier one is kept.
    pub fn finish(
        self,
        analysis: &Analysis,
        (readings, trials): (ReadingsFiles, TrialTables),
        inputs: &[PathBuf],
        base: &Path,
        tool: &ToolInfo,
    ) -> Result<Summary, ReportError> {
        let dir = self.dir();
        trials.finish(&analysis.findings)?;
        let tables = || tables::write(analysis, &self.tables(), self.formats);
        let wording = Wording::of_analysis(analysis, self.formats.units, Typography::Page);
        let rest = || rayon::join(|| manifest::hash_all(inputs, base), || charts::draw_all(analysis, &wording));
        let (tables, (inputs, charts)) = rayon::join(tables, rest);
        let (inputs, charts) = (inputs?, charts?);
        tables?;
        for chart in &charts {
            let path = self.charts().join(&chart.file);
            fs::write(&path, &chart.svg).map_err(ReportError::io("write", &path))?;
        }
        let page = || {
            let (page, path) =
                (html::page(&wording, analysis, &charts, (&inputs, base), tool)?, dir.join("report.html"));
            fs::write(&path, page).map_err(ReportError::io("write", &path)).map(|()| path)
        };
        let outputs = self.hash_beside(page, readings)?;
        manifest::write(&dir, analysis, tool, &inputs, &outputs)?;
        self.publish()
    }

    /// Hashes all there is while `page` writes the last file and the readings are closed, in the order of their paths.
    fn hash_beside(
        &self,
        page: impl FnOnce() -> Result<PathBuf, ReportError> + Send,
        readings: ReadingsFiles,
    ) -> Result<Vec<Hashed>, ReportError> {
        let dir = self.dir();
        let mut others = files(&dir)?;
        others.retain(|f| !readings.holds(f));
        let (page, outputs) = rayon::join(|| manifest::hash(&page()?, &dir), || manifest::hash_all(&others, &dir));
        let mut outputs = outputs?;
        outputs.push(page?);
        outputs.extend(readings.wait()?);
        outputs.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(outputs)
    }

    fn dir(&self) -> PathBuf {
        self.temporary.path().join("new")
    }

    fn tables(&self) -> PathBuf {
        self.dir().join("tables")
    }

    fn charts(&self) -> PathBuf {
        self.dir().join("charts")
    }

    /// Swaps the new folder in; the old one goes with the temporary folder, but for files that are none of the report's.
    fn publish(self) -> Result<Summary, ReportError> {
        let old = self.temporary.path().join("old");
        let had_old = self.out.exists();
        if had_old {
            fs::rename(&self.out, &old).map_err(ReportError::io("move aside", &self.out))?;
        }
        if let Err(error) = fs::rename(self.dir(), &self.out) {
            let restored = !had_old || fs::rename(&old, &self.out).is_ok();
            debug_assert!(restored, "the old report stays in the temporary folder");
            return Err(ReportError::io("move into place", &self.out)(error));
        }
        let written = files(&self.out)?;
        if had_old && let Err(error) = keep_foreign(&old, &self.out) {
            let kept = self.temporary.keep().join("old");
            return Err(ReportError::NotMoved { kept, cause: Box::new(error) });
        }
        let names = written.into_iter().filter_map(|f| f.strip_prefix(&self.out).map(Path::to_path_buf).ok());
        Ok(Summary { files: names.collect(), page: self.out.join("report.html"), folder: self.out })
    }
}
