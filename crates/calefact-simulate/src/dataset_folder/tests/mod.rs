//! The written folder: same seed same bytes, and the reader finds in it what was simulated.

use super::{SimulateOptions, write};
use crate::nursery;
use crate::rig::Rig;
use calefact_data::{Apparatus, Channel, Dataset, Severity, Water};
use std::collections::BTreeMap;
use std::fs;
use std::num::NonZeroUsize;
use std::path::Path;

fn options(out: &Path, seed: u64, trials: Option<usize>) -> SimulateOptions {
    SimulateOptions { out: out.to_path_buf(), trials: trials.and_then(NonZeroUsize::new), rows: None, seed }
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let list = |f: &Path| fs::read_dir(f).expect("a folder").map(|e| e.expect("an entry").path()).collect::<Vec<_>>();
    let mut paths = list(folder);
    paths.extend(list(&folder.join("logs")));
    let named = |p: &std::path::PathBuf| p.file_name().expect("a name").to_string_lossy().into_owned();
    paths.iter().filter(|p| p.is_file()).map(|p| (named(p), fs::read(p).expect("a file"))).collect()
}

#[test]
fn a_seed_gives_the_same_bytes_and_another_gives_others() {
    let temp = tempfile::tempdir().expect("a folder");
    let written = |name: &str, seed| {
        let out = temp.path().join(name);
        write(&options(&out, seed, None)).expect("a dataset");
        files(&out)
    };
    let (first, again, other) = (written("a", 1), written("b", 1), written("c", 2));
    assert_eq!(first, again);
    assert_ne!(first["b01.csv"], other["b01.csv"]);
    assert_eq!(first["dataset.toml"], other["dataset.toml"]);
    let size: usize = first.values().map(Vec::len).sum();
    assert!(size < 1_500_000, "{size} bytes");
}

/// The demo in the repository is what its seed, 2, gives, to the byte.
#[test]
fn the_committed_demo_is_what_is_written() {
    let temp = tempfile::tempdir().expect("a folder");
    let out = temp.path().join("demo");
    write(&options(&out, 2, None)).expect("a dataset");
    let committed = files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../datasets/hill-nursery"));
    let written = files(&out);
    assert_eq!(written.keys().collect::<Vec<_>>(), committed.keys().collect::<Vec<_>>());
    for (name, bytes) in &written {
        assert!(*bytes == committed[name], "{name} differs");
    }
}

#[test]
fn a_folder_that_holds_something_is_left_alone() {
    let temp = tempfile::tempdir().expect("a folder");
    fs::write(temp.path().join("mine"), "mine").expect("a file");
    let error = write(&options(temp.path(), 1, None)).expect_err("refused");
    assert!(error.to_string().ends_with("is not empty; name a new folder"), "{error}");
    assert_eq!(fs::read_dir(temp.path()).expect("a folder").count(), 1);
}

/// Half of the last digit written, in SI, for the coarsest style a channel is written in.
fn step(channel: Channel) -> f64 {
    match channel {
        Channel::FlueBefore | Channel::FlueAfter | Channel::Power => 0.51,
        Channel::Flow => 1e-4,
        Channel::FlueO2 => 6e-4,
        Channel::FuelAdded => 0.006,
        _ => 0.051,
    }
}

/// Millimetres in the file leave a last digit of the metre open.
fn to_the_micrometre(mut apparatus: Apparatus) -> Apparatus {
    let lengths = apparatus.exchangers.values_mut().flat_map(|x| x.build.values_mut());
    lengths.for_each(|v| *v = (*v * 1e6).round());
    apparatus
}

#[test]
fn the_reader_finds_what_was_simulated() {
    let temp = tempfile::tempdir().expect("a folder");
    let out = temp.path().join("demo");
    write(&options(&out, 5, None)).expect("a dataset");
    let (dataset, findings) = Dataset::open(&out);
    let bad = findings.iter().find(|f| f.severity != Severity::Note);
    assert!(bad.is_none(), "{bad:?}");
    let dataset = dataset.expect("a dataset");
    let scenario = nursery::scenario();
    assert_eq!(to_the_micrometre(dataset.apparatus.clone()), to_the_micrometre(scenario.apparatus()));
    let (rig, plans) = (Rig::draw(&scenario, 5), nursery::design());
    let mut seen = 0;
    for read in dataset.batches().iter().flat_map(|b| dataset.read(b)) {
        let bad = read.findings.iter().find(|f| f.severity != Severity::Note);
        assert!(bad.is_none(), "{bad:?}");
        let row = &dataset.rows[read.row];
        let plan = plans.iter().find(|p| p.trial == row.trial).expect("a plan");
        let trial = rig.trial(plan).expect("a trial");
        let got = read.readings.expect("readings");
        assert_eq!(got.len(), trial.readings.len(), "{}", plan.trial);
        let same_time = |(a, b): (&f64, &f64)| (a - b).abs() < 1e-6;
        assert!(got.elapsed_s.iter().zip(&trial.readings.elapsed_s).all(same_time), "{}", plan.trial);
        for (&channel, want) in &trial.readings.channels {
            let near = |(a, b): (&f64, &f64)| (a.is_nan() && b.is_nan()) || (a - b).abs() < step(channel);
            let values = got.channel(channel).expect("a column");
            assert!(values.iter().zip(want).all(near), "{} {}", plan.trial, channel.name());
        }
        let (Water::Volume(a), Water::Volume(b)) = (row.water, trial.row.water) else { panic!("a volume") };
        assert!((a - b).abs() < 2e-4, "{}: {a} against {b}", plan.trial);
        let near = |a: Option<f64>, b: Option<f64>, step| {
            a.is_some() == b.is_some() && a.zip(b).is_none_or(|(a, b)| (a - b).abs() < step)
        };
        assert!(near(row.fuel_mass, trial.row.fuel_mass, 0.0051), "{}", plan.trial);
        assert!(near(row.fuel_moisture, trial.row.fuel_moisture, 5e-4), "{}", plan.trial);
        let levels: BTreeMap<String, String> = row.extra.clone().into_iter().filter(|(_, v)| !v.is_empty()).collect();
        assert_eq!(levels, plan.extra);
        seen += 1;
    }
    assert_eq!(seen, plans.len());
}

#[test]
fn any_number_of_trials() {
    let temp = tempfile::tempdir().expect("a folder");
    let out = temp.path().join("many");
    let summary =
        write(&SimulateOptions { rows: NonZeroUsize::new(20), ..options(&out, 1, Some(50)) }).expect("a dataset");
    assert_eq!((summary.trials, summary.readings), (56, 50 * 20 + 145 + 121 + 169 + 181 + 151 + 166));
    let log = fs::read_to_string(out.join("logs/b50.csv")).expect("a log");
    assert!(log.starts_with("elapsed [s],tank [degC]"), "{log}");
}
