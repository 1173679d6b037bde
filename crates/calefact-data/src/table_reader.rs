//! Where the tables of a dataset come from: a text file as it is, or a sheet of a workbook as text. Every file that is read is
//! one of the dataset's, and its hash is kept.

use crate::fact::ReadFailure;
use crate::input_file::FilesRead;
use crate::layout::FileStyle;
use crate::reach::Reach;
use crate::workbook::{SheetAddress, Workbook};
use crate::{Finding, InputFile, file};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// A table as text.
pub(crate) struct Table {
    /// Its file, or its sheet with the name that the sheet has.
    pub(crate) path: PathBuf,
    /// Its text.
    pub(crate) bytes: Vec<u8>,
    /// How it is written.
    pub(crate) style: FileStyle,
    /// Findings on the sheet.
    pub(crate) findings: Vec<Finding>,
}

/// A workbook in memory, and its file.
type LastWorkbook = (PathBuf, Arc<Workbook>);

/// Reads the tables of a dataset, from any thread.
#[derive(Debug, Clone)]
pub(crate) struct TableReader {
    pub(crate) reach: Reach,
    files: FilesRead,
    /// The workbook read last: its sheets mostly follow each other.
    last: Arc<Mutex<Option<LastWorkbook>>>,
}

impl TableReader {
    /// A reader of files within `reach`.
    pub(crate) fn new(reach: Reach) -> Self {
        Self { reach, files: FilesRead::default(), last: Arc::default() }
    }

    /// Reads a file of the dataset, and keeps its hash.
    pub(crate) fn bytes(&self, path: &Path) -> Result<Vec<u8>, ReadFailure> {
        let bytes = file::read(&self.reach.resolve(path)?)?;
        self.files.add(path, &bytes);
        Ok(bytes)
    }

    /// Reads a table; `stated` is the style of the text files of the dataset.
    pub(crate) fn table(&self, path: &Path, stated: &FileStyle) -> Result<Table, ReadFailure> {
        let Some(address) = SheetAddress::parse(path) else {
            let (path, bytes) = (path.to_owned(), self.bytes(path)?);
            return Ok(Table { path, bytes, style: stated.clone(), findings: Vec::new() });
        };
        let workbook = self.workbook(&address.workbook)?;
        let index = workbook.find(address.sheet.as_deref()).map_err(ReadFailure::Workbook)?;
        let sheet = workbook.sheet(index).map_err(ReadFailure::Workbook)?;
        let (text, style) = sheet.styled(stated);
        let findings = sheet.findings().into_iter().chain(workbook.macros()).collect();
        let path = workbook.sheet_names().get(index).map_or_else(|| path.to_owned(), |name| address.with_sheet(name));
        Ok(Table { path, bytes: text.into_bytes(), style, findings })
    }

    /// Names of the sheets of a workbook; none if it cannot be read.
    pub(crate) fn sheet_names(&self, workbook: &Path) -> Vec<String> {
        let workbook = self.workbook(workbook).ok();
        workbook.iter().flat_map(|w| w.sheet_names()).map(ToOwned::to_owned).collect()
    }

    /// The files read so far, in the order of their paths.
    pub(crate) fn files(&self) -> Vec<InputFile> {
        self.files.all()
    }

    fn workbook(&self, path: &Path) -> Result<Arc<Workbook>, ReadFailure> {
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, workbook)) = last.as_ref().filter(|(read, _)| read == path) {
            return Ok(workbook.clone());
        }
        let workbook = Arc::new(Workbook::open(self.bytes(path)?).map_err(ReadFailure::Workbook)?);
        *last = Some((path.to_owned(), workbook.clone()));
        Ok(workbook)
    }
}
