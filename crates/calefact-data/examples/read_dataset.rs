//! Reads every log of a dataset folder and says how long it took: `cargo run --release -p calefact-data --example
//! read_dataset -- FOLDER [THREADS [FILES_ROOT]]`.
#![expect(clippy::print_stdout, reason = "an example that reports to its user")]

use calefact_data::Dataset;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};
use std::time::Instant;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let folder = arguments.first().map_or("datasets/demo", String::as_str);
    let threads = arguments.get(1).and_then(|n| n.parse().ok()).unwrap_or(2);
    let begun = Instant::now();
    let (dataset, findings) = Dataset::open_with(Path::new(folder), arguments.get(2).map(Path::new));
    for finding in &findings {
        println!("{finding:?}");
    }
    let Some(dataset) = dataset else { return };
    let opened = begun.elapsed();
    let batches = dataset.batches();
    let (next, readings, found) = (AtomicUsize::new(0), AtomicUsize::new(0), AtomicUsize::new(0));
    let work = || {
        while let Some(batch) = batches.get(next.fetch_add(1, Relaxed)) {
            for trial in dataset.read(batch) {
                readings.fetch_add(trial.readings.map_or(0, |r| r.len()), Relaxed);
                found.fetch_add(trial.findings.len(), Relaxed);
            }
        }
    };
    std::thread::scope(|scope| (0..threads).for_each(|_| drop(scope.spawn(work))));
    let logs = batches.len();
    println!(
        "{logs} logs, {readings:?} readings, {found:?} findings: opened in {opened:?}, all in {:?}",
        begun.elapsed()
    );
}
