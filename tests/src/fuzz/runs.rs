//! Whole runs of a small pipeline, some of whose files are the parts of the input: reading, reducing, comparing, charts and page.

use super::input::parts;
use crate::{TinyDataset, Workspace};
use std::ffi::OsString;

/// Files of the pipeline that a part may replace.
const FILES: [&str; 5] =
    ["pipeline.toml", "data/dataset.toml", "data/trials.csv", "data/logs/b1.csv", "data/logs/r1.csv"];

thread_local! {
    static FOLDER: Workspace = Workspace::new();
}

pub(super) fn check(bytes: &[u8]) {
    FOLDER.with(|folder| {
        TinyDataset::new().write(folder);
        for (name, text) in parts(bytes).into_iter().filter(|(name, _)| FILES.contains(name)) {
            folder.write(name, text);
        }
        let paths = [folder.join("pipeline.toml"), folder.join("out")].map(OsString::from);
        let [pipeline, out] = paths;
        let args: [OsString; 8] = [
            "calefact".into(),
            "run".into(),
            pipeline,
            "--out".into(),
            out,
            "--quiet".into(),
            "--jobs".into(),
            "1".into(),
        ];
        let code = calefact::run(args);
        // Exit codes 0 to 2 are those of results, results with errors, and refused files.
        assert!(code <= 2, "exit code {code}");
        let page = folder.join("out/report.html");
        assert!(code > 0 || page.is_file(), "done without a page");
        let _ = std::fs::remove_dir_all(folder.join("out"));
    });
}
