//! How a subcommand ended, with what it still holds.

use super::summary::Done;
use crate::Exit;

/// How a subcommand ended. What it holds is given back when this value goes.
pub(crate) struct Ended {
    /// How it ended.
    pub(crate) exit: Exit,
    _held: Option<Done>,
}

impl Ended {
    /// An end with results in hand.
    pub(super) fn holding(exit: Exit, done: Done) -> Self {
        Self { exit, _held: Some(done) }
    }
}

impl From<Exit> for Ended {
    fn from(exit: Exit) -> Self {
        Self { exit, _held: None }
    }
}
