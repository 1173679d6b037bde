//! Runs that are killed at any moment over earlier results.

use calefact_tests::{TinyDataset, Workspace};
use std::collections::BTreeMap;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

type Files = BTreeMap<String, Vec<u8>>;

/// Two pipelines of one dataset, which write into one folder.
const PIPELINES: [&str; 2] = ["first.toml", "second.toml"];

/// The two pipelines, each run once, with what it writes; the first one's results are in place, with a note of the reader.
pub(crate) fn prepared(w: &Workspace) -> [Files; 2] {
    let data = TinyDataset::new();
    data.write(w);
    w.write(PIPELINES[1], &data.pipeline);
    w.write(PIPELINES[0], format!("title = \"The first\"\n{}", data.pipeline));
    let written = [PIPELINES[1], PIPELINES[0]].map(|pipeline| {
        assert!(start(w, pipeline).wait().expect("a run").success());
        w.files("out")
    });
    w.write("out/note.txt", "mine");
    let [second, first] = written;
    assert_ne!(first, second);
    [first, second]
}

pub(crate) fn start(w: &Workspace, pipeline: &str) -> Child {
    let mut command = Command::new(env!("CARGO_BIN_EXE_calefact-under-test"));
    command.current_dir(w.path()).args(["run", pipeline, "--out", "out", "--quiet"]);
    command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("the command starts")
}

/// Working folders beside the results.
pub(crate) fn left(w: &Workspace) -> usize {
    let names = std::fs::read_dir(w.path()).expect("a folder").flatten();
    names.filter(|entry| entry.file_name().to_string_lossy().starts_with('.')).count()
}

/// The results without the reader's note.
pub(crate) fn results(w: &Workspace) -> Files {
    let mut files = w.files("out");
    files.remove("note.txt");
    files
}

#[test]
fn results_are_whole_wherever_a_run_is_killed() {
    let w = Workspace::new();
    let whole = prepared(&w);
    let begun = Instant::now();
    assert!(start(&w, PIPELINES[0]).wait().expect("a run").success());
    let duration = begun.elapsed();
    for kill in 0..30_u32 {
        let mut run = start(&w, PIPELINES[kill as usize % 2]);
        // Moments spread evenly over the run, in no order.
        sleep(duration * (kill * 7 % 30) / 28);
        run.kill().expect("killed");
        run.wait().expect("an end");
        assert!(whole.contains(&results(&w)), "a mixture after kill {kill}");
    }
    assert!(start(&w, PIPELINES[1]).wait().expect("a run").success());
    assert_eq!(left(&w), 0, "working folders are left");
    assert!(results(&w) == whole[1], "the last results are not the second pipeline's");
    assert_eq!(w.files("out").get("note.txt").map(Vec::as_slice), Some(&b"mine"[..]));
}

/// Runs until a working folder is there, then sends a signal.
fn interrupted(w: &Workspace, signal: &str) -> std::process::ExitStatus {
    let mut run = start(w, PIPELINES[1]);
    let limit = Instant::now() + Duration::from_secs(20);
    while left(w) == 0 && Instant::now() < limit {
        sleep(Duration::from_millis(1));
    }
    let sent = Command::new("kill").args(["-s", signal, &run.id().to_string()]).status();
    assert!(sent.is_ok_and(|status| status.success()), "a signal");
    run.wait().expect("an end")
}

#[test]
fn an_interrupted_run_leaves_nothing() {
    use std::os::unix::process::ExitStatusExt;
    let w = Workspace::new();
    let whole = prepared(&w);
    for (signal, number) in [("INT", 2), ("TERM", 15), ("HUP", 1)] {
        let status = interrupted(&w, signal);
        assert!(status.signal() == Some(number) || status.success(), "{signal}: {status:?}");
        assert_eq!(left(&w), 0, "{signal} leaves a working folder");
        assert!(whole.contains(&results(&w)), "a mixture after {signal}");
    }
}
