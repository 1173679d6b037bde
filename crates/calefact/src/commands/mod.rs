//! The subcommands: arguments resolved, work started, outcome told.

mod analyse;
mod check;
mod findings_csv;
mod run;
mod settle;
mod simulate;
mod summary;
mod writing;

pub(crate) use settle::Job;

use crate::Exit;
use crate::args::{Args, Command};

/// Does what the arguments ask.
pub(crate) fn dispatch(args: Args) -> Exit {
    match args.command {
        Command::Run(args) => run::run(args),
        Command::Check(args) => check::check(&args),
        Command::Simulate(args) => simulate::simulate(&args),
    }
}
