//! `simulate`: an invented dataset with known truth.

use crate::args::SimulateArgs;
use crate::simulate::{self, SimulateOptions};
use crate::{Exit, messages};

/// Runs `simulate`.
pub(super) fn simulate(args: &SimulateArgs) -> Exit {
    let options = SimulateOptions { out: args.out.clone(), trials: args.trials, rows: args.rows, seed: args.seed };
    match simulate::write(&options) {
        Ok(written) => {
            let (trials, readings) = (written.trials, written.readings);
            messages::say(&format!(
                "invented: {trials} trials, {readings} readings; run {}",
                written.pipeline.display()
            ));
            Exit::Done
        }
        Err(error) => {
            messages::say(&format!("error: {error}"));
            Exit::WriteFailed
        }
    }
}
