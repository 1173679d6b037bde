//! Paths that lead out of the dataset, and files that cannot be read: each costs its trial.

use crate::case::Case;
use calefact_tests::{TinyDataset, Workspace};
use std::fs;
use std::os::unix::fs::{PermissionsExt as _, symlink};
use std::path::Path;

const LOG: &str = "logs/b2.csv";

/// Files that are refused.
pub(crate) fn cases() -> Vec<Case> {
    let sound = TinyDataset::new;
    let log = |path: &str| sound().with("logs/b2.csv,box", &format!("{path},box"));
    let lost = |name, data| Case::new(name, data, 1, "log-unreadable");
    let mut cases = vec![
        Case::new("sound", sound(), 0, ""),
        lost("log-absolute", log("/etc/passwd")),
        lost("log-absolute-missing", log("/etc/no-such-file")),
        lost("log-above", log("../secret.csv")),
        lost("log-above-by-detour", log("logs/../../secret.csv")),
        lost("log-device", log("/dev/zero")),
        lost("log-of-the-system", log("/proc/self/environ")),
        lost("log-folder", log("logs")),
        Case::new("log-inside-by-detour", log("logs/../logs/b2.csv"), 0, ""),
        Case::new("log-above-allowed", log("../b2.csv").allowing(), 0, "").on_disk(|w| {
            fs::rename(w.join("data/logs/b2.csv"), w.join("b2.csv")).expect("a log moved");
        }),
    ];
    cases.extend(links());
    cases.extend(unreadable());
    cases
}

/// Links and roots that lead out.
fn links() -> [Case; 7] {
    let sound = TinyDataset::new;
    let dataset = |name| Case::new(name, sound(), 1, "file-unreadable");
    [
        Case::new("log-link-out", sound(), 1, "log-unreadable").on_disk(|w| replace(w, LOG, "../../secret.csv")),
        Case::new("log-link-absolute", sound(), 1, "log-unreadable").on_disk(|w| replace(w, LOG, "/etc/passwd")),
        Case::new("log-link-to-itself", sound(), 1, "log-unreadable").on_disk(|w| replace(w, LOG, "b2.csv")),
        Case::new("log-link-inside", sound(), 0, "").on_disk(|w| {
            fs::rename(w.join("data/logs/b2.csv"), w.join("data/logs/real.txt")).expect("a log moved");
            symlink("real.txt", w.join("data/logs/b2.csv")).expect("a link");
        }),
        dataset("dataset-link-out").on_disk(|w| replace(w, "dataset.toml", "../secret.csv")),
        dataset("register-link-out").on_disk(|w| replace(w, "trials.csv", "../secret.csv")),
        Case::new("logs-link-out", sound(), 1, "log-unreadable").on_disk(|w| {
            fs::rename(w.join("data/logs"), w.join("elsewhere")).expect("a folder moved");
            symlink("../elsewhere", w.join("data/logs")).expect("a link");
        }),
    ]
}

/// Files of the dataset that cannot be read, and roots outside.
fn unreadable() -> [Case; 5] {
    let sound = TinyDataset::new;
    let files = |text: &str| sound().with("[site]", &format!("[files]\n{text}\n[site]"));
    [
        Case::new("register-above", files("register = \"../secret.csv\""), 1, "file-unreadable"),
        Case::new("logs-root-above", files("logs_root = \"..\""), 1, "log-unreadable"),
        Case::new("log-pipe", sound(), 1, "log-unreadable").on_disk(|w| {
            fs::remove_file(w.join("data/logs/b2.csv")).expect("a log removed");
            let made = std::process::Command::new("mkfifo").arg(w.join("data/logs/b2.csv")).status();
            assert!(made.is_ok_and(|status| status.success()), "a pipe");
        }),
        Case::new("log-of-three-gibibytes", sound(), 1, "log-unreadable").on_disk(|w| {
            let file = fs::File::create(w.join("data/logs/b2.csv")).expect("a file");
            file.set_len(3 << 30).expect("a hole");
        }),
        Case::new("log-empty", sound().with_log(LOG, ""), 1, "log-empty"),
    ]
}

/// A log that nobody may read costs its trial; who may read everything reads it.
pub(crate) fn locked() -> Case {
    let w = Workspace::new();
    let probe = w.write("locked", "");
    lock(&probe);
    let (code, finding) = if fs::read(probe).is_ok() { (0, "") } else { (1, "log-unreadable") };
    Case::new("log-without-permission", TinyDataset::new(), code, finding).on_disk(|w| {
        lock(&w.join("data/logs/b2.csv"));
    })
}

fn lock(file: &Path) {
    fs::set_permissions(file, fs::Permissions::from_mode(0o000)).expect("permissions");
}

/// Puts a link in the place of a file of the dataset.
fn replace(w: &Workspace, file: &str, target: &str) {
    let file = w.join(&format!("data/{file}"));
    fs::remove_file(&file).expect("a file removed");
    symlink(target, file).expect("a link");
}

trait Allowing {
    /// The same pipeline, which may read outside.
    fn allowing(self) -> Self;
}

impl Allowing for TinyDataset {
    fn allowing(self) -> Self {
        self.with("datasets = ", "read_outside = true\ndatasets = ")
    }
}
