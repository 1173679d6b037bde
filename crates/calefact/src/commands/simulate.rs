//! `simulate`: an invented dataset with known truth.

use crate::args::SimulateArgs;
use crate::simulate::{self, SimulateOptions};
use crate::{Exit, messages};

/// Runs `simulate`.
pub(super) fn simulate(args: &SimulateArgs) -> Exit {
    let options = SimulateOptions { out: args.out.clone(), trials: args.trials, rows: args.rows, seed: args.seed };
    match simulate::write(&options) {
        Ok(_) => {
            messages::say(&format!("invented dataset written to {}", args.out.display()));
            Exit::Done
        }
        Err(error) => {
            messages::say(&format!("error: {error}"));
            Exit::WriteFailed
        }
    }
}
