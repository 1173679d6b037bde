//! `completions` and `man`: what shells and readers of manuals want to know of the command, from its one definition.

use crate::args::Args;
use crate::{Exit, messages};
use clap::CommandFactory;
use clap_complete::Shell;
use std::io::{self, Write};
use std::path::Path;

/// Runs `completions`.
pub(super) fn completions(shell: Shell) -> Exit {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), env!("CARGO_PKG_NAME"), &mut script);
    io::stdout().write_all(&script).map_or_else(|error| messages::write_failed(&error), |()| Exit::Done)
}

/// Runs `man`.
pub(super) fn pages(dir: &Path) -> Exit {
    let written = std::fs::create_dir_all(dir).and_then(|()| clap_mangen::generate_to(Args::command(), dir));
    match written {
        Ok(()) => {
            messages::say(&format!("manual pages: {}", dir.display()));
            Exit::Done
        }
        Err(error) => {
            messages::say(&format!("error: cannot write the manual pages into {}: {error}", dir.display()));
            Exit::WriteFailed
        }
    }
}
