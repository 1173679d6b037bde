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
    /// A bundle is damaged or unsafe.
    Damaged = 4,
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
            "  3  the results could not be written\n",
            "  4  a bundle is damaged or unsafe"
        )
    };
}
pub(crate) use help;

/// The same part of `seal`, with an example.
pub(crate) const SEAL_HELP: &str = "\
Example:
  calefact seal mine.toml --out mine-1.0.zip --without notes,operators

Exit codes:
  0  sealed
  1  sealed, but the data has errors; or nothing was sealed, and the message says why
  2  the arguments or the pipeline file are wrong, or [publish] is missing
  3  the bundle could not be written, or is there already";

/// The same part of `verify`.
pub(crate) const VERIFY_HELP: &str = "\
Example:
  calefact verify mine-1.0.zip

Exit codes:
  0  every file is as it was sealed, and the rerun gives the same results
  1  every file is as it was sealed, but the rerun gives other results
  2  the arguments are wrong, or the path leads to no bundle
  3  no temporary folder could be written
  4  the bundle is damaged or unsafe: a file is changed, missing or added, or must not be unpacked";

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
        for exit in [Exit::Done, Exit::DataErrors, Exit::Usage, Exit::WriteFailed, Exit::Damaged] {
            assert!(help.contains(&format!("\n  {}  ", exit as u8)), "{exit:?}");
        }
    }
}
