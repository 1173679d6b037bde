//! The command: arguments, pipeline file, driver, messages, exit codes.
//!
//! Steps of `run`: `args` as typed -> `commands::Job` resolved -> [`pipeline_file`] -> `driver` (datasets to trial
//! results to analysis, in chunks and in parallel) -> the report crate's stage. What does not live here: reading logs,
//! physics, statistics, tables and charts.

mod args;
mod commands;
mod driver;
mod exit;
#[cfg(unix)]
mod interrupt;
mod messages;
pub mod pipeline_file;
mod progress;
mod scratch;

use commands::Ended;
use exit::Exit;

use clap::Parser;
use std::ffi::OsString;
use std::process::ExitCode;

/// Parses the arguments, does the job, says what went wrong, and gives the exit code.
pub fn main() -> ExitCode {
    #[cfg(unix)]
    interrupt::watch();
    let ended = job(std::env::args_os());
    let exit = ended.exit;
    // The program ends here: giving back the memory piece by piece would only delay it.
    std::mem::forget(ended);
    exit.into()
}

/// Does what [`main`] does with arguments in hand, the name of the command first, and gives the number of the exit code. For
/// programs that run the command many times.
pub fn run<T: Into<OsString> + Clone>(args: impl IntoIterator<Item = T>) -> u8 {
    job(args).exit as u8
}

fn job<T: Into<OsString> + Clone>(args: impl IntoIterator<Item = T>) -> Ended {
    match args::Args::try_parse_from(args) {
        Ok(args) => commands::dispatch(args),
        Err(error) => usage(&error).into(),
    }
}

/// Prints what clap has to say; help and version are no mistake.
fn usage(error: &clap::Error) -> Exit {
    let printed = error.print();
    if error.use_stderr() { Exit::Usage } else { printed.map_or_else(|e| messages::write_failed(&e), |()| Exit::Done) }
}
