//! Tables that nobody has described: what `new --from` understands, says and writes down.

use super::findings::assert_readable;
use super::input::{choice, is_read_twice, parts};
use crate::Workspace;
use calefact_data::{DESCRIPTION, Proposal, dataset_file, propose};
use calefact_report::words::{Units, Wording, bounded, printable, proposal as words};
use calefact_report::{StarterRequest, starter_files};
use std::path::{Path, PathBuf};

thread_local! {
    static FOLDER: Workspace = Workspace::new();
}

pub(super) fn check(bytes: &[u8]) {
    let (us, bytes) = choice(bytes, 2);
    let units = if us == 1 { Units::Us } else { Units::Metric };
    let named = parts(bytes);
    let tables = if named.is_empty() { vec![bytes] } else { named.into_iter().take(3).map(|(_, text)| text).collect() };
    FOLDER.with(|folder| {
        let write = |(i, text): (usize, &&[u8])| folder.write(&format!("{i}.csv"), text);
        let paths: Vec<PathBuf> = tables.iter().enumerate().map(write).collect();
        let proposal = propose(&paths, us == 1);
        if is_read_twice(bytes) {
            assert_eq!(format!("{proposal:?}"), format!("{:?}", propose(&paths, us == 1)), "looked at twice");
        }
        assert_said(&proposal, units);
        if !proposal.logs.is_empty() {
            assert_written(&proposal, units);
        }
    });
}

/// Asserts that every file is told of, in lines that a person can read once the command has bounded them.
fn assert_said(proposal: &Proposal, units: Units) {
    let w = Wording { units, ..Wording::plain() };
    let said = [words::understood(&w, proposal), words::left_out(&w, proposal), words::open(&w, Some(proposal), &[])];
    assert!(said.iter().flatten().count() > 0, "nothing is said");
    said.concat().into_iter().for_each(|line| assert_readable(&bounded(printable(line))));
}

/// Asserts that the files that are written can be read.
fn assert_written(proposal: &Proposal, units: Units) {
    let logs = proposal.logs.iter().enumerate().map(|(i, _)| format!("logs/{i}.csv")).collect();
    let request = StarterRequest {
        name: "set".into(),
        title: "Set".into(),
        units,
        found: Some((proposal, logs)),
        ..StarterRequest::default()
    };
    let files = starter_files(&request);
    let text = &files.iter().find(|file| file.path == DESCRIPTION).expect("a description").text;
    let (_, findings) = dataset_file::read_text(Path::new(DESCRIPTION), text);
    assert!(findings.is_empty(), "{findings:?}\n{text}");
}
