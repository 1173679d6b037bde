//! Same inputs, same bytes out, whatever the number of threads.

use super::calefact;
use calefact_tests::{TinyDataset, Workspace, root};

#[test]
fn four_burns_twice() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    for out in ["first", "second"] {
        assert_eq!(calefact(w.path(), &["run", "pipeline.toml", "--out", out]).code, 0);
    }
    same(&w, "first", "second");
}

#[test]
fn the_demo_with_one_and_three_jobs() {
    let w = Workspace::new();
    let pipeline = root().join("pipelines/hill-nursery.toml");
    let pipeline = pipeline.to_str().expect("UTF-8");
    for (out, jobs) in [("one", "1"), ("three", "3")] {
        let outcome = calefact(w.path(), &["run", pipeline, "--out", out, "--jobs", jobs]);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    }
    same(&w, "one", "three");
}

fn same(w: &Workspace, a: &str, b: &str) {
    let (first, second) = (w.files(a), w.files(b));
    assert!(first.len() > 15, "only {} files were written", first.len());
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
    for (name, bytes) in &first {
        assert!(second[name] == *bytes, "{name} differs between {a} and {b}");
    }
}
