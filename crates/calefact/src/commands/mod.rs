//! The subcommands: arguments resolved, work started, outcome told.

mod check;
mod findings_csv;
mod run;
mod settle;
mod simulate;
mod summary;
mod writing;

pub use settle::Job;

use crate::Exit;
use crate::args::{Args, Command};
use crate::driver::{self, Inputs};
use calefact_analysis::finding::FindingSummary;

/// Opens the datasets of a job. `None` when its comparisons name what no register has; it has been said.
fn open(job: &Job) -> Option<Inputs> {
    let inputs = Inputs::open(&job.pipeline);
    let slips: FindingSummary = driver::unknown_names(&job.pipeline, &inputs).iter().collect();
    if !slips.any_error() {
        return Some(inputs);
    }
    job.refuse(&slips);
    None
}

/// Does what the arguments ask.
pub fn dispatch(args: Args) -> Exit {
    match args.command {
        Command::Run(args) => run::run(args),
        Command::Check(args) => check::check(&args),
        Command::Simulate(args) => simulate::simulate(&args),
    }
}
