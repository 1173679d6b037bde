//! What happens to a trial once it is reduced: its readings and rows are written, and as little as comparing needs is kept.

use super::analyse::Collect;
use crate::driver::Sink;
use calefact_analysis::result::TrialResult;
use calefact_analysis::{Settings, TrialAccumulator};
use calefact_data::{Apparatus, ReadAs, Readings, RegisterRow};
use calefact_report::{ReadingsFiles, ReadingsWriter, ReportError, Stage, TrialTables};
use calefact_stats::ErrorSources;
use std::path::Path;

/// Trials whose rows are written together.
const TOGETHER: usize = 64;

/// Files of what is written trial by trial.
pub(super) type TrialFiles = (ReadingsFiles, TrialTables);

/// The open files, and what is kept.
pub(super) struct Writing {
    readings: ReadingsWriter,
    tables: TrialTables,
    gathered: TrialAccumulator,
    waiting: Vec<TrialResult>,
}

impl Writing {
    /// Opens the files.
    pub(super) fn begin(
        stage: &Stage,
        base: &Path,
        apparatus: &Apparatus,
        settings: &Settings,
        sources: &ErrorSources,
    ) -> Result<Self, ReportError> {
        Ok(Self {
            readings: stage.readings_writer()?,
            tables: stage.trial_tables(base, apparatus)?,
            gathered: TrialAccumulator::new(settings, sources),
            waiting: Vec::with_capacity(TOGETHER),
        })
    }

    fn write(&mut self) -> Result<(), ReportError> {
        self.tables.add(&self.waiting)?;
        self.gathered.extend(self.waiting.drain(..));
        Ok(())
    }
}

impl Sink for Writing {
    type Error = ReportError;

    fn readings(&mut self, row: &RegisterRow, readings: &Readings, _: &ReadAs) -> Result<(), ReportError> {
        self.readings.push(row, readings)
    }

    fn result(&mut self, result: TrialResult) -> Result<(), ReportError> {
        self.waiting.push(result);
        if self.waiting.len() < TOGETHER { Ok(()) } else { self.write() }
    }
}

impl Collect for Writing {
    type Rest = TrialFiles;

    /// Writes the rows that wait; the readings may still be on their way to the disk.
    fn finish(mut self) -> Result<(TrialFiles, TrialAccumulator), ReportError> {
        self.write()?;
        Ok(((self.readings.finish()?, self.tables), self.gathered))
    }
}
