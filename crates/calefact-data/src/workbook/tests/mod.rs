//! Workbooks as a whole: what a sheet reads as, which sheet is meant, and what is refused.

mod hostile;
mod ods;

use super::*;
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook as Writer};

/// The bytes of a workbook with one sheet `Burn 1`, filled by `fill`.
fn xlsx(fill: impl FnOnce(&mut rust_xlsxwriter::Worksheet)) -> Vec<u8> {
    let mut writer = Writer::new();
    fill(writer.add_worksheet().set_name("Burn 1").expect("a name"));
    writer.save_to_buffer().expect("a workbook")
}

fn text(bytes: Vec<u8>) -> String {
    let sheet = Workbook::open(bytes).expect("a workbook").sheet(0).expect("a sheet");
    sheet.styled(&FileStyle::default()).0
}

fn format(code: &str) -> Format {
    Format::new().set_num_format(code)
}

#[test]
fn cells_read_as_a_person_sees_them() {
    let bytes = xlsx(|sheet| {
        let day = ExcelDateTime::from_ymd(2026, 3, 24).expect("a day");
        let moment = ExcelDateTime::from_ymd(2026, 3, 24).expect("a day").and_hms(22, 58, 10).expect("a time");
        sheet.merge_range(0, 0, 0, 4, "Burn 1, rocket stove", &Format::new()).expect("a title");
        sheet.write_datetime_with_format(2, 0, day, &format("dd.mm.yyyy")).expect("a cell");
        sheet.write_datetime_with_format(2, 1, moment, &format("dd.mm.yyyy hh:mm")).expect("a cell");
        sheet.write_number_with_format(2, 2, 23.0 / 24.0, &format("hh:mm")).expect("a cell");
        sheet.write_number_with_format(2, 3, 0.18, &format("0%")).expect("a cell");
        sheet.write_number(2, 4, 61.2).expect("a cell");
        sheet.write_string(3, 0, "=1+1 is \"two\"").expect("a cell");
        sheet.write_boolean(3, 1, true).expect("a cell");
        sheet
            .write_formula(3, 2, rust_xlsxwriter::Formula::new("=5.1+0.3").set_result("5.3999999999999995"))
            .expect("a cell");
    });
    let wanted = "Burn 1, rocket stove\n\n2026-03-24\t2026-03-24 22:58:10\t23:00\t18 %\t61.2\n\
                  \"=1+1 is \"\"two\"\"\"\ttrue\t5.4";
    assert_eq!(text(bytes), wanted);
}

#[test]
fn what_is_hidden_merged_or_wrong_is_told() {
    let bytes = xlsx(|sheet| {
        sheet.merge_range(1, 1, 3, 1, "rocket", &Format::new()).expect("a merged cell");
        sheet.set_row_hidden(2).expect("a row");
        sheet.set_row_hidden(3).expect("a row");
        let error = rust_xlsxwriter::Formula::new("=1/0").set_result("#DIV/0!");
        sheet.write_formula(4, 2, error).expect("a cell");
        sheet.write_number(5, 0, 1).expect("a cell");
    });
    let sheet = Workbook::open(bytes).expect("a workbook").sheet(0).expect("a sheet");
    let told = |f: &Finding| (f.code(), f.line, f.column);
    let told: Vec<_> = sheet.findings().iter().map(told).collect();
    let wanted = [("cell-error", Some(5), Some(3)), ("merged-rows", Some(2), Some(2)), ("hidden-rows", Some(3), None)];
    assert_eq!(told, wanted);
}

#[test]
fn a_sheet_is_found_by_its_name() {
    let mut writer = Writer::new();
    for name in ["Burns", "Burn 3", "burn  3"] {
        writer.add_worksheet().set_name(name).expect("a name");
    }
    let workbook = Workbook::open(writer.save_to_buffer().expect("a workbook")).expect("a workbook");
    assert_eq!(workbook.find(Some("Burn 3")), Ok(1));
    assert_eq!(workbook.find(Some("BURNS")), Ok(0));
    let texts = |names: &[&str]| names.iter().map(ToString::to_string).collect::<Vec<_>>();
    let twins = texts(&["Burn 3", "burn  3"]);
    assert_eq!(workbook.find(Some("BURN 3")), Err(WorkbookFailure::TwinSheets { sheet: "BURN 3".into(), twins }));
    let sheets = texts(&["Burns", "Burn 3", "burn  3"]);
    let near =
        WorkbookFailure::SheetMissing { sheet: "Bruns".into(), nearest: Some("Burns".into()), sheets: sheets.clone() };
    assert_eq!(workbook.find(Some("Bruns")), Err(near));
    assert_eq!(workbook.find(None), Err(WorkbookFailure::SheetNotNamed(sheets)));
}

#[test]
fn without_a_name_the_only_sheet_or_the_register_is_meant() {
    let names = |names: &[&str]| {
        let mut writer = Writer::new();
        for name in names {
            writer.add_worksheet().set_name(*name).expect("a name");
        }
        Workbook::open(writer.save_to_buffer().expect("a workbook")).expect("a workbook").find(None)
    };
    assert_eq!(names(&["x"]), Ok(0));
    assert_eq!(names(&["x", "Trials"]), Ok(1));
}

#[test]
fn all_sheets_of_a_file_with_their_first_rows() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("t.xlsx");
    let bytes = xlsx(|sheet| {
        sheet.write_string(1, 0, "elapsed [min]").expect("a cell");
        sheet.write_number(2, 0, 5).expect("a cell");
    });
    std::fs::write(&path, bytes).expect("a file");
    let sheets = sheets(&path).expect("sheets");
    assert_eq!((sheets.len(), sheets[0].name.as_str()), (1, "Burn 1"));
    assert_eq!(sheets[0].first_rows(1), [(2, vec!["elapsed [min]".to_owned()])]);
    std::fs::write(&path, "elapsed,tank").expect("a file");
    assert_eq!(super::sheets(&path), Err(ReadFailure::Workbook(WorkbookFailure::NotAWorkbook)));
}
