//! Sealing and verifying: what is packed, what is found, and that a bundle is the same wherever it is made.

use super::{Outcome, calefact};
use calefact_tests::{TinyDataset, Workspace};
use std::fs;
use std::path::Path;

const PUBLISH: &str = "\n[publish]\nauthors = [{ given_names = \"Ida\", family_names = \"Example\", orcid = \"0000-0002-1825-0097\", affiliation = \"Hill\" }, \
    { name = \"Hill nursery\" }]\nlicence = \"CC-BY-4.0\"\ndate = \"2026-05-04\"\nversion = \"1.0.0\"\nkeywords = [\"stoves\", \"water\"]\n\
    url = \"https://example.org/four\"\n";

/// Four burns that name people: operators, notes, comments, a mail address.
fn personal() -> TinyDataset {
    let mut data = TinyDataset::new();
    let cells = ["operator,note", "Ida,\"late, and wet\"", "Jo,", "Ida,", "Jo,by Ida"];
    let rows = data.register.lines().zip(cells).map(|(row, more)| format!("{row},{more}\n"));
    data.register = rows.collect();
    data.apparatus.insert_str(0, "# Ida's rig\n");
    data.with("name = \"Box stove\"", "name = \"Box stove\"\nnote = \"ask Jo\"").with_log(
        "logs/r2.csv",
        "elapsed [min],tank [degC],note\n0,12,Jo lit it\n12,22,\n24,32,\n36,41.5,\n48,50.5,out\n",
    )
}

pub(super) fn published(mut data: TinyDataset) -> TinyDataset {
    data.pipeline += PUBLISH;
    data
}

pub(super) fn sealed(w: &Workspace, out: &str, options: &[&str]) -> Outcome {
    calefact(w.path(), &[&["seal", "pipeline.toml", "--out", out], options].concat())
}

fn verified(w: &Workspace, bundle: &str) -> Outcome {
    calefact(w.path(), &["verify", bundle])
}

/// Writes the list of checksums of a folder anew, as somebody would who wants to deceive.
fn reseal(root: &Path) {
    let files = calefact_bundle::list(root).expect("names");
    calefact_bundle::checksums::write(root, &files).expect("a list");
}

#[test]
fn a_bundle_is_checked_and_rerun() {
    let w = Workspace::new();
    published(personal()).write(&w);
    for bundle in ["four.zip", "four"] {
        let outcome = sealed(&w, bundle, &[]);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        assert!(outcome.stderr.contains("operators: `Ida` and `Jo` (packed;"), "{}", outcome.stderr);
        assert!(outcome.stderr.contains("notes: 2 in registers, 2 in logs, 1 in dataset.toml"), "{}", outcome.stderr);
        let outcome = verified(&w, bundle);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        assert!(outcome.stderr.contains("are the same to the byte"), "{}", outcome.stderr);
    }
    let files = w.files("four");
    for name in
        ["LICENSE.txt", "CITATION.cff", "datapackage.json", "ro-crate-metadata.json", "README.md", "pipeline.toml"]
    {
        assert!(files.contains_key(name), "{name} is missing");
    }
    for name in ["datasets/data/logs/b1.csv", "datasets/data/trials.csv", "datasets/data/dataset.toml"] {
        assert_eq!(files[name], fs::read(w.join(&name.replacen("datasets/", "", 1))).expect("a file"), "{name}");
    }
    let left: Vec<_> = fs::read_dir(w.path()).expect("a folder").flatten().map(|e| e.file_name()).collect();
    assert_eq!(left.len(), 4, "something is left: {left:?}");
}

/// Citation File Format 1.2.0: authors and keywords are unique, texts have at least one character.
#[test]
fn what_is_written_twice_or_blank_stands_once_or_not_in_the_citation() {
    let w = Workspace::new();
    published(TinyDataset::new())
        .with("{ name = \"Hill nursery\" }", "{ name = \"Hill nursery\" }, { name = \" Hill nursery\\u007f\" }")
        .with("[\"stoves\", \"water\"]", "[\"stoves\", \"water\", \"stoves\", \"\"]\ndescription = \" \"\ntitle = \"\"")
        .with("version = \"1.0.0\"", "version = \"\"")
        .write(&w);
    assert_eq!(sealed(&w, "four", &[]).code, 0);
    let citation = fs::read_to_string(w.join("four/CITATION.cff")).expect("a citation");
    let count = |text: &str| citation.matches(text).count();
    assert_eq!(
        [count("\"stoves\""), count("Hill nursery"), count("\"\""), count("\nversion")],
        [1, 1, 0, 0],
        "{citation}"
    );
    assert!(citation.contains("title: \"four-burns\""), "{citation}");
}

#[test]
fn every_table_is_described() {
    let w = Workspace::new();
    published(TinyDataset::new()).write(&w);
    assert_eq!(sealed(&w, "four", &[]).code, 0);
    let files = w.files("four");
    let package: serde_json::Value = serde_json::from_slice(&files["datapackage.json"]).expect("JSON");
    let resources = package["resources"].as_array().expect("a list");
    let paths: Vec<&str> = resources.iter().filter_map(|r| r["path"].as_str()).collect();
    for name in files.keys().filter(|name| name.starts_with("results/tables/")) {
        assert!(paths.contains(&name.as_str()), "{name} is not described");
    }
    for resource in resources {
        let table = &files[resource["path"].as_str().expect("a path")];
        let header = String::from_utf8_lossy(table).lines().next().unwrap_or_default().to_owned();
        let fields = resource["schema"]["fields"].as_array().expect("fields");
        let names: Vec<&str> = fields.iter().filter_map(|f| f["name"].as_str()).collect();
        assert_eq!(names.join(","), header);
        assert!(fields.iter().all(|f| !f["description"].as_str().unwrap_or_default().is_empty()), "{resource}");
    }
}

#[test]
fn every_change_is_found_and_named() {
    let w = Workspace::new();
    published(TinyDataset::new()).write(&w);
    assert_eq!(sealed(&w, "four", &[]).code, 0);
    for name in ["datasets/data/logs/b1.csv", "results/report.html", "LICENSE.txt", "manifest-sha256.txt"] {
        let path = w.join("four").join(name);
        let sound = fs::read(&path).expect("a file");
        let mut changed = sound.clone();
        changed[40] ^= 1;
        fs::write(&path, &changed).expect("a file");
        let outcome = verified(&w, "four");
        assert_eq!(outcome.code, 4, "{name}: {}", outcome.stderr);
        assert!(outcome.stderr.contains(name) || name == "manifest-sha256.txt", "{}", outcome.stderr);
        fs::write(&path, &sound).expect("a file");
    }
    w.write("four/results/extra.csv", "x");
    fs::rename(w.join("four/CITATION.cff"), w.join("four/citation.cff")).expect("a new name");
    let outcome = verified(&w, "four");
    let said = |text: &str| assert!(outcome.stderr.contains(text), "{text}: {}", outcome.stderr);
    assert_eq!(outcome.code, 4);
    said("`CITATION.cff` is missing");
    said("`citation.cff` was not sealed");
    said("`results/extra.csv` was not sealed");
}

#[test]
fn results_that_do_not_follow_from_the_inputs_are_found() {
    let w = Workspace::new();
    published(TinyDataset::new()).write(&w);
    assert_eq!(sealed(&w, "four", &[]).code, 0);
    let root = w.join("four");
    let table = root.join("results/tables/groups.csv");
    let sound = fs::read_to_string(&table).expect("a table");
    let header: Vec<&str> = sound.lines().next().expect("a header").split(',').collect();
    let value = header.iter().position(|name| *name == "value").expect("a column");
    let first = sound.lines().nth(1).expect("a row");
    let number: f64 = first.split(',').nth(value).and_then(|cell| cell.parse().ok()).expect("a number");
    let with = |factor: f64| {
        let mut cells: Vec<String> = first.split(',').map(str::to_owned).collect();
        cells[value] = (number * factor).to_string();
        fs::write(&table, sound.replacen(first, &cells.join(","), 1)).expect("a table");
        reseal(&root);
        verified(&w, "four")
    };
    let outcome = with(1.0 + 1e-9);
    assert_eq!(outcome.code, 1, "the same version must give the same bytes: {}", outcome.stderr);
    assert!(outcome.stderr.contains("`tables/groups.csv` has numbers"), "{}", outcome.stderr);
    let manifest = root.join("results/manifest.json");
    let text = fs::read_to_string(&manifest).expect("a manifest");
    let version = format!("\"version\": \"{}\"", env!("CARGO_PKG_VERSION"));
    assert!(text.contains(&version));
    fs::write(&manifest, text.replace(&version, "\"version\": \"0.0.1\"")).expect("a manifest");
    let outcome = with(1.0 + 1e-9);
    assert_eq!(outcome.code, 0, "another version may differ a little: {}", outcome.stderr);
    assert!(outcome.stderr.contains("sealed by version 0.0.1"), "{}", outcome.stderr);
    let outcome = with(1.01);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("row 1, column `value`"), "{}", outcome.stderr);
}

#[test]
fn what_is_left_out_is_nowhere() {
    let w = Workspace::new();
    let mut data = published(personal());
    data.pipeline = data.pipeline.replace("[[comparison]]", "# as Jo said\n[[comparison]]\nblock = \"operator\"");
    data.pipeline = data
        .pipeline
        .replace("{ given_names = \"Ida\", family_names = \"Example\", ", "{ family_names = \"Example\", ");
    data.write(&w);
    let outcome = sealed(&w, "four", &["--without", "notes,operators"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("(replaced)") && !outcome.stderr.contains("warning: "), "{}", outcome.stderr);
    for (name, bytes) in w.files("four") {
        for word in ["Ida", "Jo", "late, and wet"] {
            assert!(!calefact_data::personal::mentions(&bytes, word), "{name} holds {word}");
        }
    }
    assert_eq!(verified(&w, "four").code, 0);
    let register = fs::read_to_string(w.join("four/datasets/data/trials.csv")).expect("a register");
    assert!(register.contains(",operator-1,") && register.contains(",operator-2,"), "{register}");
}

#[test]
fn a_name_that_stands_elsewhere_is_told() {
    let w = Workspace::new();
    published(personal()).with("title = \"Four burns\"", "title = \"Jo's burns\"").write(&w);
    let outcome = sealed(&w, "four", &["--without", "operators"]);
    assert_eq!(outcome.code, 0);
    assert!(
        outcome.stderr.contains("warning: the name `Jo` still stands in `datasets/data/dataset.toml`"),
        "{}",
        outcome.stderr
    );
}

#[test]
fn nothing_outside_the_datasets_is_packed() {
    let w = Workspace::new();
    w.write("secret.csv", "elapsed [min],tank [degC]\n0,11\n12,18\n24,26\n36,34\n48,41\n");
    let data = published(TinyDataset::new()).with("logs/b1.csv", "../secret.csv");
    let data = data.with("name = \"four-burns\"", "name = \"four-burns\"\nread_outside = true");
    data.write(&w);
    let outcome = sealed(&w, "four.zip", &[]);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert!(outcome.stderr.contains("lies outside the folders of the datasets"), "{}", outcome.stderr);
    assert!(!w.join("four.zip").exists());
}

#[test]
fn a_bundle_cannot_read_outside_itself() {
    let w = Workspace::new();
    published(TinyDataset::new()).write(&w);
    assert_eq!(sealed(&w, "four", &[]).code, 0);
    let pipeline = w.join("four/pipeline.toml");
    let sound = fs::read_to_string(&pipeline).expect("a pipeline");
    let absolute = w.join("data").display().to_string();
    for other in ["datasets/../../data", "../data", absolute.as_str()] {
        fs::write(&pipeline, sound.replace("datasets/data", other)).expect("a pipeline");
        reseal(&w.join("four"));
        let outcome = verified(&w, "four");
        assert_eq!(outcome.code, 4, "{other}: {}", outcome.stderr);
        assert!(outcome.stderr.contains("bundle-pipeline"), "{}", outcome.stderr);
    }
}

#[test]
fn what_is_missing_is_said_with_lines_to_paste() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.write(&w);
    let outcome = sealed(&w, "four", &[]);
    assert_eq!(outcome.code, 2);
    let example = outcome.stderr.split("\n\n").nth(1).expect("lines to paste").to_owned();
    data.pipeline = format!("{}\n{example}", data.pipeline);
    data.write(&w);
    assert_eq!(sealed(&w, "four", &[]).code, 0);
    let outcome = sealed(&w, "four", &[]);
    assert_eq!(outcome.code, 3, "a bundle is never replaced");
    assert!(outcome.stderr.contains("never replaced"), "{}", outcome.stderr);
    assert_eq!(verified(&w, "data").code, 2);
    assert_eq!(verified(&w, "nowhere.zip").code, 2);
    data.pipeline = data.pipeline.replace("licence = \"CC-BY-4.0\"\n", "");
    data.write(&w);
    assert_eq!(sealed(&w, "other", &[]).code, 2);
    assert_eq!(sealed(&w, "other", &["--licence", "CC0-1.0"]).code, 0);
    assert!(w.files("other")["LICENSE.txt"].starts_with(b"Creative Commons"));
}

/// Bundles made in other folders, from other places, with other settings of the system and numbers of threads.
#[test]
fn a_bundle_is_the_same_wherever_it_is_made() {
    let made = |folder: &str, jobs: &str, environment: &[(&str, &str)]| {
        let w = Workspace::new();
        published(personal()).write(&w);
        let from = w.join(folder);
        fs::rename(w.join("data"), w.join("data-away")).expect("a folder");
        fs::create_dir_all(&from).expect("a folder");
        for name in ["data-away", "pipeline.toml"] {
            fs::rename(w.join(name), from.join(name.replace("-away", ""))).expect("a file");
        }
        let pipeline = from.join("pipeline.toml");
        let mut command = super::command(w.path());
        command.args(["seal", pipeline.to_str().expect("UTF-8"), "--out", "out.zip", "--jobs", jobs]);
        let status = command.envs(environment.iter().copied()).output().expect("it runs").status;
        assert_eq!(status.code(), Some(0));
        fs::read(w.join("out.zip")).expect("an archive")
    };
    let first = made("a", "1", &[("TZ", "UTC"), ("LANG", "C")]);
    assert!(first == made("b c/Ö", "2", &[("TZ", "Asia/Kathmandu"), ("LANG", "de_DE.UTF-8")]));
    assert!(first == made("z/y", "8", &[("TZ", "America/St_Johns"), ("LC_ALL", "tr_TR.UTF-8")]));
}
