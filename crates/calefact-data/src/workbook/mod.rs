//! Workbooks: `.xlsx`, `.xlsm` and `.ods` files with several sheets. A sheet is handed on as tab-separated text with one line a
//! row, which the readers of logs and registers take like the text of a file.
//!
//! An archive is checked before it is read: what comes out of it is counted, so that memory is bounded whatever the file says.
//! Values are those that were saved; nothing is computed, and no macro is run.

mod address;
mod archive;
mod content;
mod ods;
mod sheet_text;
mod xlsx;
mod xlsx_parts;
mod xlsx_survey;
mod xml;

pub use address::{SheetAddress, place_name};
pub(crate) use sheet_text::{DELIMITER, SheetText};

use crate::fact::{ReadFailure, SheetFact, WorkbookFailure};
use crate::layout::FileStyle;
use crate::nearest::nearest;
use crate::text::cells::preview;
use crate::text::header::same_name;
use crate::{Finding, file};
use archive::Archive;
use std::path::Path;
use std::sync::Arc;

/// Sheets that a finding lists.
const LISTED: usize = 12;
/// Names of a sheet that is taken for the register where none is named.
const REGISTERS: [&str; 2] = ["trials", "register"];

/// A workbook in memory.
#[derive(Debug, Clone)]
pub(crate) struct Workbook {
    kind: Kind,
    has_macros: bool,
}

#[derive(Debug, Clone)]
enum Kind {
    /// Names and parts of the sheets.
    Xlsx(Arc<[u8]>, Vec<(String, String)>),
    /// Names and texts of the sheets.
    Ods(Vec<(String, SheetText)>),
}

impl Workbook {
    /// Opens a workbook by its bytes.
    pub(crate) fn open(bytes: Vec<u8>) -> Result<Self, WorkbookFailure> {
        if bytes.len() as u64 > archive::MOST_MIB << 20 {
            return Err(WorkbookFailure::TooLarge(archive::MOST_MIB));
        }
        let bytes: Arc<[u8]> = bytes.into();
        let mut archive = Archive::open(bytes.clone())?;
        archive.check()?;
        let has_macros = archive.has("xl/vbaProject.bin");
        if archive.has("content.xml") {
            if !archive.text("mimetype")?.contains("spreadsheet") {
                return Err(WorkbookFailure::NotAWorkbook);
            }
            if archive.text("META-INF/manifest.xml")?.contains("encryption-data") {
                return Err(WorkbookFailure::Encrypted);
            }
            let sheets = ods::read(archive.part("content.xml")?)?;
            return Ok(Self { kind: Kind::Ods(sheets), has_macros });
        }
        if archive.has("xl/workbook.bin") {
            return Err(WorkbookFailure::OldFormat);
        }
        if !archive.has("_rels/.rels") {
            return Err(WorkbookFailure::NotAWorkbook);
        }
        let sheets = xlsx_parts::sheets(&mut archive)?;
        Ok(Self { kind: Kind::Xlsx(bytes, sheets), has_macros })
    }

    /// Names of the sheets, in the order of the workbook.
    pub(crate) fn sheet_names(&self) -> Vec<&str> {
        match &self.kind {
            Kind::Xlsx(_, sheets) => sheets.iter().map(|(name, _)| name.as_str()).collect(),
            Kind::Ods(sheets) => sheets.iter().map(|(name, _)| name.as_str()).collect(),
        }
    }

    /// Finds a sheet by its name, or but for case and spaces where only one is like it. Without a name the only sheet is meant,
    /// or the one named like a register.
    pub(crate) fn find(&self, sheet: Option<&str>) -> Result<usize, WorkbookFailure> {
        let names = self.sheet_names();
        let exact = |wanted: &str| names.iter().position(|name| *name == wanted);
        let alike =
            |wanted: &str| -> Vec<usize> { (0..names.len()).filter(|at| same_name(names[*at], wanted)).collect() };
        let listed = || names.iter().take(LISTED).map(ToString::to_string).collect();
        let Some(wanted) = sheet else {
            let register = REGISTERS.iter().find_map(|name| alike(name).first().copied());
            let only = (names.len() == 1).then_some(0);
            return register.or(only).ok_or_else(|| WorkbookFailure::SheetNotNamed(listed()));
        };
        let sheet = wanted.to_owned();
        if let Some(at) = exact(wanted) {
            return Ok(at);
        }
        match &alike(wanted)[..] {
            [at] => Ok(*at),
            [] => {
                let nearest = nearest(wanted, names.iter().copied()).map(ToOwned::to_owned);
                Err(WorkbookFailure::SheetMissing { sheet, nearest, sheets: listed() })
            }
            twins => {
                let twins = twins.iter().map(|at| names[*at].to_owned()).collect();
                Err(WorkbookFailure::TwinSheets { sheet, twins })
            }
        }
    }

    /// Reads the sheet at an index of [`Workbook::sheet_names`].
    pub(crate) fn sheet(&self, index: usize) -> Result<SheetText, WorkbookFailure> {
        match &self.kind {
            Kind::Xlsx(bytes, sheets) => {
                let (name, part) = sheets.get(index).ok_or(WorkbookFailure::Damaged)?;
                xlsx::read(bytes, name, part)
            }
            Kind::Ods(sheets) => sheets.get(index).map(|(_, sheet)| sheet.clone()).ok_or(WorkbookFailure::Damaged),
        }
    }

    /// A note where the workbook has macros.
    pub(crate) fn macros(&self) -> Option<Finding> {
        self.has_macros.then(|| Finding::note(SheetFact::Macros))
    }
}

/// A sheet of a workbook as a table of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetTable {
    /// Name of the sheet.
    pub name: String,
    /// Its rows as tab-separated text, one line a row; or why the sheet cannot be read.
    pub text: Result<String, WorkbookFailure>,
}

impl SheetTable {
    /// The first rows that hold something, with their numbers from 1.
    pub fn first_rows(&self, rows: usize) -> Vec<(u64, Vec<String>)> {
        self.text.as_ref().map(|text| preview(text.as_bytes(), DELIMITER, rows)).unwrap_or_default()
    }
}

/// All sheets of a workbook, in its order, for a look at what it holds.
///
/// # Errors
/// Why the workbook cannot be read.
pub fn sheets(path: &Path) -> Result<Vec<SheetTable>, ReadFailure> {
    let workbook = Workbook::open(file::read(path)?).map_err(ReadFailure::Workbook)?;
    let names = workbook.sheet_names();
    let table = |(index, name): (usize, &&str)| SheetTable {
        name: (*name).to_owned(),
        text: workbook.sheet(index).map(|sheet| sheet.styled(&FileStyle::default()).0),
    };
    Ok(names.iter().enumerate().map(table).collect())
}

#[cfg(test)]
mod tests;
