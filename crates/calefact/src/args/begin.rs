//! Arguments of `new`.

use super::common::Units;
use super::planning::PaperSize;
use clap::Args as ClapArgs;
use std::path::PathBuf;

/// Arguments of `new`. What is not given is asked on a terminal, else left for the person to write.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct NewArgs {
    /// Folder of the dataset. It may hold the logs already; nothing in it is overwritten.
    pub(crate) dir: PathBuf,
    /// Logs, a table of the trials, or folders with them: says which column is what, and makes a register of them.
    #[arg(long, value_name = "FILE", num_args = 1..)]
    pub(crate) from: Vec<PathBuf>,
    /// Title of the dataset [default: the name of the folder].
    #[arg(long, value_name = "TEXT")]
    pub(crate) title: Option<String>,
    /// Name of a stove; once for each.
    #[arg(long, value_name = "NAME")]
    pub(crate) stove: Vec<String>,
    /// Name of a fuel; once for each.
    #[arg(long, value_name = "NAME")]
    pub(crate) fuel: Vec<String>,
    /// Name of the vessel.
    #[arg(long, value_name = "NAME")]
    pub(crate) vessel: Option<String>,
    /// Water in the vessel, the same in all trials, such as "120 L".
    #[arg(long, value_name = "AMOUNT")]
    pub(crate) water: Option<String>,
    /// Tolerance of the thermometer, as its sheet gives it: "0.5 degC", "class B Pt100".
    #[arg(long, value_name = "TOLERANCE")]
    pub(crate) thermometer: Option<String>,
    /// Tolerance of the scale: "50 g", "1 % of reading".
    #[arg(long, value_name = "TOLERANCE")]
    pub(crate) scale: Option<String>,
    /// Units of the files, and of what the logs do not state [default: metric].
    #[arg(long, value_name = "UNITS", value_enum)]
    pub(crate) units: Option<Units>,
    /// Paper of the burn sheet.
    #[arg(long, value_name = "PAPER", value_enum, default_value_t = PaperSize::A4)]
    pub(crate) paper: PaperSize,
}
