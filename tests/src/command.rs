//! The command, built beside the checks so that they find it.

use std::process::ExitCode;

fn main() -> ExitCode {
    calefact::main()
}
