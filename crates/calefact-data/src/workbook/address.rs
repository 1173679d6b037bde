//! The name of a sheet behind its workbook, `tests.xlsx#Burn 3`, and the name of a cell in it, `C14`. No file is read.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Endings of workbooks; those of formats that are not read are known, to be refused as what they are.
const ENDINGS: [&str; 7] = [".xlsx", ".xlsm", ".ods", ".xls", ".xlsb", ".xltx", ".ots"];

/// A workbook and perhaps a sheet of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetAddress {
    /// File of the workbook.
    pub workbook: PathBuf,
    /// Name of the sheet, if one is named.
    pub sheet: Option<String>,
}

impl SheetAddress {
    /// The workbook and sheet that a path names; none if it does not name a workbook.
    pub fn parse(path: &Path) -> Option<Self> {
        let name = path.file_name()?.to_str()?;
        let (file, sheet) = match name.split_once('#') {
            Some((file, sheet)) => (file, Some(sheet.trim().to_owned()).filter(|s| !s.is_empty())),
            None => (name, None),
        };
        is_workbook(file).then(|| Self { workbook: path.with_file_name(file), sheet })
    }

    /// The path that names a sheet of the workbook.
    pub fn with_sheet(&self, sheet: &str) -> PathBuf {
        let mut name = self.workbook.clone().into_os_string();
        name.push("#");
        name.push(sheet);
        name.into()
    }
}

fn is_workbook(file: &str) -> bool {
    let file = file.to_lowercase();
    ENDINGS.iter().any(|ending| file.len() > ending.len() && file.ends_with(ending))
}

/// The place of a finding as people name it: `tests.xlsx, Burn 3!C14` in a sheet, `b07.csv line 14 column 3` in other files. `file`
/// is the file as it is to be shown.
pub fn place_name(file: &str, line: Option<u64>, column: Option<u64>) -> String {
    let mut text = match SheetAddress::parse(Path::new(file)) {
        Some(SheetAddress { workbook, sheet: Some(sheet) }) => {
            let workbook = workbook.display();
            return match (line, column) {
                (Some(row), Some(column)) => format!("{workbook}, {sheet}!{}", cell_name(row, column)),
                (Some(row), None) => format!("{workbook}, {sheet} row {row}"),
                _ => format!("{workbook}, {sheet}"),
            };
        }
        _ => file.to_owned(),
    };
    for (word, number) in [("line", line), ("column", column)] {
        let _ = number.map(|n| write!(text, " {word} {n}"));
    }
    text
}

/// Name of a cell by its row and column, both from 1: `C14`.
pub(crate) fn cell_name(row: u64, column: u64) -> String {
    let mut letters = Vec::new();
    let mut rest = column;
    while rest > 0 {
        letters.push(char::from(b'A' + ((rest - 1) % 26) as u8));
        rest = (rest - 1) / 26;
    }
    letters.iter().rev().collect::<String>() + &row.to_string()
}

/// Row and column, both from 1, of a cell's name; none if no spreadsheet has such a cell.
pub(super) fn cell_at(name: &str) -> Option<(u64, u64)> {
    let letters = name.bytes().take_while(u8::is_ascii_alphabetic).count();
    let digits = &name[letters..];
    let fits = (1..=3).contains(&letters) && (1..=7).contains(&digits.len());
    if !fits || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    let column = name[..letters].bytes().fold(0, |n, b| n * 26 + u64::from(b.to_ascii_uppercase() - b'A') + 1);
    let row: u64 = digits.parse().ok()?;
    ((1..=MOST_ROWS).contains(&row) && column <= MOST_COLUMNS).then_some((row, column))
}

/// Rows of the largest sheet (ECMA-376 and LibreOffice alike).
pub(super) const MOST_ROWS: u64 = 1 << 20;
/// Columns of the largest sheet.
pub(super) const MOST_COLUMNS: u64 = 1 << 14;

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(path: &str) -> Option<(String, Option<String>)> {
        let address = SheetAddress::parse(Path::new(path))?;
        Some((address.workbook.to_string_lossy().into_owned(), address.sheet))
    }

    #[test]
    fn a_sheet_stands_behind_the_name_of_its_workbook() {
        let some = |book: &str, sheet: Option<&str>| Some((book.to_owned(), sheet.map(ToOwned::to_owned)));
        assert_eq!(parts("d/tests.xlsx#Burn 3"), some("d/tests.xlsx", Some("Burn 3")));
        assert_eq!(parts("Tests.ODS"), some("Tests.ODS", None));
        assert_eq!(parts("tests.xlsx#"), some("tests.xlsx", None));
        assert_eq!(parts("tests.xlsx#a#b"), some("tests.xlsx", Some("a#b")));
        assert_eq!(parts("d.xlsx#a/b1.csv"), None);
        assert_eq!(parts("b1.csv"), None);
        assert_eq!(parts(".xlsx"), None);
    }

    #[test]
    fn places_name_cells_of_sheets_and_lines_of_files() {
        assert_eq!(place_name("t.xlsx#Burn 3", Some(14), Some(3)), "t.xlsx, Burn 3!C14");
        assert_eq!(place_name("t.xlsx#Burn 3", Some(14), None), "t.xlsx, Burn 3 row 14");
        assert_eq!(place_name("t.xlsx#Burn 3", None, None), "t.xlsx, Burn 3");
        assert_eq!(place_name("t.xlsx", None, None), "t.xlsx");
        assert_eq!(place_name("b07.csv", Some(14), Some(3)), "b07.csv line 14 column 3");
    }

    /// The last cell of a sheet is XFD1048576 (ECMA-376 part 1, 18.3.1.4 and the limits of its application).
    #[test]
    fn names_of_cells_go_both_ways() {
        for (name, at) in [("A1", (1, 1)), ("Z9", (9, 26)), ("AA10", (10, 27)), ("XFD1048576", (1 << 20, 1 << 14))] {
            assert_eq!(cell_at(name), Some(at));
            assert_eq!(cell_name(at.0, at.1), name);
        }
        for name in ["XFE1", "A0", "A1048577", "A", "1", "", "A1B", "A99999999999999999999", "\u{e4}1"] {
            assert_eq!(cell_at(name), None, "{name}");
        }
    }
}
