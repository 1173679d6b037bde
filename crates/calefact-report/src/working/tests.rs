//! What the next run finds wherever a run was killed, and what it makes of it.

use super::*;
use crate::Staging;

/// A folder with an earlier report, or none, and the reader's own note in it.
fn report(at: &Path, table: &str, note: &str) {
    fs::create_dir_all(at).expect("a folder");
    fs::write(at.join("manifest.json"), r#"{"tool":{"name":"calefact"},"inputs":[],"outputs":[{"path":"a.csv"}]}"#)
        .expect("a manifest");
    fs::write(at.join("a.csv"), table).expect("a table");
    if !note.is_empty() {
        fs::write(at.join("note.txt"), note).expect("a note");
    }
}

fn text(path: PathBuf) -> String {
    fs::read_to_string(path).unwrap_or_default()
}

fn names(dir: &Path) -> Vec<String> {
    let entries = fs::read_dir(dir).expect("a folder").flatten();
    let mut names: Vec<String> = entries.map(|e| e.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_half_made_report_goes() {
    let dir = tempfile::tempdir().expect("a folder");
    let (out, left) = (dir.path().join("out"), dir.path().join(".calefact-out"));
    report(&out, "earlier", "mine");
    fs::create_dir_all(left.join("new/tables")).expect("a folder");
    fs::write(left.join("new/tables/half.csv"), "ha").expect("a file");
    drop(Staging::begin(&out).expect("a working folder"));
    assert_eq!((names(dir.path()), text(out.join("a.csv"))), (vec!["out".to_owned()], "earlier".to_owned()));
}

#[test]
fn a_report_moved_aside_goes_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let (out, left) = (dir.path().join("out"), dir.path().join(".calefact-out"));
    report(&left.join("old"), "earlier", "mine");
    report(&left.join("new"), "later", "");
    drop(Staging::begin(&out).expect("a working folder"));
    assert_eq!(names(&out), ["a.csv", "manifest.json", "note.txt"]);
    assert_eq!(text(out.join("a.csv")), "earlier");
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn own_files_in_a_report_swapped_out_go_into_the_one_in_place() {
    let dir = tempfile::tempdir().expect("a folder");
    let (out, left) = (dir.path().join("out"), dir.path().join(".calefact-out"));
    report(&left.join("new"), "earlier", "mine");
    report(&out, "later", "");
    drop(Staging::begin(&out).expect("a working folder"));
    assert_eq!((text(out.join("a.csv")), text(out.join("note.txt"))), ("later".to_owned(), "mine".to_owned()));
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn what_runs_into_other_folders_left_goes_unless_they_live() {
    let dir = tempfile::tempdir().expect("a folder");
    let dead = dir.path().join(".calefact-dead");
    fs::create_dir_all(dead.join("new")).expect("a folder");
    fs::write(dead.join(LOCK), "").expect("a lock");
    // No lock file: no folder of this program, or one of a run that is about to begin.
    fs::create_dir(dir.path().join(".calefact-mine")).expect("a folder");
    let living = Staging::begin(&dir.path().join("living")).expect("a working folder");
    let own = Staging::begin(&dir.path().join("out")).expect("a working folder");
    assert_eq!(names(dir.path()), [".calefact-living", ".calefact-mine", ".calefact-out"]);
    drop((living, own));
    assert_eq!(names(dir.path()), [".calefact-mine"]);
}

#[test]
fn a_second_run_into_a_folder_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = dir.path().join("out");
    let first = Staging::begin(&out).expect("a working folder");
    let second = Staging::begin(&out).expect_err("another run").to_string();
    assert!(second.starts_with("another run is writing into "), "{second}");
    drop(first);
    Staging::begin(&out).expect("the first run has ended");
}

#[cfg(unix)]
#[test]
fn a_link_in_the_place_of_a_working_folder_is_not_followed() {
    let dir = tempfile::tempdir().expect("a folder");
    report(&dir.path().join("theirs/new"), "theirs", "");
    std::os::unix::fs::symlink("theirs", dir.path().join(".calefact-out")).expect("a link");
    Staging::begin(&dir.path().join("out")).expect_err("a link");
    assert_eq!(text(dir.path().join("theirs/new/a.csv")), "theirs");
}
