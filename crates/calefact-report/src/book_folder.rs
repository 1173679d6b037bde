//! The folder of a book of fuel use: its tables, `book.html` and the manifest, swapped in as a whole.

use crate::manifest::ToolInfo;
use crate::staging::Staging;
use crate::table_files::TableFolder;
use crate::words::{Typography, Wording};
use crate::{Formats, ReportError, html, tables};
use calefact_analysis::result::{Analysis, Book};
use calefact_data::InputFile;
use std::fs;
use std::path::{Path, PathBuf};

/// The page.
const PAGE: &str = "book.html";

/// Writes the folder; `inputs` are listed in the manifest, relative to the path beside them. Gives the page.
///
/// # Errors
/// If the folder cannot be written; it is then as it was.
pub fn write_book(
    book: &Book,
    analysis: &Analysis,
    (staging, formats): (Staging, Formats),
    inputs: (&[InputFile], &Path),
    tool: &ToolInfo,
) -> Result<PathBuf, ReportError> {
    let dir = staging.dir();
    let tables = dir.join("tables");
    fs::create_dir(&tables).map_err(ReportError::io("create", &tables))?;
    tables::write_book(book, analysis, &TableFolder::new(&tables, formats))?;
    let wording = Wording::of_analysis(analysis, formats.units, Typography::Page);
    let page = html::book::page(&wording, book, analysis, tool)?;
    let path = dir.join(PAGE);
    fs::write(&path, page).map_err(ReportError::io("write", &path))?;
    Ok(staging.close(("book", &analysis.name), tool, inputs)?.join(PAGE))
}
