//! Burn sheets: forms to take to the stove, one page a burn, with the column names of the register and the logs, so that typing
//! them in is copying. What is on a sheet is here and in `fields`; the page is in `templates/sheet.html`.

mod fields;
mod request;

pub use request::{Paper, SheetRequest};

use crate::ReportError;
use crate::words::sheet::{self as words, AFTER, BEFORE};
use crate::words::{Wording, caution, printable, sentence};
use askama::Template;
use calefact_analysis::fact::CautionFact;
use calefact_analysis::result::PlannedBurn;
use fields::Field;
use std::fs;
use std::io::Write;
use std::path::Path;

/// Heights in mm, as `templates/sheet.css` sets them: headings, lists and the table's head together; a row of boxes; a line of small
/// print and the letters in it; a row of the log. What is over is kept for fonts that run wide.
const FIXED: f64 = 88.0;
const BOX: f64 = 8.8;
const BOXES_IN_A_ROW: usize = 4;
const SMALL_LINE: f64 = 2.8;
const SMALL_LETTERS: usize = 145;
const ROW: f64 = 5.8;
/// Rows of the log that a sheet has at least, be it on a second page.
const LEAST_ROWS: f64 = 8.0;

/// One sheet.
pub(crate) struct Sheet {
    /// Id of the trial, or that it is to be filled in.
    pub(crate) heading: String,
    /// Day, place and levels of a planned burn.
    pub(crate) lead: String,
    /// Boxes of the register.
    pub(crate) fields: Vec<Field>,
}

/// Parts that all sheets of a page share.
pub(crate) struct Form {
    pub(crate) title: String,
    pub(crate) paper: &'static str,
    pub(crate) columns: Vec<Vec<String>>,
    pub(crate) times: Vec<String>,
    pub(crate) instruments: Vec<String>,
    pub(crate) before: [&'static str; 6],
    pub(crate) after: [&'static str; 5],
    pub(crate) cautions: Vec<String>,
}

impl Form {
    /// The form of a request.
    pub(crate) fn new(w: &Wording<'_>, request: &SheetRequest<'_>) -> Self {
        let time = |row: usize| words::minutes(w, row as f64 * request.every_s);
        let (instruments, cautions) = (words::instruments(w, request.apparatus), cautions(w, &request.cautions));
        let boxes = fields::fields(w, request, None).len();
        let rows = rows(request.paper, boxes, &[instruments.join("; "), cautions.join(" ")]);
        Self {
            title: request.title.to_owned(),
            paper: request.paper.name(),
            columns: fields::log_columns(w, request.apparatus),
            times: (0..rows).map(time).collect(),
            instruments,
            before: BEFORE,
            after: AFTER,
            cautions,
        }
    }
}

/// Log rows that fit a page beside the boxes and the small print.
fn rows(paper: Paper, boxes: usize, small: &[String]) -> usize {
    let lines: usize = small.iter().map(|text| text.chars().count().div_ceil(SMALL_LETTERS)).sum();
    let used = FIXED + BOX * boxes.div_ceil(BOXES_IN_A_ROW) as f64 + SMALL_LINE * lines as f64;
    ((paper.height() - used) / ROW).max(LEAST_ROWS) as usize
}

/// The cautions that hold for any burn, then those that the logs so far call for, the first of each kind.
fn cautions(w: &Wording<'_>, seen: &[CautionFact]) -> Vec<String> {
    let mut codes: Vec<&str> = Vec::new();
    let all = CautionFact::GENERAL.iter().chain(seen);
    let first = all.filter(|fact| {
        let is_new = !codes.contains(&fact.code());
        codes.push(fact.code());
        is_new
    });
    first.map(|fact| sentence(&caution::message(w, fact).text)).collect()
}

impl Sheet {
    /// The sheet of a planned burn.
    pub(crate) fn planned(w: &Wording<'_>, request: &SheetRequest<'_>, burn: &PlannedBurn) -> Self {
        let varied: Vec<String> = burn.levels.iter().map(|(c, l)| words::level(w, c, l)).collect();
        let date = burn.date.as_ref().map_or_else(String::new, |d| format!(", {d}"));
        Self {
            heading: format!("Burn {}", burn.trial),
            lead: format!("Day {}{date}, burn {} of the day: {}", burn.day, burn.position, varied.join(", ")),
            fields: fields::fields(w, request, Some(burn)),
        }
    }

    /// A blank one.
    fn blank(w: &Wording<'_>, request: &SheetRequest<'_>) -> Self {
        Self { heading: "Burn".to_owned(), lead: String::new(), fields: fields::fields(w, request, None) }
    }
}

#[derive(Template)]
#[template(path = "sheets.html")]
struct Page {
    form: Form,
    sheets: Vec<Sheet>,
}

/// Words that mark a page as one of this program, which may be replaced.
const MARK: &str = "<meta name=\"generator\" content=\"calefact\">";

/// Writes a page of blank sheets.
///
/// # Errors
/// If the file is there and no page of this program, or cannot be written.
pub fn write_blank_sheets(
    w: &Wording<'_>,
    request: &SheetRequest<'_>,
    burns: usize,
    path: &Path,
) -> Result<(), ReportError> {
    if path.exists() && !fs::read_to_string(path).is_ok_and(|text| text.contains(MARK)) {
        return Err(ReportError::NotASheet { path: path.to_path_buf() });
    }
    let sheets = (0..burns).map(|_| Sheet::blank(w, request)).collect();
    let page = Page { form: Form::new(w, request), sheets };
    let text = page
        .render()
        .map(printable)
        .map_err(|e| ReportError::Draw { what: "the burn sheets".to_owned(), message: e.to_string() })?;
    let parent = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(parent).map_err(ReportError::io("create", parent))?;
    let mut file = tempfile::NamedTempFile::new_in(parent).map_err(ReportError::io("write into", parent))?;
    file.write_all(text.as_bytes()).map_err(ReportError::io("write", path))?;
    file.persist(path).map(drop).map_err(|e| ReportError::io("write", path)(e.error))
}
