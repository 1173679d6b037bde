//! `.ods` workbooks, written by hand as LibreOffice writes them.

use super::super::*;
use std::io::{Cursor, Write as _};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

fn archive(content: &str, manifest: &str) -> Vec<u8> {
    let mut out = ZipWriter::new(Cursor::new(Vec::new()));
    let mime = "application/vnd.oasis.opendocument.spreadsheet";
    for (name, text) in [("mimetype", mime), ("content.xml", content), ("META-INF/manifest.xml", manifest)] {
        out.start_file(name, SimpleFileOptions::default()).expect("a part");
        out.write_all(text.as_bytes()).expect("its content");
    }
    out.finish().expect("an archive").into_inner()
}

/// The content of a workbook with the sheet `Burn 1`.
fn content(rows: &str) -> String {
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document-content><office:body><office:spreadsheet>\
         <table:table table:name=\"Burn 1\"><table:table-column/>{rows}</table:table>\
         </office:spreadsheet></office:body></office:document-content>"
    )
}

fn open(rows: &str) -> Result<Workbook, WorkbookFailure> {
    Workbook::open(archive(&content(rows), "<manifest:manifest/>"))
}

fn text(rows: &str) -> String {
    open(rows).and_then(|w| w.sheet(0)).expect("a sheet").styled(&FileStyle::default()).0
}

fn row(cells: &str) -> String {
    format!("<table:table-row>{cells}</table:table-row>")
}

fn cell(attributes: &str, shown: &str) -> String {
    format!("<table:table-cell {attributes}><text:p>{shown}</text:p></table:table-cell>")
}

#[test]
fn cells_read_as_a_person_sees_them() {
    let cells = [
        cell("office:value-type=\"float\" office:value=\"61.2\"", "61,2"),
        cell("office:value-type=\"percentage\" office:value=\"0.18\"", "18 %"),
        cell("office:value-type=\"date\" office:date-value=\"2026-03-24\"", "24.03.26"),
        cell("office:value-type=\"date\" office:date-value=\"2026-03-24T22:58:10\"", "24.03.26 22:58"),
        cell("office:value-type=\"time\" office:time-value=\"PT00H10M00S\"", "00:10"),
        cell("office:value-type=\"time\" office:time-value=\"PT00H10M00S\"", "00:10:00"),
        cell("office:value-type=\"string\"", "wood &amp; bark&#44; <text:s/>dry"),
    ];
    let title = row(&cell("office:value-type=\"string\" table:number-columns-spanned=\"3\"", "Burn 1"));
    let wanted = "Burn 1\n61.2\t18 %\t2026-03-24\t2026-03-24T22:58:10\t0:10\t0:10:00\twood & bark,  dry";
    assert_eq!(text(&format!("{title}{}", row(&cells.concat()))), wanted);
}

#[test]
fn repeated_cells_and_rows_keep_their_places() {
    let number = |times: &str| cell(&format!("office:value-type=\"float\" office:value=\"5\" {times}"), "5");
    let gap = "<table:table-cell table:number-columns-repeated=\"2\"/>";
    let edge = "<table:table-cell table:number-columns-repeated=\"16380\"/>";
    let first = row(&format!("{gap}{}{edge}", number("table:number-columns-repeated=\"2\"")));
    let blank = "<table:table-row table:number-rows-repeated=\"3\"><table:table-cell/></table:table-row>";
    let twice = format!("<table:table-row table:number-rows-repeated=\"2\">{}</table:table-row>", number(""));
    let end = "<table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell/></table:table-row>";
    assert_eq!(text(&format!("{first}{blank}{twice}{end}")), "\t\t5\t5\n\n\n\n5\n5");
}

#[test]
fn notes_and_pictures_at_a_cell_are_not_its_text() {
    let note = "<office:annotation><text:p>ask Ann</text:p></office:annotation><text:p>rocket</text:p>";
    let noted = format!("<table:table-cell office:value-type=\"string\">{note}</table:table-cell>");
    assert_eq!(text(&row(&noted)), "rocket");
}

#[test]
fn what_is_hidden_merged_or_wrong_is_told() {
    let error =
        "table:formula=\"of:=1/0\" office:value-type=\"string\" office:string-value=\"\" calcext:value-type=\"error\"";
    let merged = cell("office:value-type=\"string\" table:number-rows-spanned=\"3\"", "rocket");
    let hidden = format!("<table:table-row table:visibility=\"collapse\">{merged}</table:table-row>");
    let rows = format!("{hidden}{}", row(&cell(error, "#DIV/0!")));
    let sheet = open(&rows).and_then(|w| w.sheet(0)).expect("a sheet");
    let codes: Vec<&str> = sheet.findings().iter().map(Finding::code).collect();
    assert_eq!(codes, ["cell-error", "merged-rows", "hidden-rows"]);
}

#[test]
fn what_harms_is_refused() {
    let number =
        cell("office:value-type=\"float\" office:value=\"5\" table:number-columns-repeated=\"99999999999\"", "5");
    assert_eq!(open(&row(&number)).map(|_| ()), Err(WorkbookFailure::Damaged));
    let number = cell("office:value-type=\"float\" office:value=\"5\" table:number-columns-repeated=\"16384\"", "5");
    let many = format!("<table:table-row table:number-rows-repeated=\"1048576\">{number}</table:table-row>");
    assert_eq!(open(&many).map(|_| ()), Err(WorkbookFailure::TooManyCells(20_000_000)));
    let formula = "<table:table-cell table:formula=\"of:=1+1\"/>";
    assert_eq!(open(&row(formula)).map(|_| ()), Err(WorkbookFailure::NotCalculated("A1".into())));
    let locked = archive(&content(""), "<manifest:manifest><manifest:encryption-data/></manifest:manifest>");
    assert_eq!(Workbook::open(locked).map(|_| ()), Err(WorkbookFailure::Encrypted));
}

#[test]
fn every_cut_of_the_content_is_refused() {
    let whole = content(&row(&cell("office:value-type=\"string\"", "a &amp; b")));
    for end in 0..whole.len() {
        let cut = archive(&whole[..end], "<manifest:manifest/>");
        assert_eq!(Workbook::open(cut).map(|_| ()), Err(WorkbookFailure::Damaged), "cut at {end}");
    }
}
