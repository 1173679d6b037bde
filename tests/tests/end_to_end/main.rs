//! The command from end to end, each check in a folder of its own.

mod absurd;
mod bad_input;
mod begin;
mod begin_workbook;
mod book;
mod bundle;
mod bundle_dataset;
mod check;
mod datasets_together;
mod demo;
mod electric_pot;
mod exit_codes;
mod faulty_logger;
mod golden;
mod manual;
mod many;
mod notebook;
mod one_burn;
mod plan;
mod predict;
mod readme;
mod repeatable;
mod schema;
mod tables;
mod units;
mod which_pipeline;
mod workbook;
mod written_units;

use calefact_tests::Workspace;
use std::path::Path;
use std::process::Command;

/// Result of a run of the command.
struct Outcome {
    code: i32,
    stdout: String,
    stderr: String,
}

/// The command in a folder.
fn command(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_calefact-under-test"));
    command.current_dir(folder);
    command
}

/// Runs the command in a folder.
fn calefact(folder: &Path, args: &[&str]) -> Outcome {
    let output = command(folder).args(args).output().expect("the command starts");
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).expect("UTF-8");
    Outcome { code: output.status.code().expect("a code"), stdout: text(&output.stdout), stderr: text(&output.stderr) }
}

/// Runs a pipeline written into the folder.
fn run(workspace: &Workspace) -> Outcome {
    calefact(workspace.path(), &["run", "pipeline.toml", "--out", "out"])
}

/// Rows of a CSV table by column name.
fn table(path: &Path) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    reader.deserialize().map(|row| row.expect("a row")).collect()
}
