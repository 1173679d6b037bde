//! The written folder: same bytes twice, Parquet equal to CSV, old reports replaced, foreign folders left alone.
#![expect(clippy::unwrap_used, reason = "the helpers of a test stop at the first surprise")]

use calefact_data::{Apparatus, InputFile};
use calefact_report::{Formats, ReportError, Results, Stage, Summary, ToolInfo};
use std::fs;
use std::path::{Path, PathBuf};

#[path = "support/fixture.rs"]
mod fixture;
#[cfg(feature = "parquet")]
#[path = "support/parquet.rs"]
mod parquet;

fn tool() -> ToolInfo {
    ToolInfo { name: "calefact".into(), version: "0.0.0".into(), command: "calefact run p.toml".into() }
}

fn write(out: &Path, inputs: &[PathBuf], base: &Path) -> Summary {
    write_as(Formats { readings: true, ..Formats::default() }, out, inputs, base)
}

fn write_as(formats: Formats, out: &Path, inputs: &[PathBuf], base: &Path) -> Summary {
    let analysis = fixture::analysis();
    let stage = Stage::begin(out, formats).unwrap();
    let mut writer = stage.readings_writer().unwrap();
    let mut tables = stage.trial_tables(base, &Apparatus::default()).unwrap();
    // In two pieces, as trials come.
    for some in analysis.shown.chunks(6) {
        tables.add(some).unwrap();
    }
    for trial in &analysis.shown {
        writer.push(&trial.row, &fixture::readings()).unwrap();
    }
    let readings = writer.finish().unwrap();
    let inputs: Vec<InputFile> =
        inputs.iter().map(|path| InputFile::new(path, &std::fs::read(path).unwrap())).collect();
    stage.finish(Results { analysis: &analysis, next: &[] }, (readings, tables), &inputs, base, &tool()).unwrap()
}

#[test]
fn two_writes_give_the_same_bytes() {
    let dir = tempfile::tempdir().unwrap();
    let input = dir.path().join("data").join("trials.csv");
    fs::create_dir(input.parent().unwrap()).unwrap();
    fs::write(&input, "trial\n").unwrap();
    let a = write(&dir.path().join("a"), std::slice::from_ref(&input), dir.path());
    let b = write(&dir.path().join("b"), &[input], dir.path());
    assert_eq!(a.files, b.files);
    assert!(a.files.len() > 20, "tables, charts, page and manifest: {:?}", a.files);
    for file in &a.files {
        assert_eq!(
            fs::read(a.folder.join(file)).unwrap(),
            fs::read(b.folder.join(file)).unwrap(),
            "{}",
            file.display()
        );
    }
    let manifest = fs::read_to_string(a.folder.join("manifest.json")).unwrap();
    assert!(manifest.contains("\"data/trials.csv\""), "{manifest}");
    assert!(!manifest.contains(&dir.path().display().to_string()), "no absolute path");
}

#[test]
fn an_earlier_report_is_replaced_and_a_foreign_folder_is_not() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("r");
    write(&out, &[], dir.path());
    fs::create_dir(out.join("mine")).unwrap();
    fs::write(out.join("mine/notes.txt"), "my own").unwrap();
    let again = write_as(Formats::default(), &out, &[], dir.path());
    assert!(!out.join("tables/readings.csv").exists(), "a file of the earlier report is gone");
    assert_eq!(fs::read_to_string(out.join("mine/notes.txt")).unwrap(), "my own", "a file of the reader's stays");
    assert!(!again.files.iter().any(|f| f.ends_with("notes.txt")));
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 1, "no temporary folder is left");

    let foreign = dir.path().join("letters");
    fs::create_dir(&foreign).unwrap();
    fs::write(foreign.join("a.txt"), "dear").unwrap();
    let refused = Stage::begin(&foreign, Formats::default());
    assert!(matches!(refused, Err(ReportError::NotAReport { .. })));
    assert_eq!(fs::read_to_string(foreign.join("a.txt")).unwrap(), "dear");
}

#[test]
fn the_readings_table_quotes_words_and_leaves_missing_cells_blank() {
    let dir = tempfile::tempdir().unwrap();
    let summary = write(&dir.path().join("r"), &[], dir.path());
    let csv = fs::read_to_string(summary.folder.join("tables/readings.csv")).unwrap();
    insta::assert_snapshot!(csv.lines().take(6).collect::<Vec<_>>().join("\n"));
}
