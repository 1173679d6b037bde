//! Names of files in a bundle: relative, with forward slashes, and such that every system can hold them.

use calefact_analysis::fact::NameFault;
use std::collections::{BTreeMap, BTreeSet};
use unicode_normalization::UnicodeNormalization as _;

/// Bytes of a name, and of a part of it, that file systems hold.
const LONGEST: usize = 1000;
const LONGEST_PART: usize = 200;
/// Folders below each other.
const DEEPEST: usize = 30;
/// Names of devices on Windows, without the number behind the last two.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];
const NUMBERED_DEVICES: [&str; 2] = ["com", "lpt"];

/// The fault of a name, if it has one.
pub fn name_fault(name: &str) -> Option<NameFault> {
    let has_drive = name.as_bytes().get(1) == Some(&b':');
    let mut parts = name.split('/');
    if has_drive || name.contains('\\') || parts.clone().any(|part| matches!(part, "" | "." | "..")) {
        return Some(NameFault::Path);
    }
    if name.len() > LONGEST || parts.clone().any(|p| p.len() > LONGEST_PART) || parts.clone().count() > DEEPEST {
        return Some(NameFault::Long);
    }
    if name.contains(is_refused) {
        return Some(NameFault::Character);
    }
    parts.any(is_reserved).then_some(NameFault::Reserved)
}

/// Characters that Windows does not allow, that a terminal obeys, or that turn the direction of a text.
fn is_refused(c: char) -> bool {
    c.is_control()
        || "<>:\"|?*".contains(c)
        || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}' | '\u{fffd}')
}

fn is_reserved(part: &str) -> bool {
    let stem = part.split('.').next().unwrap_or_default().trim_end().to_lowercase();
    let numbered =
        |device: &&'static str| stem.strip_prefix(*device).is_some_and(|n| matches!(n.as_bytes(), [b'0'..=b'9']));
    part.ends_with(['.', ' ']) || DEVICES.contains(&stem.as_str()) || NUMBERED_DEVICES.iter().any(numbered)
}

/// The names of a bundle so far.
#[derive(Debug, Default)]
pub(crate) struct EntryNames {
    /// Files, by the form in which systems without capitals compare them.
    files: BTreeMap<String, String>,
    folders: BTreeSet<String>,
}

impl EntryNames {
    /// Adds a file.
    ///
    /// # Errors
    /// The fault of its name, on its own or beside the others.
    pub(crate) fn add(&mut self, name: &str) -> Result<(), NameFault> {
        if let Some(fault) = name_fault(name) {
            return Err(fault);
        }
        let folded = folded(name);
        match self.files.get(&folded) {
            Some(other) if other == name => return Err(NameFault::Twice),
            Some(other) => return Err(NameFault::Case(other.clone())),
            None => {}
        }
        let above: Vec<String> = folded.match_indices('/').map(|(at, _)| folded[..at].to_owned()).collect();
        if self.folders.contains(&folded) || above.iter().any(|folder| self.files.contains_key(folder)) {
            return Err(NameFault::Folder);
        }
        self.folders.extend(above);
        self.files.insert(folded, name.to_owned());
        Ok(())
    }
}

/// The form in which a system without capitals, and one that composes accents, compares names.
fn folded(name: &str) -> String {
    name.nfc().collect::<String>().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_no_system_should_unpack_are_refused() {
        let table = [
            ("a/b.csv", None),
            ("Öl & Wasser (2).csv", None),
            ("", Some(NameFault::Path)),
            ("/etc/passwd", Some(NameFault::Path)),
            ("../a", Some(NameFault::Path)),
            ("a/../../b", Some(NameFault::Path)),
            ("a/./b", Some(NameFault::Path)),
            ("a//b", Some(NameFault::Path)),
            ("a/", Some(NameFault::Path)),
            ("C:/a", Some(NameFault::Path)),
            ("c:a", Some(NameFault::Path)),
            ("a\\b", Some(NameFault::Path)),
            ("a\0b", Some(NameFault::Character)),
            ("a\u{1b}[2Jb", Some(NameFault::Character)),
            ("a\u{202e}b", Some(NameFault::Character)),
            ("12:30.csv", Some(NameFault::Character)),
            ("logs/NUL", Some(NameFault::Reserved)),
            ("logs/com1.csv", Some(NameFault::Reserved)),
            ("a./b", Some(NameFault::Reserved)),
            ("console.csv", None),
        ];
        for (name, want) in table {
            assert_eq!(name_fault(name), want, "{name:?}");
        }
        assert_eq!(name_fault(&"x".repeat(300)), Some(NameFault::Long));
        assert_eq!(name_fault("x/".repeat(100).trim_end_matches('/')), Some(NameFault::Long));
    }

    #[test]
    fn names_that_some_system_takes_for_one_are_refused() {
        let mut names = EntryNames::default();
        assert_eq!(names.add("logs/a.csv"), Ok(()));
        assert_eq!(names.add("logs/a.csv"), Err(NameFault::Twice));
        assert_eq!(names.add("Logs/A.csv"), Err(NameFault::Case("logs/a.csv".into())));
        assert_eq!(names.add("logs"), Err(NameFault::Folder));
        assert_eq!(names.add("logs/a.csv/b"), Err(NameFault::Folder));
        assert_eq!(names.add("caf\u{e9}"), Ok(()));
        assert_eq!(names.add("cafe\u{301}"), Err(NameFault::Case("caf\u{e9}".into())));
    }
}
