//! `pipeline.toml`: its keys and values, and the copy that is made of it for a bundle.

use super::findings::assert_sound;
use super::input::is_read_twice;
use crate::Workspace;
use calefact::pipeline_file::PipelineFile;
use calefact_bundle::rewrite;
use calefact_data::personal::LeftOut;
use std::path::PathBuf;

thread_local! {
    static FOLDER: Workspace = Workspace::new();
}

pub(super) fn check(bytes: &[u8]) {
    FOLDER.with(|folder| {
        let path = folder.write("pipeline.toml", bytes);
        let (file, findings) = PipelineFile::read(&path);
        assert_sound(&findings, &[(&path, bytes)]);
        assert!(file.is_some() || !findings.is_empty(), "refused without a word");
        if is_read_twice(bytes) {
            let again = PipelineFile::read(&path);
            assert_eq!((format!("{:?}", again.0), &again.1), (format!("{file:?}"), &findings), "read twice");
        }
        if let (Some(file), Ok(text)) = (file.filter(|_| findings.is_empty()), std::str::from_utf8(bytes)) {
            assert_rewritten(folder, &file, text);
        }
    });
}

/// Asserts that the copy of a pipeline for a bundle means the same but for its folders.
fn assert_rewritten(folder: &Workspace, file: &PipelineFile, text: &str) {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    for notes in [false, true] {
        let copy = rewrite::pipeline(text, &["set".into()], &LeftOut { notes, ..LeftOut::default() }).expect("TOML");
        let (read, findings) = PipelineFile::read(&folder.write("copy.toml", &copy));
        let read = read.unwrap_or_else(|| panic!("{findings:?}\n{copy}"));
        let datasets: Vec<PathBuf> = vec![folder.join("set")];
        let (outputs, bytes) = (read.outputs.clone(), read.file.clone());
        let wanted = PipelineFile { datasets, outputs, file: bytes, read_outside: false, ..file.clone() };
        assert_eq!(format!("{read:?}"), format!("{wanted:?}"), "written as\n{copy}");
    }
}
