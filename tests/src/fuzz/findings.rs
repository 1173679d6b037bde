//! What must hold of every finding: a code, a sentence that a person can read, and a place inside the file.

use calefact_analysis::finding::{Fact, Finding};
use calefact_data::{SheetAddress, finding};
use calefact_report::words::{Units, Wording, message};
use std::path::Path;

/// Characters of a sentence that a person may still read.
const LONGEST: usize = 6100;
/// Rows and columns of a sheet (ECMA-376 part 1, section 18.3.1: `XFD1048576` is the last cell, from memory).
const SHEET: (u64, u64) = (1_048_576, 16_384);

/// Asserts that findings are sound; `files` are those that may be named, with their bytes.
pub(super) fn assert_sound<F>(findings: &[finding::Finding<F>], files: &[(&Path, &[u8])])
where
    F: finding::Fact,
    Fact: From<F>,
{
    for finding in findings {
        let finding: Finding = finding.clone().widen();
        let code = finding.code();
        assert!(
            !code.is_empty() && code.bytes().all(|b| matches!(b, b'a'..=b'z' | b'0'..=b'9' | b'-')),
            "the code {code:?}"
        );
        let units = [Units::Metric, Units::Us][findings.len() % 2];
        let words = message(&Wording { units, ..Wording::plain() }, &finding);
        assert!(!words.text.trim().is_empty(), "{code} says nothing");
        [Some(words.text), words.action, words.hint].iter().flatten().for_each(|text| assert_readable(text));
        finding.excerpt.iter().for_each(|text| assert_readable(text));
        assert_inside(&finding, files);
    }
}

/// Asserts that a text is of a length that a person can read, and has nothing in it that a terminal obeys.
pub(super) fn assert_readable(text: &str) {
    let longest = text.lines().map(|line| line.chars().count()).max().unwrap_or(0);
    assert!(longest <= LONGEST, "a line of {longest} characters");
    let is_obeyed = |c: char| c.is_control() && !matches!(c, '\n' | '\t');
    assert!(!text.contains(is_obeyed), "a terminal obeys {text:?}");
}

fn assert_inside(finding: &Finding, files: &[(&Path, &[u8])]) {
    let named = finding.file.as_deref().unwrap_or_else(|| panic!("{finding:?} names no file"));
    let file = SheetAddress::parse(named).map_or_else(|| named.to_path_buf(), |address| address.workbook);
    let bytes = files.iter().find(|(path, _)| *path == file).map(|(_, bytes)| *bytes);
    let bytes = bytes.unwrap_or_else(|| panic!("{finding:?} names no file that was read"));
    let (lines, columns) = if file == named { size(bytes) } else { SHEET };
    let lasts = [finding.line, finding.repeats.map(|r| r.last_line)];
    assert!(lasts.iter().flatten().all(|line| (1..=lines).contains(line)), "{finding:?} is not on lines 1 to {lines}");
    assert!(finding.column.is_none_or(|c| (1..=columns).contains(&c)), "{finding:?} is not in columns 1 to {columns}");
}

/// Most lines of a text, and columns of its longest line, with the place after its end. Tables may have lines that end in a carriage
/// return, TOML files have none. Of a text in another encoding only the bytes are counted.
fn size(bytes: &[u8]) -> (u64, u64) {
    let ends = bytes.iter().filter(|byte| matches!(byte, b'\n' | b'\r')).count() as u64;
    let lines = std::str::from_utf8(bytes).map(|text| text.split('\n').map(str::len).max());
    let longest = lines.ok().flatten().unwrap_or(bytes.len()) as u64;
    (ends + 1, longest + 1)
}
