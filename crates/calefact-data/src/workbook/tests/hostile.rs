//! Workbooks that are damaged, locked or made to harm: each is refused with its reason, in bounded time and memory.

use super::super::*;
use super::xlsx;
use std::io::{Cursor, Read as _, Write as _};
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

/// A workbook whose parts `edit` may change; a part that becomes empty is left out.
fn edited(bytes: Vec<u8>, edit: impl Fn(&str, Vec<u8>) -> Vec<u8>) -> Vec<u8> {
    let mut parts = ZipArchive::new(Cursor::new(bytes)).expect("an archive");
    let mut out = ZipWriter::new(Cursor::new(Vec::new()));
    for index in 0..parts.len() {
        let mut part = parts.by_index(index).expect("a part");
        let name = part.name().expect("a name").into_owned();
        let mut content = Vec::new();
        part.read_to_end(&mut content).expect("its content");
        let content = edit(&name, content);
        if !content.is_empty() {
            out.start_file(name, SimpleFileOptions::default()).expect("a part");
            out.write_all(&content).expect("its content");
        }
    }
    out.finish().expect("an archive").into_inner()
}

fn simple() -> Vec<u8> {
    xlsx(|sheet| {
        sheet.write_number(0, 0, 1).expect("a cell");
        sheet.write_string(1, 1, "x").expect("a cell");
    })
}

/// The first sheet of a workbook with `old` replaced by `new` in the part of the sheet.
fn with_sheet(old: &str, new: &str) -> Result<String, WorkbookFailure> {
    let bytes = edited(simple(), |name, content| {
        if name != "xl/worksheets/sheet1.xml" {
            return content;
        }
        let text = String::from_utf8(content).expect("text");
        assert!(text.contains(old), "{text}");
        text.replacen(old, new, 1).into_bytes()
    });
    let sheet = Workbook::open(bytes)?.sheet(0)?;
    Ok(sheet.styled(&FileStyle::default()).0)
}

/// The rows from the third to the last, each with one cell; `cell` is the rest of its element.
fn rows(last: u32, cell: &str) -> String {
    let row =
        |row: u32| ["<row r=\"", &row.to_string(), "\"><c r=\"A", &row.to_string(), "\"", cell, "></row>"].concat();
    (3..=last).map(row).collect()
}

const DAMAGED: Result<String, WorkbookFailure> = Err(WorkbookFailure::Damaged);

#[test]
fn files_that_are_no_workbook_are_refused() {
    let open = |bytes: &[u8]| Workbook::open(bytes.to_vec()).map(|_| ());
    assert_eq!(open(b""), Err(WorkbookFailure::NotAWorkbook));
    assert_eq!(open(b"elapsed,tank\n0,1\n"), Err(WorkbookFailure::NotAWorkbook));
    assert_eq!(open(b"PK\x03\x04"), Err(WorkbookFailure::Damaged));
    let old = b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1 old".to_vec();
    assert_eq!(open(&old), Err(WorkbookFailure::OldFormat));
    let locked = [old, b"E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0".to_vec()].concat();
    assert_eq!(open(&locked), Err(WorkbookFailure::Encrypted));
    let other = edited(simple(), |name, content| if name == "_rels/.rels" { Vec::new() } else { content });
    assert_eq!(open(&other), Err(WorkbookFailure::NotAWorkbook));
}

#[test]
fn every_cut_of_a_workbook_is_refused() {
    let bytes = simple();
    for end in (0..bytes.len()).step_by(97) {
        assert!(Workbook::open(bytes[..end].to_vec()).is_err(), "cut at {end}");
    }
}

#[test]
fn a_sheet_that_ends_early_is_damaged() {
    assert_eq!(with_sheet("</sheetData>", "<!--"), DAMAGED);
    assert_eq!(with_sheet("</worksheet>", ""), DAMAGED);
    assert_eq!(with_sheet("</row>", ""), DAMAGED);
}

#[test]
fn cells_out_of_place_are_damage() {
    assert_eq!(with_sheet("", "").as_deref(), Ok("1\n\tx"));
    for name in ["A99999999999999999999", "ZZZZZZZZ1", "XFE1", "A0", "A1048577", "1", "A"] {
        assert_eq!(with_sheet("r=\"B2\"", &format!("r=\"{name}\"")), DAMAGED, "{name}");
    }
    assert_eq!(with_sheet("<row r=\"2\"", "<row r=\"4294967297\""), DAMAGED);
    // A cell that comes after its row, and one that comes twice.
    assert_eq!(with_sheet("r=\"B2\"", "r=\"A1\""), DAMAGED);
    assert_eq!(with_sheet("r=\"A1\"", "r=\"B9\""), DAMAGED);
}

#[test]
fn a_dimension_that_lies_is_not_believed() {
    for lie in ["A1", "A1:XFD1048576", "C3:D4"] {
        assert_eq!(
            with_sheet("<dimension ref=\"A1:B2\"", &format!("<dimension ref=\"{lie}\"")).as_deref(),
            Ok("1\n\tx")
        );
    }
    for damage in ["B2:A1", "A1:ZZZZZZZ99999999999", "", "A1:B2:C3"] {
        assert_eq!(
            with_sheet("<dimension ref=\"A1:B2\"", &format!("<dimension ref=\"{damage}\"")),
            DAMAGED,
            "{damage}"
        );
    }
}

#[test]
fn a_formula_without_its_value_is_refused() {
    let formula = |inside: &str| with_sheet("<v>1</v>", inside);
    for inside in ["<f>1+1</f>", "<f>1+1</f><v></v>", "<f>1+1</f><v/>"] {
        assert_eq!(formula(inside), Err(WorkbookFailure::NotCalculated("A1".into())), "{inside}");
    }
    assert_eq!(formula("<f>1+1</f><v>2</v>").as_deref(), Ok("2\n\tx"));
    // An empty text is a value.
    assert_eq!(with_sheet("<c r=\"A1\"><v>1</v>", "<c r=\"A1\" t=\"str\"><f>T(B9)</f><v></v>").as_deref(), Ok("\n\tx"));
}

/// A million rows that hold nothing but formats.
#[test]
fn blank_rows_take_no_room() {
    let rows = rows(1 << 20, "/");
    assert_eq!(with_sheet("</sheetData>", &format!("{rows}</sheetData>")).as_deref(), Ok("1\n\tx"));
}

/// One text of 32,767 characters, the longest of a cell, in a million cells.
#[test]
fn a_text_repeated_beyond_bounds_is_refused() {
    let rows = rows(100_000, " t=\"s\"><v>0</v></c");
    let bytes = xlsx(|sheet| {
        sheet.write_string(0, 0, "x".repeat(32_767)).expect("a cell");
    });
    let bytes = edited(bytes, |name, content| {
        let text = String::from_utf8(content).expect("text");
        let rows = if name == "xl/worksheets/sheet1.xml" { rows.as_str() } else { "" };
        text.replace("</sheetData>", &format!("{rows}</sheetData>")).into_bytes()
    });
    let failure = Workbook::open(bytes).expect("a workbook").sheet(0).map(|_| ());
    assert_eq!(failure, Err(WorkbookFailure::TooLarge(archive::MOST_MIB)));
}

/// A megabyte that unpacks to half a gigabyte and more.
#[test]
fn a_zip_bomb_is_refused_by_what_comes_out_of_it() {
    let mut out = ZipWriter::new(Cursor::new(Vec::new()));
    out.start_file("xl/worksheets/sheet1.xml", SimpleFileOptions::default().large_file(true)).expect("a part");
    let block = vec![b' '; 1 << 20];
    for _ in 0..=archive::MOST_MIB {
        out.write_all(&block).expect("a block");
    }
    let bomb = out.finish().expect("an archive").into_inner();
    assert!(bomb.len() < 2 << 20);
    let open = |bytes: Vec<u8>| Workbook::open(bytes).map(|_| ());
    assert_eq!(open(bomb.clone()), Err(WorkbookFailure::TooLarge(archive::MOST_MIB)));
    // The same with a directory that states a small size.
    let lying = lie_about_sizes(bomb);
    assert!(matches!(open(lying), Err(WorkbookFailure::TooLarge(_) | WorkbookFailure::Damaged)));
}

/// Parts that stay in memory have a smaller bound: a table of texts without a text.
#[test]
fn a_table_of_texts_beyond_bounds_is_refused() {
    let bytes =
        edited(
            simple(),
            |name, content| {
                if name == "xl/sharedStrings.xml" { "<si/>".repeat(14 << 20).into_bytes() } else { content }
            },
        );
    assert!(matches!(Workbook::open(bytes), Err(WorkbookFailure::TooLarge(64))));
}

/// Sets the unpacked sizes in the directory of an archive to one byte ([APPNOTE.TXT] 4.3.12).
fn lie_about_sizes(mut bytes: Vec<u8>) -> Vec<u8> {
    let found: Vec<usize> = memchr::memmem::find_iter(&bytes, b"PK\x01\x02").collect();
    for at in found {
        bytes[at + 24..at + 28].copy_from_slice(&1_u32.to_le_bytes());
    }
    bytes
}

/// Every part in turn with one byte changed, at many places: the workbook is read or refused, and the program goes on.
#[test]
fn changed_bytes_do_not_stop_the_program() {
    let bytes = xlsx(|sheet| {
        let percent = rust_xlsxwriter::Format::new().set_num_format("0.0%");
        sheet.write_number_with_format(0, 0, 0.18, &percent).expect("a cell");
        sheet.write_formula(1, 0, "=1+1").expect("a cell");
        sheet.write_string(1, 1, "x").expect("a cell");
        sheet.merge_range(3, 0, 5, 0, "y", &rust_xlsxwriter::Format::new()).expect("a cell");
    });
    let parts = ["sheet1.xml", "styles.xml", "sharedStrings.xml", "workbook.xml", "workbook.xml.rels", ".rels"];
    let (mut read, mut refused) = (0, 0);
    for (part, new) in parts.iter().flat_map(|part| b"<>\"/&9Z\xFF".iter().map(move |new| (part, *new))) {
        for place in (0..4000).step_by(127) {
            let changed = edited(bytes.clone(), |name, mut content| {
                let at = (place + usize::from(new)) % content.len();
                if name.rsplit('/').next() == Some(part) {
                    content[at] = new;
                }
                content
            });
            let sheet = Workbook::open(changed).and_then(|w| w.find(None).and_then(|index| w.sheet(index)));
            *if sheet.is_ok() { &mut read } else { &mut refused } += 1;
        }
    }
    assert!(read > 100 && refused > 100, "{read} read, {refused} refused");
}

#[test]
fn macros_are_told_and_the_cells_read() {
    let mut writer = ZipWriter::new_append(Cursor::new(simple())).expect("an archive");
    writer.start_file("xl/vbaProject.bin", SimpleFileOptions::default()).expect("a part");
    writer.write_all(b"macros").expect("its content");
    let workbook = Workbook::open(writer.finish().expect("an archive").into_inner()).expect("a workbook");
    assert_eq!(workbook.macros().map(|f| f.code()), Some("workbook-macros"));
    assert!(workbook.sheet(0).is_ok());
}
