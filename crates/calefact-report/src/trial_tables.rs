//! The tables of trials, written while trials are reduced, so that memory does not grow with their number.

use crate::ReportError;
use crate::table_files::TableFolder;
use crate::table_writer::OpenFile;
use crate::tables::{self, OF_TRIALS};
use crate::words::Wording;
use calefact_analysis::finding::Finding;
use calefact_analysis::result::TrialResult;
use calefact_data::{Apparatus, ApparatusNames};
use rayon::prelude::*;
use std::path::{Path, PathBuf};

/// Writes the tables that have rows of trials: `trials`, `estimates`, `missing`, `balance` and `findings`.
pub struct TrialTables {
    files: Vec<Vec<OpenFile>>,
    base: PathBuf,
    names: ApparatusNames,
    currency: Option<String>,
}

impl TrialTables {
    /// Opens the files in a folder of tables; files that findings name are shown relative to `base`.
    pub(crate) fn open(folder: &TableFolder, base: &Path, apparatus: &Apparatus) -> Result<Self, ReportError> {
        let empty: [_; OF_TRIALS] = tables::of_trials(&Wording::plain(), &[], &[], base);
        let files = empty.iter().map(|table| folder.create(table)).collect::<Result<_, _>>()?;
        Ok(Self { files, base: base.to_path_buf(), names: apparatus.into(), currency: apparatus.currency() })
    }

    /// Adds the rows of the next trials, best some dozens at once.
    ///
    /// # Errors
    /// If a file cannot be written.
    pub fn add(&mut self, trials: &[TrialResult]) -> Result<(), ReportError> {
        self.append(trials, &[])
    }

    /// Adds findings of no trial and completes the files.
    pub(crate) fn finish(mut self, findings: &[Finding]) -> Result<(), ReportError> {
        self.append(&[], findings)?;
        self.files.into_iter().flatten().try_for_each(|file| file.writer.finish())
    }

    fn append(&mut self, trials: &[TrialResult], findings: &[Finding]) -> Result<(), ReportError> {
        let wording = Wording { names: &self.names, currency: self.currency.as_deref(), ..Wording::plain() };
        let rows: [_; OF_TRIALS] = tables::of_trials(&wording, trials, findings, &self.base);
        let files = self.files.par_iter_mut().zip(&rows);
        files.try_for_each(|(forms, table)| forms.iter_mut().try_for_each(|file| file.writer.append(table)))
    }
}
