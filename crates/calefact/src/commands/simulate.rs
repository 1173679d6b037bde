//! `simulate`: an invented dataset with known truth.

use crate::args::SimulateArgs;
use crate::{Exit, messages};
use calefact_simulate::dataset_folder::{self, SimulateOptions};

/// Runs `simulate`.
pub(super) fn simulate(args: &SimulateArgs) -> Exit {
    let options = SimulateOptions { out: args.out.clone(), trials: args.trials, rows: args.rows, seed: args.seed };
    match dataset_folder::write(&options) {
        Ok(written) => {
            let (trials, readings) = (written.trials, written.readings);
            messages::say(&format!(
                "invented: {trials} trials, {readings} readings; see what they say with `calefact run {}`",
                written.pipeline.display()
            ));
            Exit::Done
        }
        Err(error) => messages::not_written(&error),
    }
}
