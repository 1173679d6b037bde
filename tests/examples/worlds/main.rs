//! The coverage study through the whole command, as a table.
//!
//! Arguments: the file to write, then the number of draws of each world, then a part of the title of the worlds wanted.

use calefact_tests::worlds::{HEADER, cells, designs};
use std::env;
use std::fs::File;
use std::io::{BufWriter, Error, Write};

/// Draws of each world where no number is given.
const REPLICATES: u64 = 1000;

fn main() -> Result<(), Error> {
    let mut args = env::args().skip(1);
    let path = args.next().unwrap_or_else(|| "reports/worlds.csv".into());
    let replicates = args.next().and_then(|n| n.parse().ok()).unwrap_or(REPLICATES);
    let wanted = args.next().unwrap_or_default();
    let mut file = BufWriter::new(File::create(path)?);
    writeln!(file, "{HEADER}")?;
    for design in designs().iter().filter(|d| d.title().contains(&wanted)) {
        for cell in cells(design, replicates) {
            writeln!(file, "{}", cell.csv(design))?;
        }
        file.flush()?;
        progress(&design.title());
    }
    Ok(())
}

#[expect(clippy::print_stderr, reason = "a study of many minutes says how far it is")]
fn progress(title: &str) {
    eprintln!("{title}");
}
