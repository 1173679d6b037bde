//! Bundles that nobody should unpack: each is refused with its fault, and nothing is written outside the folder that was given.

use calefact_analysis::fact::{BundleFact, BundleLimit, NameFault};
use calefact_bundle::{Bundle, archive, checksums, list, names::CHECKSUMS};
use std::io::{Cursor, Write as _};
use std::path::{Path, PathBuf};
use tempfile::TempDir;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// What opening a bundle gives.
type Opened = Result<(), Vec<BundleFact>>;

/// An archive with a list of checksums and some entries, each with its Unix mode.
fn archive_of(entries: &[(&str, u32, &[u8])]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let list: (&str, u32, &[u8]) = (CHECKSUMS, 0o100_644, b"");
    for (name, mode, content) in std::iter::once(&list).chain(entries) {
        writer.start_file(*name, SimpleFileOptions::default().unix_permissions(*mode)).expect("an entry");
        writer.write_all(content).expect("content");
    }
    writer.finish().expect("an archive").into_inner()
}

/// The same bytes with every `from` replaced.
fn replaced(bytes: &[u8], from: &[u8], to: &[u8]) -> Vec<u8> {
    assert_eq!(from.len(), to.len());
    let mut bytes = bytes.to_vec();
    let places: Vec<usize> = (0..=bytes.len() - from.len()).filter(|at| bytes[*at..].starts_with(from)).collect();
    assert!(!places.is_empty(), "nothing to replace");
    for at in places {
        bytes[at..at + to.len()].copy_from_slice(to);
    }
    bytes
}

/// A folder with an archive in it, and what opening that gives.
fn open(archive: &[u8]) -> Opened {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("bundle.zip");
    std::fs::write(&path, archive).expect("an archive");
    let opened = Bundle::open(&path, &dir.path().join("in")).map(|_| ());
    let beside: Vec<_> = std::fs::read_dir(dir.path()).expect("a folder").flatten().map(|e| e.file_name()).collect();
    assert!(beside.iter().all(|name| name == "bundle.zip" || name == "in"), "written outside: {beside:?}");
    opened
}

fn refused(name: &str, fault: NameFault) -> Opened {
    Err(vec![BundleFact::Unsafe { name: name.into(), fault }])
}

const FILE: u32 = 0o100_644;

#[test]
fn entries_that_no_one_should_unpack() {
    let x: &[u8] = b"x";
    let one = |name: &str| archive_of(&[(name, FILE, x)]);
    let placeholder = archive_of(&[("aaaaaaaa", FILE, x)]);
    let renamed = |name: &[u8; 8]| replaced(&placeholder, b"aaaaaaaa", name);
    let cases: Vec<(&str, Vec<u8>, Opened)> = vec![
        ("sound", one("a/b.csv"), Ok(())),
        ("up", renamed(b"../a.csv"), refused("../a.csv", NameFault::Path)),
        ("up inside", renamed(b"a/../../"), refused("a/../../", NameFault::Path)),
        ("absolute", renamed(b"/etc/foo"), refused("/etc/foo", NameFault::Path)),
        ("drive", renamed(b"C:/a.csv"), refused("C:/a.csv", NameFault::Path)),
        ("drive without slash", renamed(b"c:aa.csv"), refused("c:aa.csv", NameFault::Path)),
        ("backslash", renamed(b"..\\a.csv"), refused("..\\a.csv", NameFault::Path)),
        ("network", renamed(b"\\\\srv\\ab"), refused("\\\\srv\\ab", NameFault::Path)),
        ("dot", renamed(b"./aa.csv"), refused("./aa.csv", NameFault::Path)),
        ("blank part", renamed(b"a//a.csv"), refused("a//a.csv", NameFault::Path)),
        ("escape", renamed(b"a\x1b[2J.cs"), refused("a\u{1b}[2J.cs", NameFault::Character)),
        ("zero", renamed(b"a.csv\0.x"), refused("a.csv\0.x", NameFault::Character)),
        ("line", renamed(b"a\nb.csvv"), refused("a\nb.csvv", NameFault::Character)),
        ("not UTF-8", renamed(b"ab\xff\xfe.csv"), refused("ab\u{fffd}\u{fffd}.csv", NameFault::Character)),
        ("stream", renamed(b"ab:c.csv"), refused("ab:c.csv", NameFault::Character)),
        ("question", renamed(b"what?.cs"), refused("what?.cs", NameFault::Character)),
        ("device", renamed(b"com1.csv"), refused("com1.csv", NameFault::Reserved)),
        ("dot at the end", renamed(b"a.csv..."), refused("a.csv...", NameFault::Reserved)),
        ("blank at the end", renamed(b"aaa.csv "), refused("aaa.csv ", NameFault::Reserved)),
        ("direction", one("a\u{202e}vsc.csv"), refused("a\u{202e}vsc.csv", NameFault::Character)),
        ("long", one(&"a".repeat(300)), refused(&"a".repeat(300), NameFault::Long)),
        ("link", linked(), refused("aaaaaaaa", NameFault::NotAFile)),
        (
            "capitals",
            archive_of(&[("logs/a.csv", FILE, x), ("Logs/A.csv", FILE, x)]),
            refused("Logs/A.csv", NameFault::Case("logs/a.csv".into())),
        ),
        (
            "folder and file",
            archive_of(&[("logs/a.csv", FILE, x), ("logs", FILE, x)]),
            refused("logs", NameFault::Folder),
        ),
        (
            "twice",
            replaced(&archive_of(&[("aa.csv", FILE, x), ("ab.csv", FILE, x)]), b"ab.csv", b"aa.csv"),
            refused("", NameFault::Twice),
        ),
    ];
    for (case, archive, want) in cases {
        assert_eq!(open(&archive), want, "{case}");
    }
}

/// An entry that is a symbolic link.
fn linked() -> Vec<u8> {
    let mut writer = ZipWriter::new_append(Cursor::new(archive_of(&[]))).expect("an archive");
    writer.add_symlink("aaaaaaaa", "/etc/passwd", SimpleFileOptions::default()).expect("a link");
    writer.finish().expect("an archive").into_inner()
}

/// The place of the first entry with a name in the list of entries at the end.
fn central(archive: &[u8], name: &[u8]) -> usize {
    (0..archive.len() - 46)
        .find(|at| archive[*at..].starts_with(b"PK\x01\x02") && archive[at + 46..].starts_with(name))
        .expect("an entry")
}

/// The sizes that an entry states: bytes 24 to 27 of its part of the list (APPNOTE 4.3.12).
fn with_stated_size(mut archive: Vec<u8>, name: &[u8], size: u32) -> Vec<u8> {
    let at = central(&archive, name) + 24;
    archive[at..at + 4].copy_from_slice(&size.to_le_bytes());
    archive
}

#[test]
fn sizes_are_bounded_as_stated_and_as_they_are() {
    let zeros = vec![0; 3 << 20];
    let bomb = archive_of(&[("bomb.csv", FILE, &zeros)]);
    assert!(bomb.len() < 10_000 && open(&bomb).is_ok(), "small enough to be harmless");
    let limit = |limit| Err(vec![BundleFact::TooLarge(limit)]);
    // 3 MB in an entry that states one byte; 4 GB stated; as many stated as make the archive suspicious.
    let is_stopped =
        |fact: &BundleFact| matches!(fact, BundleFact::Unreadable { .. } | BundleFact::TooLarge(BundleLimit::Stated));
    assert!(open(&with_stated_size(bomb.clone(), b"bomb.csv", 1)).is_err_and(|facts| facts.iter().all(is_stopped)));
    let stated = open(&with_stated_size(bomb.clone(), b"bomb.csv", u32::MAX - 1));
    assert!(matches!(stated, Err(facts) if matches!(facts[0], BundleFact::TooLarge(_))));
    assert_eq!(open(&with_stated_size(bomb, b"bomb.csv", 300 << 20)), limit(BundleLimit::Ratio(200)));
}

#[test]
fn many_entries_are_refused_before_they_are_listed() {
    let mut archive = archive_of(&[("a.csv", FILE, b"x")]);
    let end = archive.len() - 22;
    archive[end + 8..end + 12].copy_from_slice(&[0xff, 0xff, 0xff, 0xff]);
    assert_eq!(open(&archive), Err(vec![BundleFact::TooLarge(BundleLimit::Files(20_000))]));
}

#[test]
fn broken_archives_are_no_bundles() {
    let sound = archive_of(&[("a.csv", FILE, b"some content that is checked")]);
    let is_unreadable =
        |bytes: &[u8]| matches!(open(bytes), Err(facts) if matches!(facts[0], BundleFact::Unreadable { .. }));
    for cut in [0, 1, 10, 40, sound.len() - 1] {
        assert!(is_unreadable(&sound[..cut]), "{cut} bytes");
    }
    assert!(is_unreadable(b"PK but no archive"));
    assert!(is_unreadable(&[&sound[..], b"and more"].concat()));
    let mut encrypted = sound.clone();
    let at = central(&encrypted, b"a.csv") + 8;
    encrypted[at] |= 1;
    assert_eq!(open(&encrypted), refused("a.csv", NameFault::Encrypted));
    let other = {
        let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
        writer.start_file("readme.txt", SimpleFileOptions::default()).expect("an entry");
        writer.finish().expect("an archive").into_inner()
    };
    assert_eq!(open(&other), Err(vec![BundleFact::NotABundle]));
}

/// A small bundle as a folder.
fn folder() -> (TempDir, PathBuf) {
    let dir = tempfile::tempdir().expect("a folder");
    let root = dir.path().join("bundle");
    std::fs::create_dir_all(root.join("datasets/d")).expect("folders");
    for name in ["pipeline.toml", "datasets/d/trials.csv"] {
        std::fs::write(root.join(name), name).expect("a file");
    }
    checksums::write(&root, &list(&root).expect("names")).expect("a list");
    (dir, root)
}

fn faults(root: &Path) -> Vec<BundleFact> {
    Bundle::open_sound(root, &root.with_extension("in")).err().unwrap_or_default()
}

#[test]
fn an_archive_of_a_folder_is_the_same_bundle() {
    let (dir, root) = folder();
    let files = list(&root).expect("names");
    let pack = || archive::pack(&root, &files, Cursor::new(Vec::new())).expect("an archive").into_inner();
    let archive = pack();
    assert_eq!(archive, pack());
    let path = dir.path().join("b.ZIP");
    std::fs::write(&path, &archive).expect("an archive");
    let bundle = Bundle::open_sound(&path, &dir.path().join("in")).expect("a sound bundle");
    assert_eq!((bundle.files(), bundle.archive_difference().expect("a comparison")), (&files, None));
    // A byte of the frame: the time of the first entry.
    let mut other = archive;
    other[10] ^= 1;
    std::fs::write(&path, &other).expect("an archive");
    let bundle = Bundle::open_sound(&path, &dir.path().join("again")).expect("a sound bundle");
    assert_eq!(bundle.archive_difference().expect("a comparison"), Some(10));
}

#[test]
fn every_byte_of_an_archive_counts() {
    let (dir, root) = folder();
    let files = list(&root).expect("names");
    let archive = archive::pack(&root, &files, Cursor::new(Vec::new())).expect("an archive").into_inner();
    let path = dir.path().join("b.zip");
    for at in 0..archive.len() {
        let mut other = archive.clone();
        other[at] ^= 0x20;
        std::fs::write(&path, &other).expect("an archive");
        let into = dir.path().join(format!("in-{at}"));
        let is_found =
            Bundle::open_sound(&path, &into).is_ok_and(|b| b.archive_difference().is_ok_and(|d| d.is_none()));
        assert!(!is_found, "byte {at} may change");
    }
}

#[test]
fn folders_are_checked_file_by_file() {
    let (_dir, root) = folder();
    assert_eq!(faults(&root), []);
    std::fs::write(root.join("added.csv"), "x").expect("a file");
    assert_eq!(faults(&root), [BundleFact::Added { name: "added.csv".into() }]);
    std::fs::remove_file(root.join("added.csv")).expect("removed");
    std::fs::remove_file(root.join("pipeline.toml")).expect("removed");
    assert_eq!(faults(&root), [BundleFact::Missing { name: "pipeline.toml".into() }]);
}

#[cfg(unix)]
#[test]
fn links_in_folders_are_refused() {
    let (_dir, root) = folder();
    std::os::unix::fs::symlink("/etc", root.join("datasets/etc")).expect("a link");
    std::fs::remove_file(root.join("pipeline.toml")).expect("removed");
    std::os::unix::fs::symlink("/etc/passwd", root.join("pipeline.toml")).expect("a link");
    let linked = |name: &str| BundleFact::Unsafe { name: name.into(), fault: NameFault::NotAFile };
    assert_eq!(faults(&root), [linked("datasets/etc"), linked("pipeline.toml")]);
}
