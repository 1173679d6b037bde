//! A report in the making: a temporary folder beside the target that takes the target's place when everything is there.

use crate::folder::files;
use crate::manifest::{self, Hashed, ToolInfo};
use crate::readings::{ReadingsFiles, ReadingsWriter};
use crate::results::Results;
use crate::staging::Staging;
use crate::table_files::TableFolder;
use crate::trial_tables::TrialTables;
use crate::words::{Typography, Wording};
use crate::{Formats, ReportError, charts, html, tables};
use calefact_data::{Apparatus, InputFile};
use std::fs;
use std::path::{Path, PathBuf};

/// The report as written.
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
    formats: Formats,
    staging: Staging,
    tables: TableFolder,
}

impl Stage {
    /// Creates the temporary folder beside `out`.
    ///
    /// # Errors
    /// If it cannot be created, or if `out` exists and holds anything but an earlier report.
    pub fn begin(out: &Path, formats: Formats) -> Result<Self, ReportError> {
        let staging = Staging::begin(out)?;
        let tables = staging.dir().join("tables");
        let stage = Self { formats, tables: TableFolder::new(&tables, formats), staging };
        for dir in [tables, stage.charts()] {
            fs::create_dir(&dir).map_err(ReportError::io("create", &dir))?;
        }
        Ok(stage)
    }

    /// Opens the writer of the readings table, whose files [`Self::finish`] asks for.
    ///
    /// # Errors
    /// If the files cannot be created.
    pub fn readings_writer(&self) -> Result<ReadingsWriter, ReportError> {
        ReadingsWriter::open(&self.tables, &self.dir())
    }

    /// Opens the tables of trials; files that their findings name are shown relative to `base`, and apparatus by its name.
    ///
    /// # Errors
    /// If the files cannot be created.
    pub fn trial_tables(&self, base: &Path, apparatus: &Apparatus) -> Result<TrialTables, ReportError> {
        TrialTables::open(&self.tables, base, apparatus)
    }

    /// Writes the other tables, charts, page and manifest, waits for the readings, and puts the folder in its place.
    /// `inputs` are listed in the manifest; they and the files that findings name are shown relative to `base`.
    ///
    /// # Errors
    /// If an output cannot be written; the target is then as it was. Where only the reader's own
    /// files of an earlier report could not be moved, the new report is in place and the earlier one is kept.
    pub fn finish(
        self,
        results: Results<'_>,
        (readings, trials): (ReadingsFiles, TrialTables),
        inputs: &[InputFile],
        base: &Path,
        tool: &ToolInfo,
    ) -> Result<Summary, ReportError> {
        let (dir, analysis) = (self.dir(), results.analysis);
        trials.finish(&analysis.findings)?;
        let tables = || tables::write(analysis, &self.tables);
        let wording = Wording::of_analysis(analysis, self.formats.units, Typography::Page);
        let (tables, charts) = rayon::join(tables, || charts::draw_all(analysis, &wording));
        let (inputs, charts) = (manifest::inputs(inputs, base), charts?);
        tables?;
        for chart in &charts {
            let path = self.charts().join(&chart.file);
            fs::write(&path, &chart.svg).map_err(ReportError::io("write", &path))?;
        }
        let page = || {
            let (page, path) =
                (html::page(&wording, results, &charts, (&inputs, base), tool)?, dir.join("report.html"));
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
        self.staging.dir()
    }

    fn charts(&self) -> PathBuf {
        self.dir().join("charts")
    }

    /// Swaps the new folder in and lists what was written, the reader's own files of an earlier report left out.
    fn publish(self) -> Result<Summary, ReportError> {
        let dir = self.dir();
        let names = files(&dir)?.into_iter().filter_map(|f| f.strip_prefix(&dir).map(Path::to_path_buf).ok()).collect();
        let folder = self.staging.publish()?;
        Ok(Summary { files: names, page: folder.join("report.html"), folder })
    }
}
