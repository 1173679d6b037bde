//! The four exit codes, each by what causes it.

use super::{calefact, run};
use calefact_tests::{TinyDataset, Workspace, root};

#[test]
fn sound_data_is_zero() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert_eq!(outcome.stdout, "", "data goes to standard output only where asked");
    assert!(outcome.stderr.contains("trials: 4; 0 errors"), "{}", outcome.stderr);
    assert!(outcome.stderr.contains("report: out/report.html"), "{}", outcome.stderr);
}

#[test]
fn an_error_in_the_data_is_one_and_the_rest_is_done() {
    let w = Workspace::new();
    TinyDataset::new().with("logs/b2.csv", "logs/none.csv").write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert!(w.join("out/report.html").exists());
}

#[test]
fn a_wrong_pipeline_file_is_two() {
    let w = Workspace::new();
    TinyDataset::new().with("datasets =", "dataset =").write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("did you mean `datasets`?"), "{}", outcome.stderr);
    assert!(!w.join("out").exists());
}

#[test]
fn a_missing_pipeline_file_and_a_wrong_argument_are_two() {
    let w = Workspace::new();
    assert_eq!(run(&w).code, 2);
    assert_eq!(calefact(w.path(), &["run"]).code, 2, "no pipeline in the folder");
    assert_eq!(calefact(w.path(), &["brew", "tea"]).code, 2);
}

#[test]
fn a_folder_that_cannot_be_written_is_three() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    w.write("out", "a file stands in the way");
    let outcome = run(&w);
    assert_eq!(outcome.code, 3, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("out"), "{}", outcome.stderr);
    assert_eq!(std::fs::read_to_string(w.join("out")).expect("the file"), "a file stands in the way");
}

/// The version of the package, and the commit where it is known.
#[test]
fn the_version_names_the_commit() {
    let outcome = calefact(Workspace::new().path(), &["--version"]);
    let said = outcome.stdout.trim_end();
    let rest = said.strip_prefix(concat!("calefact ", env!("CARGO_PKG_VERSION"))).unwrap_or_else(|| panic!("{said}"));
    let commit = rest.strip_prefix(" (").and_then(|r| r.strip_suffix(')'));
    let git = std::process::Command::new("git").current_dir(root()).args(["rev-parse", "--short", "HEAD"]).output();
    let known = git.ok().filter(|o| o.status.success()).and_then(|o| String::from_utf8(o.stdout).ok());
    assert_eq!(commit, known.as_deref().map(str::trim_end), "{said}");
}

#[test]
fn help_is_zero_and_names_the_codes() {
    for args in [&["--help"][..], &["run", "--help"], &["check", "--help"], &["simulate", "--help"]] {
        let outcome = calefact(Workspace::new().path(), args);
        assert_eq!(outcome.code, 0);
        for line in ["0  done", "1  the data has errors", "2  the arguments", "3  the results could not"] {
            assert!(outcome.stdout.contains(line), "{args:?} lacks {line}: {}", outcome.stdout);
        }
    }
}

#[test]
fn quiet_says_nothing_when_all_is_well() {
    let w = Workspace::new();
    TinyDataset::new().write(&w);
    let outcome = calefact(w.path(), &["run", "pipeline.toml", "--quiet"]);
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""));
    assert!(w.join("reports/four-burns/report.html").exists(), "the default folder");
}

/// A column or level that no register has is a slip of the pipeline file: nothing is run.
#[test]
fn a_name_that_no_register_has_is_two() {
    let slips = [
        ("factor = \"stove\"", "factor = \"stvoe\"", "`factor` of a comparison names `stvoe`", "did you mean `stove`?"),
        ("factor = \"stove\"", "factor = \"stove\"\nblock = \"dates\"", "`block` of", "did you mean `date`?"),
        ("factor = \"stove\"", "factor = \"stove\"\nadjust = [\"feul\"]", "`adjust` of", "did you mean `fuel`?"),
        (
            "factor = \"stove\"",
            "factor = \"stove\"\nonly = { fuel = \"spruc\" }",
            "asks for fuel `spruc`, which no trial has",
            "did you mean `spruce`?",
        ),
    ];
    for (from, to, said, hint) in slips {
        let w = Workspace::new();
        TinyDataset::new().with(from, to).write(&w);
        let outcome = run(&w);
        assert_eq!(outcome.code, 2, "{to}: {}", outcome.stderr);
        assert!(outcome.stderr.contains(said) && outcome.stderr.contains(hint), "{to}: {}", outcome.stderr);
        assert!(!w.join("out").exists());
    }
}

/// A name may stand in a row that was left out for an error, and an entry may have no trial yet: then nothing is refused.
#[test]
fn a_name_that_an_error_hides_is_not_refused() {
    let only = "factor = \"stove\"\nonly = { stove = \"rocket\" }";
    let hidden = TinyDataset::new().with("factor = \"stove\"", only);
    let hidden = hidden.with("r1,burn,logs/r1.csv,rocket,spruce,drum,120", "r1,burn,logs/r1.csv,rocket,spruce,drum,");
    let hidden = hidden.with("r2,burn,logs/r2.csv,rocket,spruce,drum,120", "r2,burn,logs/r2.csv,rocket,spruce,drum,");
    let w = Workspace::new();
    hidden.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("`water` is blank"), "{}", outcome.stderr);

    let described = TinyDataset::new().with("[fuels.spruce]", "[stoves.batch]\nname = \"Batch stove\"\n[fuels.spruce]");
    let w = Workspace::new();
    described.with("factor = \"stove\"", "factor = \"stove\"\nonly = { stove = \"batch\" }").write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("empty-comparison"), "{}", outcome.stderr);
}

/// Where no dataset can be read there is nothing to report, and an earlier report stays.
#[test]
fn without_any_dataset_the_earlier_report_stays() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.write(&w);
    assert_eq!(run(&w).code, 0);
    let before = w.files("out");
    data = data.with("[\"data\"]", "[\"dat\"]");
    data.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 1);
    assert!(outcome.stderr.contains("no report was written: no dataset could be read"), "{}", outcome.stderr);
    assert_eq!(before, w.files("out"));
}
