//! Exit codes, the one list of them.

use std::process::ExitCode;

/// How a run ended. The numbers are part of the interface and do not change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub(crate) enum Exit {
    /// Done, and no error in the data.
    Done = 0,
    /// Done, but some of the data has findings of severity error; what could be used was used.
    DataErrors = 1,
    /// The arguments or the pipeline file are wrong; nothing was done.
    Usage = 2,
    /// The results could not be written.
    WriteFailed = 3,
}

/// The end of every `--help`: examples that can be typed as they stand, then the codes.
macro_rules! help {
    ($($example:literal),+) => {
        concat!(
            "Examples:\n",
            $("  ", $example, "\n",)+
            "\nExit codes:\n",
            "  0  done\n",
            "  1  the data has errors; they are listed, and the rest was done\n",
            "  2  the arguments or the pipeline file are wrong\n",
            "  3  the results could not be written"
        )
    };
}
pub(crate) use help;

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit as u8)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn help_names_every_code() {
        let help = help!("calefact run");
        for exit in [Exit::Done, Exit::DataErrors, Exit::Usage, Exit::WriteFailed] {
            assert!(help.contains(&format!("\n  {}  ", exit as u8)), "{exit:?}");
        }
    }
}
