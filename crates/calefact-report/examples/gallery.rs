//! Renders the made-up analysis of the tests so that tables, charts and page can be looked at.
//!
//! `cargo run -p calefact-report --example gallery -- DIR`

use calefact_data::Apparatus;
use calefact_report::{Formats, Results, Stage, ToolInfo};
use std::path::Path;

#[path = "../tests/support/fixture.rs"]
mod fixture;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let out = std::env::args().nth(1).ok_or("usage: gallery DIR")?;
    let analysis = fixture::analysis();
    let stage = Stage::begin(Path::new(&out), Formats::default())?;
    let mut writer = stage.readings_writer()?;
    let mut tables = stage.trial_tables(Path::new("."), &Apparatus::default())?;
    tables.add(&analysis.shown)?;
    for trial in &analysis.shown {
        writer.push(&trial.row, &fixture::readings())?;
    }
    let readings = writer.finish()?;
    let tool = ToolInfo {
        name: "calefact".into(),
        version: "0.1.0".into(),
        command: "calefact run pipelines/gallery.toml".into(),
    };
    stage.finish(Results { analysis: &analysis, next: &[] }, (readings, tables), &[], Path::new("."), &tool)?;
    Ok(())
}
