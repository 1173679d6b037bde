//! Words for facts about workbooks and their sheets.

use super::{Message, list};
use calefact_data::fact::{SheetFact, WorkbookFailure};

/// Why a sheet cannot be read, after "cannot read the file: ".
pub(super) fn reason(failure: &WorkbookFailure) -> String {
    match failure {
        WorkbookFailure::Encrypted => "the workbook is protected by a password".into(),
        WorkbookFailure::OldFormat => "it is a workbook in a binary format (.xls, .xlsb)".into(),
        WorkbookFailure::NotAWorkbook => "it is not a workbook (.xlsx, .ods)".into(),
        WorkbookFailure::Damaged => "the workbook is damaged".into(),
        WorkbookFailure::TooLarge(limit) => format!("it holds more than {limit} MiB when unpacked"),
        WorkbookFailure::TooManyCells(limit) => format!("the sheet has more than {} million cells", limit / 1_000_000),
        WorkbookFailure::SheetMissing { sheet, sheets, .. } => {
            format!("the workbook has no sheet `{sheet}`; its sheets are {}", names(sheets))
        }
        WorkbookFailure::SheetNotNamed(sheets) if sheets.is_empty() => "the workbook has no sheet".into(),
        WorkbookFailure::SheetNotNamed(sheets) => {
            format!("no sheet is named, and the workbook has several: {}", names(sheets))
        }
        WorkbookFailure::TwinSheets { sheet, twins } => {
            format!("`{sheet}` may be one of several sheets: {}", names(twins))
        }
        WorkbookFailure::NotCalculated(cell) => {
            format!("cell {cell} has a formula, and the file does not hold its value")
        }
    }
}

/// Hint on it.
pub(super) fn hint(failure: &WorkbookFailure) -> Option<String> {
    let hint = match failure {
        WorkbookFailure::Encrypted => "save the workbook without a password",
        WorkbookFailure::OldFormat => "save the workbook as .xlsx or .ods",
        WorkbookFailure::NotAWorkbook => "save the table as .xlsx or .ods, or give a text file the ending .csv",
        WorkbookFailure::Damaged | WorkbookFailure::NotCalculated(_) => {
            "open the workbook in a spreadsheet program and save it again"
        }
        WorkbookFailure::TooLarge(_) | WorkbookFailure::TooManyCells(_) => {
            "move the sheet to a workbook of its own, or save it as CSV (UTF-8)"
        }
        WorkbookFailure::SheetMissing { nearest: Some(near), .. } => return Some(format!("did you mean `#{near}`?")),
        WorkbookFailure::SheetNotNamed(sheets) => {
            return sheets.first().map(|sheet| format!("write the sheet behind the file, such as `#{sheet}`"));
        }
        WorkbookFailure::SheetMissing { .. } => return None,
        WorkbookFailure::TwinSheets { .. } => "write the name exactly as the workbook has it, or rename a sheet",
    };
    Some(hint.into())
}

fn names(sheets: &[String]) -> String {
    list(&sheets.iter().map(|sheet| format!("`{sheet}`")).collect::<Vec<_>>())
}

/// The message on a fact of a sheet.
pub(super) fn message(fact: &SheetFact) -> Message {
    match fact {
        SheetFact::HiddenRows(1) => Message::new("one row of the sheet is hidden").action("read like the others"),
        SheetFact::HiddenRows(rows) => Message::new(format!("{rows} rows of the sheet are hidden, this is the first"))
            .action("read like the others"),
        SheetFact::ErrorCell(error) => Message::new(format!("the cell shows the error `{error}`"))
            .action("read as blank")
            .hint("correct the formula in the cell"),
        SheetFact::MergedRows(rows) => Message::new(format!("the cell is merged over {rows} rows"))
            .action("its value is read in the first row only")
            .hint("unmerge the cell and write the value in each row"),
        SheetFact::Macros => {
            Message::new("the workbook has macros").action("macros not run; cells read as they were saved")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use insta::assert_snapshot;

    #[test]
    fn reasons_and_hints() {
        let sheets = || vec!["Burns".to_owned(), "Burn 3".to_owned()];
        let (sheet, near) = ("Burn 4".to_owned(), Some("Burn 3".to_owned()));
        let all = [
            WorkbookFailure::Encrypted,
            WorkbookFailure::OldFormat,
            WorkbookFailure::NotAWorkbook,
            WorkbookFailure::Damaged,
            WorkbookFailure::TooLarge(512),
            WorkbookFailure::TooManyCells(20_000_000),
            WorkbookFailure::SheetMissing { sheet: sheet.clone(), nearest: near, sheets: sheets() },
            WorkbookFailure::SheetNotNamed(sheets()),
            WorkbookFailure::SheetNotNamed(Vec::new()),
            WorkbookFailure::TwinSheets { sheet, twins: sheets() },
            WorkbookFailure::NotCalculated("C14".into()),
        ];
        let text = |f: &WorkbookFailure| format!("{}\n  hint: {}", reason(f), hint(f).unwrap_or_default());
        assert_snapshot!(all.iter().map(text).collect::<Vec<_>>().join("\n"), @r"
        the workbook is protected by a password
          hint: save the workbook without a password
        it is a workbook in a binary format (.xls, .xlsb)
          hint: save the workbook as .xlsx or .ods
        it is not a workbook (.xlsx, .ods)
          hint: save the table as .xlsx or .ods, or give a text file the ending .csv
        the workbook is damaged
          hint: open the workbook in a spreadsheet program and save it again
        it holds more than 512 MiB when unpacked
          hint: move the sheet to a workbook of its own, or save it as CSV (UTF-8)
        the sheet has more than 20 million cells
          hint: move the sheet to a workbook of its own, or save it as CSV (UTF-8)
        the workbook has no sheet `Burn 4`; its sheets are `Burns` and `Burn 3`
          hint: did you mean `#Burn 3`?
        no sheet is named, and the workbook has several: `Burns` and `Burn 3`
          hint: write the sheet behind the file, such as `#Burns`
        the workbook has no sheet
          hint: 
        `Burn 4` may be one of several sheets: `Burns` and `Burn 3`
          hint: write the name exactly as the workbook has it, or rename a sheet
        cell C14 has a formula, and the file does not hold its value
          hint: open the workbook in a spreadsheet program and save it again
        ");
    }
}
