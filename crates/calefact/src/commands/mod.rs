//! The subcommands: arguments resolved, work started, outcome told.

mod analyse;
mod begin;
mod book;
mod book_row;
mod book_table;
mod check;
mod ended;
mod findings_csv;
mod keeping;
mod manual;
mod plan;
mod plan_request;
mod predict;
mod predict_build;
mod run;
mod seal;
mod seal_files;
mod settle;
mod sheet;
mod simulate;
mod summary;
mod understood;
mod verify;
mod writing;

pub(crate) use ended::Ended;
pub(crate) use settle::Job;

use crate::args::{Args, Command};

/// Does what the arguments ask.
pub(crate) fn dispatch(args: Args) -> Ended {
    match args.command {
        Command::New(args) => begin::begin(*args).into(),
        Command::Run(args) => run::run(args),
        Command::Predict(args) => predict::predict(&args).into(),
        Command::Book(args) => book::book(args).into(),
        Command::Check(args) => check::check(&args).into(),
        Command::Plan(args) => plan::plan(&args).into(),
        Command::Sheet(args) => sheet::sheet(&args).into(),
        Command::Completions { shell } => manual::completions(shell).into(),
        Command::Man { dir } => manual::pages(&dir).into(),
        Command::Seal(args) => seal::seal(&args).into(),
        Command::Verify(args) => verify::verify(&args).into(),
        Command::Simulate(args) => simulate::simulate(&args).into(),
    }
}
