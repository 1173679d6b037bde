//! The command: arguments, pipeline file, driver, messages, exit codes.
//!
//! Steps of `run`: `args` as typed -> `commands::Job` resolved -> [`pipeline_file`] -> `driver` (datasets to trial
//! results to analysis, in chunks and in parallel) -> the report crate's stage. What does not live here: reading logs,
//! physics, statistics, tables and charts.

mod args;
mod commands;
mod driver;
mod exit;
mod messages;
pub mod pipeline_file;
mod progress;

use exit::Exit;

use clap::Parser;
use std::process::ExitCode;

/// Parses the arguments, does the job, says what went wrong, and gives the exit code.
pub fn main() -> ExitCode {
    let exit = match args::Args::try_parse() {
        Ok(args) => commands::dispatch(args),
        Err(error) => usage(&error),
    };
    exit.into()
}

/// Prints what clap has to say; help and version are no mistake.
fn usage(error: &clap::Error) -> Exit {
    let printed = error.print();
    if error.use_stderr() { Exit::Usage } else { printed.map_or_else(|e| messages::write_failed(&e), |()| Exit::Done) }
}
