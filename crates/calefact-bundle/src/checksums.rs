//! The list of checksums: one line a file, `SHA-256  path`, sorted by path; every file of the bundle but the list itself.

use crate::names::CHECKSUMS;
use calefact_analysis::fact::BundleFact;
use calefact_data::InputFile;
use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::Path;

/// Writes the list of some files below a folder.
///
/// # Errors
/// If a file cannot be read, or the list cannot be written.
pub fn write(root: &Path, files: &BTreeSet<String>) -> io::Result<()> {
    let line = |name: &String| Ok(format!("{}  {name}\n", InputFile::read(&root.join(name))?.hex()));
    let lines = files.iter().filter(|name| *name != CHECKSUMS).map(line).collect::<io::Result<String>>()?;
    std::fs::write(root.join(CHECKSUMS), lines)
}

/// What is wrong with the files below a folder, by its list of checksums.
pub(crate) fn check(root: &Path, files: &BTreeSet<String>) -> Vec<BundleFact> {
    let text = match std::fs::read(root.join(CHECKSUMS)) {
        Ok(text) => text,
        Err(error) => return vec![BundleFact::Unreadable { reason: error.to_string() }],
    };
    let sealed = match parse(&text) {
        Ok(sealed) => sealed,
        Err(line) => return vec![BundleFact::ChecksumLine { line }],
    };
    let added = files.iter().filter(|name| *name != CHECKSUMS && !sealed.contains_key(*name));
    let added = added.map(|name| BundleFact::Added { name: name.clone() });
    let found = sealed.iter().filter_map(|(name, hash)| {
        if !files.contains(name) {
            return Some(BundleFact::Missing { name: name.clone() });
        }
        match InputFile::read(&root.join(name)) {
            Ok(file) if file.hex() == *hash => None,
            Ok(_) => Some(BundleFact::Changed { name: name.clone() }),
            Err(error) => Some(BundleFact::Unreadable { reason: format!("{name}: {error}") }),
        }
    });
    found.chain(added).collect()
}

/// Hashes by path; the number of the first line that is not as [`write()`] writes it.
fn parse(text: &[u8]) -> Result<BTreeMap<String, String>, u64> {
    let mut sealed: BTreeMap<String, String> = BTreeMap::new();
    let text = std::str::from_utf8(text).map_err(|e| text[..e.valid_up_to()].split(|b| *b == b'\n').count() as u64)?;
    let mut number = 0;
    for line in text.split_inclusive('\n') {
        number += 1;
        let (hash, name) = line.strip_suffix('\n').and_then(|l| l.split_once("  ")).ok_or(number)?;
        let is_hash = hash.len() == 64 && hash.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
        let is_next = sealed.last_key_value().is_none_or(|(last, _)| last.as_str() < name);
        if !is_hash || !is_next || name == CHECKSUMS || crate::name_fault(name).is_some() {
            return Err(number);
        }
        sealed.insert(name.to_owned(), hash.to_owned());
    }
    if sealed.is_empty() { Err(1) } else { Ok(sealed) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_change_is_found_and_named() {
        let dir = tempfile::tempdir().expect("a folder");
        let at = |name: &str| dir.path().join(name);
        std::fs::write(at("a.csv"), "1").expect("a file");
        std::fs::write(at("b.csv"), "2").expect("a file");
        let mut files: BTreeSet<String> = ["a.csv", "b.csv", CHECKSUMS].map(str::to_owned).into();
        write(dir.path(), &files).expect("a list");
        assert_eq!(check(dir.path(), &files), []);
        std::fs::write(at("a.csv"), "3").expect("a file");
        assert_eq!(check(dir.path(), &files), [BundleFact::Changed { name: "a.csv".into() }]);
        std::fs::write(at("a.csv"), "1").expect("a file");
        files.remove("b.csv");
        files.insert("c.csv".into());
        let (missing, added) =
            (BundleFact::Missing { name: "b.csv".into() }, BundleFact::Added { name: "c.csv".into() });
        assert_eq!(check(dir.path(), &files), [missing, added]);
    }

    #[test]
    fn every_byte_of_the_list_counts() {
        let list = format!("{:064}  a.csv\n{:064}  b.csv\n", 1, 2);
        assert_eq!(parse(list.as_bytes()).map(|all| all.len()), Ok(2));
        let wrong = [
            (list.replace('\n', "\r\n"), 1),
            (list.trim_end().to_owned(), 2),
            (list.replacen("  ", " ", 1), 1),
            (list.replace("b.csv", "a.csv"), 2),
            (list.replace("b.csv", "../b"), 2),
            (list.replace("b.csv", CHECKSUMS), 2),
            (format!("{list}\n"), 3),
            (list.replace("01  ", "0A  "), 1),
            (String::new(), 1),
        ];
        for (text, line) in wrong {
            assert_eq!(parse(text.as_bytes()), Err(line), "{text}");
        }
    }
}
