//! `dataset.toml`: its keys and values, and the copy that is made of it for a bundle.

use super::findings::assert_sound;
use super::input::is_read_twice;
use calefact_bundle::rewrite;
use calefact_data::dataset_file;
use calefact_data::personal::LeftOut;
use std::path::Path;

pub(super) fn check(bytes: &[u8]) {
    let path = Path::new("dataset.toml");
    let text = String::from_utf8_lossy(bytes);
    let (file, findings) = dataset_file::read_text(path, &text);
    assert_sound(&findings, &[(path, text.as_bytes())]);
    assert!(file.is_some() || !findings.is_empty(), "refused without a word");
    let shown = format!("{file:?}");
    if is_read_twice(bytes) {
        let again = dataset_file::read_text(path, &text);
        assert_eq!((format!("{:?}", again.0), &again.1), (shown.clone(), &findings), "read twice");
    }
    if findings.is_empty() {
        let copy = rewrite::dataset(&text, &LeftOut::default()).expect("TOML");
        assert_eq!(format!("{:?}", dataset_file::read_text(path, &copy).0), shown, "written as\n{copy}");
        let bare = rewrite::dataset(&text, &LeftOut { notes: true, ..LeftOut::default() }).expect("TOML");
        let (_, findings) = dataset_file::read_text(path, &bare);
        assert!(findings.is_empty(), "without notes: {findings:?}\n{bare}");
    }
}
