//! Runs beside another run, without a reader of their output, without room for a file.

use super::killed::{left, prepared, results, start};
use calefact_tests::{TinyDataset, Workspace};
use std::io::Read;
use std::process::{Command, Output, Stdio};

/// Runs a line of the shell, in which `calefact` is the command.
fn shell(w: &Workspace, line: &str) -> Output {
    let line = format!("calefact() {{ '{}' \"$@\"; }}\n{line}", env!("CARGO_BIN_EXE_calefact-under-test"));
    Command::new("bash").current_dir(w.path()).args(["-c", &line]).output().expect("a shell")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

#[test]
fn of_runs_at_once_into_one_folder_each_is_whole_or_refused() {
    let w = Workspace::new();
    let whole = prepared(&w);
    let runs: Vec<_> = (0..4).map(|i| start(&w, ["first.toml", "second.toml"][i % 2])).collect();
    let codes: Vec<_> = runs.into_iter().map(|mut run| run.wait().expect("an end").code()).collect();
    assert!(codes.contains(&Some(0)) && codes.iter().all(|code| matches!(code, Some(0 | 3))), "{codes:?}");
    assert!(whole.contains(&results(&w)), "a mixture");
    assert_eq!(left(&w), 0);
}

/// `check --csv | head` ends as `check --csv` does.
#[test]
fn a_closed_pipe_keeps_the_exit_code() {
    let w = Workspace::new();
    TinyDataset::new().with("logs/b2.csv", "logs/none.csv").write(&w);
    let mut run = Command::new(env!("CARGO_BIN_EXE_calefact-under-test"))
        .current_dir(w.path())
        .args(["check", "pipeline.toml", "--csv"])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the command starts");
    drop(run.stdout.take().map(|mut out| out.read(&mut [0]).map(|_| out)));
    assert_eq!(run.wait().expect("an end").code(), Some(1));
    // Nobody reads from the start.
    let output = shell(&w, "(calefact check pipeline.toml --csv; echo $? >&3) 3>code | true; cat code");
    assert_eq!(String::from_utf8_lossy(&output.stdout), "1\n", "{}", said(&output));
}

#[test]
fn a_limit_of_the_size_of_files_is_told() {
    let w = Workspace::new();
    let whole = prepared(&w);
    let output = shell(&w, "ulimit -f 8; calefact run second.toml --out out");
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(said(&output).contains("The system limits the size of files"), "{}", said(&output));
    assert_eq!(left(&w), 0);
    assert!(results(&w) == whole[0], "the earlier results are not in place");
}

#[test]
fn few_files_open_at_once_are_enough_or_told() {
    let w = Workspace::new();
    let whole = prepared(&w);
    for files in [8, 12, 16, 24] {
        let output = shell(&w, &format!("ulimit -n {files}; calefact run second.toml --out out"));
        assert!(matches!(output.status.code(), Some(0 | 1 | 3)), "{files}: {:?} {}", output.status, said(&output));
        assert!(!said(&output).contains("panicked"), "{files}: {}", said(&output));
    }
    assert!(shell(&w, "calefact run second.toml --out out").status.success());
    assert!(results(&w) == whole[1] && left(&w) == 0);
}

/// Folders that cannot be the output are refused before any log is read: the log that is missing is not told.
#[test]
fn an_output_folder_that_cannot_be_is_told_first() {
    let w = Workspace::new();
    TinyDataset::new().with("logs/b2.csv", "logs/none.csv").write(&w);
    w.write("file", "");
    std::os::unix::fs::symlink("nowhere", w.join("link")).expect("a link");
    for out in ["file", "file/out", "data", "link", ".", "/", "/proc/out", "/dev/shm"] {
        for command in ["run", "plan", "book"] {
            let output = shell(&w, &format!("calefact {command} pipeline.toml --out {out}"));
            assert_eq!(output.status.code(), Some(3), "{command} {out}: {}", said(&output));
            assert!(said(&output).starts_with("error: "), "{command} {out}: {}", said(&output));
        }
    }
    assert_eq!(left(&w), 0);
}

#[test]
fn an_output_folder_that_vanishes_is_told() {
    let w = Workspace::new();
    prepared(&w);
    let vanish = "while ! [ -d .calefact-out/new/charts ]; do :; done; rm -rf out .calefact-out";
    let output = shell(&w, &format!("calefact run second.toml --out out & {vanish}; wait $!"));
    assert!(matches!(output.status.code(), Some(0 | 3)), "{}", said(&output));
    assert!(!said(&output).contains("panicked"), "{}", said(&output));
    assert!(shell(&w, "calefact run second.toml --out out").status.success());
}
