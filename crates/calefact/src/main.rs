//! The command `calefact`; everything it does is in the library beside it.

use std::process::ExitCode;

fn main() -> ExitCode {
    calefact::main()
}
