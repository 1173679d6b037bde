//! Times the readings table: 4,000 made-up trials of 600 rows and 8 channels, CSV and Parquet together, with the small
//! report around it.
//!
//! `cargo run --release -p calefact-report --example readings_speed -- DIR [csv|parquet]`

use calefact_data::{Channel, Readings, RegisterRow};
use calefact_report::{Formats, Stage, ToolInfo};
use std::path::Path;
use std::time::Instant;

#[path = "../tests/support/fixture.rs"]
mod fixture;

/// Values as a logger gives them: two decimals.
fn readings(trial: usize) -> Readings {
    let wave = |i: usize, c: usize| (((i * 37 + c * 101 + trial * 13) % 9973) as f64 / 10.0).round() / 10.0;
    Readings {
        elapsed_s: (0..600).map(|i| f64::from(i) * 5.0).collect(),
        channels: Channel::ALL
            .iter()
            .take(7)
            .enumerate()
            .map(|(c, &k)| (k, (0..600).map(|i| wave(i, c)).collect()))
            .collect(),
        flags: vec![0; 600],
        events: vec![],
        ..fixture::readings()
    }
}

#[expect(clippy::print_stdout, reason = "the result of the measurement")]
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let out = std::env::args().nth(1).ok_or("usage: readings_speed DIR [csv|parquet]")?;
    let only = std::env::args().nth(2);
    let formats =
        Formats { csv: only.as_deref() != Some("parquet"), parquet: only.as_deref() != Some("csv"), readings: true };
    let analysis = fixture::analysis();
    let row = analysis.shown[0].row.clone();
    let tool = ToolInfo { name: String::new(), version: String::new(), command: String::new() };
    let logs: Vec<(RegisterRow, Readings)> =
        (0..4000).map(|i| (RegisterRow { trial: format!("t{i:04}"), ..row.clone() }, readings(i))).collect();
    let start = Instant::now();
    let stage = Stage::begin(Path::new(&out), formats)?;
    let mut writer = stage.readings_writer()?;
    for (row, readings) in &logs {
        writer.push(row, readings)?;
    }
    let readings = writer.finish()?;
    let tables = stage.trial_tables(Path::new("."))?;
    stage.finish(&analysis, (readings, tables), &[], Path::new("."), &tool)?;
    println!("2.4 M rows: {:.2} s", start.elapsed().as_secs_f64());
    Ok(())
}
