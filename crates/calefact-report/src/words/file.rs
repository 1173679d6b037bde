//! Words for facts about files as a whole.

use super::{Message, Wording, workbook};
use calefact_data::fact::{BinaryFormat, File, ReadFailure, TableFile};

/// The message on a fact.
pub(super) fn message(fact: &File) -> Message {
    match fact {
        File::Unreadable(failure) => {
            let message = Message::new(format!("cannot read the file: {}", reason(failure)));
            Message { hint: hint(failure), ..message }
        }
        File::NotText { table, format } => not_text(*table, *format),
        File::EncodingGuessed(name) => {
            let hint = format!(
                "if letters look wrong, set `encoding` in dataset.toml; `encoding = \"{name}\"` confirms the guess"
            );
            Message::new(format!("not UTF-8; read as {name}")).hint(hint)
        }
        File::QuoteOpen { never_closed } => {
            let how = if *never_closed { "is never closed" } else { "is not closed on its line" };
            Message::new(format!("a quote opened here {how}; the lines below are read as part of its cell"))
                .action("trial left out")
                .hint("close the quote, or delete it")
        }
    }
}

/// Why a file cannot be read, after "cannot read: ".
pub(super) fn reason(failure: &ReadFailure) -> String {
    match failure {
        ReadFailure::NotFound => "no such file".into(),
        ReadFailure::PermissionDenied => "permission denied".into(),
        ReadFailure::Folder => "it is a folder, not a file".into(),
        ReadFailure::NotAFile => "it is a pipe or a device, not a file".into(),
        ReadFailure::Outside => "the path leads out of the folder of the dataset".into(),
        ReadFailure::TooLarge => "it is larger than 2 GiB".into(),
        ReadFailure::Workbook(failure) => workbook::reason(failure),
        ReadFailure::System(words) => words.clone(),
    }
}

/// Hint on it.
pub(super) fn hint(failure: &ReadFailure) -> Option<String> {
    let hint = match failure {
        ReadFailure::PermissionDenied => "give yourself permission to read the file",
        ReadFailure::Outside => {
            "move the file into the folder of the dataset, or set `read_outside = true` at the top of the pipeline file"
        }
        ReadFailure::TooLarge => "split the file, or write a reading every second at most",
        ReadFailure::Workbook(failure) => return workbook::hint(failure),
        _ => return None,
    };
    Some(hint.into())
}

/// The message on two columns of a table for one; `place` is the part of `dataset.toml` that gives one of the headers to the
/// column, if it does.
pub(super) fn two_columns(w: &Wording<'_>, headers: &[String; 2], column: &str, place: Option<&str>) -> Message {
    let [first, second] = headers.each_ref().map(|header| w.quoted(header));
    let message = if first == second {
        Message::new(format!("two columns have the header {first}"))
    } else {
        Message::new(format!("{first} and {second} are two columns for {}", w.column(column)))
    };
    message.hint(match place {
        Some(place) => {
            format!("take the header that is not meant out of {place} in dataset.toml, or rename its column")
        }
        None => "rename or delete one of the two".to_owned(),
    })
}

/// The message on a cell that no header of its sheet stands over.
pub(super) fn beside_table() -> Message {
    Message::new("the cell stands beside the table, under no header").action("not read")
}

fn not_text(table: TableFile, format: Option<BinaryFormat>) -> Message {
    let text = match format {
        None => "not a text file; expected CSV",
        Some(BinaryFormat::Zip) => "a zip archive or a spreadsheet, not a text file; expected CSV",
        Some(BinaryFormat::OldSpreadsheet) => "a spreadsheet, not a text file; expected CSV",
        Some(BinaryFormat::Pdf) => "a PDF, not a text file; expected CSV",
        Some(BinaryFormat::Gzip) => "a gzip archive, not a text file; expected CSV",
    };
    let action = match table {
        TableFile::Log => "trial left out",
        TableFile::Register => "no trial read",
    };
    let hint = match format {
        Some(BinaryFormat::Gzip) => "unpack the archive and name the CSV file in it",
        Some(BinaryFormat::Zip) => "give a workbook the ending .xlsx or .ods; unpack an archive first",
        _ => "save the table as CSV (UTF-8) and name that file",
    };
    Message::new(text).action(action).hint(hint)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(fact: &File, text: &str, action: Option<&str>, hint: Option<&str>) {
        let message = message(fact);
        assert_eq!((message.text.as_str(), message.action.as_deref(), message.hint.as_deref()), (text, action, hint));
    }

    #[test]
    fn unreadable_files() {
        let cases = [
            (ReadFailure::NotFound, "cannot read the file: no such file", None),
            (ReadFailure::Folder, "cannot read the file: it is a folder, not a file", None),
            (ReadFailure::NotAFile, "cannot read the file: it is a pipe or a device, not a file", None),
            (ReadFailure::System("disk error".into()), "cannot read the file: disk error", None),
            (
                ReadFailure::PermissionDenied,
                "cannot read the file: permission denied",
                Some("give yourself permission to read the file"),
            ),
        ];
        for (failure, text, hint) in cases {
            check(&File::Unreadable(failure), text, None, hint);
        }
    }

    #[test]
    fn files_that_do_not_hold_text() {
        let fact = |format| File::NotText { table: TableFile::Log, format };
        let sheet = "save the table as CSV (UTF-8) and name that file";
        let left_out = Some("trial left out");
        check(&fact(None), "not a text file; expected CSV", left_out, Some(sheet));
        check(&fact(Some(BinaryFormat::Pdf)), "a PDF, not a text file; expected CSV", left_out, Some(sheet));
        let old = Some(BinaryFormat::OldSpreadsheet);
        let register = File::NotText { table: TableFile::Register, format: old };
        check(&register, "a spreadsheet, not a text file; expected CSV", Some("no trial read"), Some(sheet));
        check(
            &fact(Some(BinaryFormat::Zip)),
            "a zip archive or a spreadsheet, not a text file; expected CSV",
            left_out,
            Some("give a workbook the ending .xlsx or .ods; unpack an archive first"),
        );
        check(
            &fact(Some(BinaryFormat::Gzip)),
            "a gzip archive, not a text file; expected CSV",
            left_out,
            Some("unpack the archive and name the CSV file in it"),
        );
    }

    #[test]
    fn guessed_encodings_and_open_quotes() {
        check(
            &File::EncodingGuessed("windows-1252"),
            "not UTF-8; read as windows-1252",
            None,
            Some(
                "if letters look wrong, set `encoding` in dataset.toml; `encoding = \"windows-1252\"` confirms the guess",
            ),
        );
        let hint = Some("close the quote, or delete it");
        let open = |never_closed| File::QuoteOpen { never_closed };
        check(
            &open(false),
            "a quote opened here is not closed on its line; the lines below are read as part of its cell",
            Some("trial left out"),
            hint,
        );
        check(
            &open(true),
            "a quote opened here is never closed; the lines below are read as part of its cell",
            Some("trial left out"),
            hint,
        );
    }
}
