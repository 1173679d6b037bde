//! Arguments as typed. What they mean together is settled in [`crate::commands`].

mod begin;
mod common;
mod planning;
mod publishing;

pub(crate) use begin::NewArgs;
pub(crate) use common::{Units, Working};
pub(crate) use planning::{PlanArgs, PlanWishes, SheetArgs};
pub(crate) use publishing::{SealArgs, VerifyArgs, Without};

use crate::exit::{self, help};
use calefact_analysis::build::Size;
use calefact_report::words;
use calefact_units::{Kind, parse_quantity};
use clap::{Args as ClapArgs, Parser, Subcommand};
use common::{rows, trials};
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// Compares wood-stove water-heating trials: reads logs, reduces each trial, and says what the burns do and do not show.
#[derive(Debug, Clone, PartialEq, Parser)]
#[command(name = "calefact", version = env!("CALEFACT_VERSION"), after_help = help!("calefact new mine", "calefact run mine"), propagate_version = true)]
pub(crate) struct Args {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// The subcommands.
#[derive(Debug, Clone, PartialEq, Subcommand)]
pub(crate) enum Command {
    /// Begin a dataset: files to fill in, with an example, or those for logs that are there.
    #[command(after_help = help!("calefact new mine", "calefact new mine --from logs burns.csv --water \"120 L\""))]
    New(Box<NewArgs>),
    /// Read, reduce and compare the trials of a pipeline, and write tables, charts and a report.
    #[command(after_help = help!("calefact run", "calefact run mine.toml --units us"))]
    Run(RunArgs),
    /// Do what `run` does, list what is wrong and which quantities cannot be given, and write nothing.
    #[command(after_help = help!("calefact check mine", "calefact check mine.toml --csv > findings.csv"))]
    Check(CheckArgs),
    /// Tell how much wood and time a job takes: the jobs of a pipeline, or one from the options.
    #[command(after_help = help!("calefact predict mine --water \"120 L\" --from \"10 degC\" --to \"50 degC\" --ambient \"10 degC\""))]
    Predict(Box<PredictArgs>),
    /// Plan the next burns: how many, in which order, and when to stop; with burn sheets to print.
    #[command(after_help = help!("calefact plan mine", "calefact plan mine --difference \"10 %\" --scatter \"5 %\""))]
    Plan(PlanArgs),
    /// Write blank burn sheets to print, one page a burn.
    #[command(after_help = help!("calefact sheet mine --burns 5 --paper letter"))]
    Sheet(SheetArgs),
    /// Write the book of fuel use: what a kWh of heat and each job take, on one page to print.
    #[command(after_help = help!("calefact book mine", "calefact book mine --with reports/last-year"))]
    Book(BookArgs),
    /// Seal inputs, settings and results as a bundle that anybody can check and rerun.
    #[command(after_help = exit::SEAL_HELP)]
    Seal(SealArgs),
    /// Check every byte of a bundle, run it again, and compare the results.
    #[command(after_help = exit::VERIFY_HELP)]
    Verify(VerifyArgs),
    /// Write an invented dataset whose true values are known.
    #[command(after_help = help!("calefact simulate --out invented --trials 12"))]
    Simulate(SimulateArgs),
    /// Write what a shell needs to complete commands and options, to standard output.
    #[command(after_help = help!("calefact completions bash > ~/.local/share/bash-completion/completions/calefact"))]
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
    /// Write the manual pages, one for each command.
    #[command(after_help = help!("calefact man ~/.local/share/man/man1", "man calefact-run"))]
    Man {
        /// Folder for the pages.
        dir: PathBuf,
    },
}

/// Arguments of `run`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct RunArgs {
    /// A pipeline file, or a folder with one or with a dataset [default: the folder you are in].
    #[arg(value_name = "PIPELINE|DATASET")]
    pub(crate) pipeline: Option<PathBuf>,
    /// Folder for the results, in place of the one the pipeline names [default: reports/NAME].
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    /// Units of the report and the terminal, in place of those the pipeline names [default: metric]. Tables stay in SI units.
    #[arg(long, value_name = "UNITS", value_enum)]
    pub(crate) units: Option<Units>,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// Arguments of `check`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct CheckArgs {
    /// A pipeline file, or a folder with one or with a dataset [default: the folder you are in].
    #[arg(value_name = "PIPELINE|DATASET")]
    pub(crate) pipeline: Option<PathBuf>,
    /// Write the findings, and what cannot be given, as CSV to standard output instead of listing them.
    #[arg(long)]
    pub(crate) csv: bool,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// Arguments of `predict`. What a job from the options does not state is that of the first job of the pipeline.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct PredictArgs {
    /// A pipeline file, or a folder with one or with a dataset [default: the folder you are in].
    #[arg(value_name = "PIPELINE|DATASET")]
    pub(crate) pipeline: Option<PathBuf>,
    /// Water to heat, such as "120 L".
    #[arg(long, value_name = "VOLUME", value_parser = |text: &str| quantity(text, Kind::Volume))]
    pub(crate) water: Option<f64>,
    /// Its temperature at the start, such as "10 degC".
    #[arg(long, value_name = "TEMPERATURE", value_parser = temperature, allow_hyphen_values = true)]
    pub(crate) from: Option<f64>,
    /// Its temperature at the end.
    #[arg(long, value_name = "TEMPERATURE", value_parser = temperature, allow_hyphen_values = true)]
    pub(crate) to: Option<f64>,
    /// Temperature of the air.
    #[arg(long, value_name = "TEMPERATURE", value_parser = temperature, allow_hyphen_values = true)]
    pub(crate) ambient: Option<f64>,
    /// Moisture of the wood, wet basis, such as "18 %".
    #[arg(long, value_name = "SHARE", value_parser = moisture)]
    pub(crate) fuel_moisture: Option<f64>,
    /// Id of a vessel of the data.
    #[arg(long, value_name = "ID")]
    pub(crate) vessel: Option<String>,
    /// Time the hot water then stands, such as "3 h".
    #[arg(long, value_name = "TIME", value_parser = |text: &str| quantity(text, Kind::Time))]
    pub(crate) standing: Option<f64>,
    /// Time within which the job must be done.
    #[arg(long, value_name = "TIME", value_parser = |text: &str| quantity(text, Kind::Time))]
    pub(crate) deadline: Option<f64>,
    /// Answer for this stove alone, by its id; so for the fuel and the exchanger.
    #[arg(long, value_name = "ID")]
    pub(crate) stove: Option<String>,
    /// Answer for this fuel alone.
    #[arg(long, value_name = "ID")]
    pub(crate) fuel: Option<String>,
    /// Answer for this exchanger alone.
    #[arg(long, value_name = "ID")]
    pub(crate) exchanger: Option<String>,
    /// Forecast the exchanger with a tube of another length, and the jobs with it: "1.5x" of its own, or "9 m".
    #[arg(long, value_name = "SIZE", value_parser = length, requires = "exchanger", allow_hyphen_values = true)]
    pub(crate) exchanger_length: Option<Size>,
    /// The same with another number of passes: "2x" of its own, or "2".
    #[arg(long, value_name = "SIZE", value_parser = passes, requires = "exchanger", allow_hyphen_values = true)]
    pub(crate) exchanger_passes: Option<Size>,
    /// The same with another water flow: "2x" of its own, or "4 L/min".
    #[arg(long, value_name = "SIZE", value_parser = flow, requires = "exchanger", allow_hyphen_values = true)]
    pub(crate) coil_flow: Option<Size>,
    /// Units of the answer, in place of those the pipeline names [default: metric].
    #[arg(long, value_name = "UNITS", value_enum)]
    pub(crate) units: Option<Units>,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// Arguments of `book`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct BookArgs {
    /// A pipeline file, or a folder with one or with a dataset [default: the folder you are in].
    #[arg(value_name = "PIPELINE|DATASET")]
    pub(crate) pipeline: Option<PathBuf>,
    /// Folders of earlier runs, or of other people's, or bundles: their book.csv is read, and nothing else.
    #[arg(long, value_name = "REPORT_FOLDER", num_args = 1..)]
    pub(crate) with: Vec<PathBuf>,
    /// Folder for the book [default: reports/NAME-book].
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    /// Units of the page, in place of those the pipeline names [default: metric]. Tables stay in SI units.
    #[arg(long, value_name = "UNITS", value_enum)]
    pub(crate) units: Option<Units>,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// Reads a number with its unit.
fn quantity(text: &str, kind: Kind) -> Result<f64, String> {
    parse_quantity(text, kind).map_err(|error| words::quantity_error(&error, text))
}

/// Water by volume for water by mass, kg/m3: that of cold water.
const DENSITY: f64 = 1000.0;

/// Reads a size: a ratio such as "1.5x", or in absolute terms.
fn size(text: &str, absolute: impl Fn(&str) -> Result<f64, String>) -> Result<Size, String> {
    match text.trim().strip_suffix(['x', 'X']).map(|number| number.trim().parse()) {
        Some(Ok(times)) => Ok(Size::Times(times)),
        _ => absolute(text).map(Size::Absolute),
    }
}

fn length(text: &str) -> Result<Size, String> {
    size(text, |text| quantity(text, Kind::Length))
}

fn passes(text: &str) -> Result<Size, String> {
    size(text, |text| text.trim().parse().map_err(|_| "a number such as 2, or a ratio such as 2x, is wanted".into()))
}

fn flow(text: &str) -> Result<Size, String> {
    let by_mass = |text: &str| quantity(text, Kind::MassFlow);
    size(text, |text| quantity(text, Kind::VolumeFlow).map(|flow| DENSITY * flow).or_else(|_| by_mass(text)))
}

fn temperature(text: &str) -> Result<f64, String> {
    quantity(text, Kind::Temperature)
}

fn moisture(text: &str) -> Result<f64, String> {
    let share = quantity(text, Kind::Fraction)?;
    if (0.0..1.0).contains(&share) { Ok(share) } else { Err("a share from 0 % to below 100 % is wanted".into()) }
}

/// Arguments of `simulate`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct SimulateArgs {
    /// Folder to write: a new one, or one that is empty.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: PathBuf,
    /// Number of burns; the trials of the rig come besides [default: the demo's own plan].
    #[arg(long, value_name = "N", value_parser = trials)]
    pub(crate) trials: Option<NonZeroUsize>,
    /// Readings in the log of each burn [default: the demo's own mix].
    #[arg(long, value_name = "N", value_parser = rows)]
    pub(crate) rows: Option<NonZeroUsize>,
    /// Seed of the random numbers; the same seed gives the same files.
    #[arg(long, value_name = "N", default_value_t = 2)]
    pub(crate) seed: u64,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn definition_is_sound() {
        use clap::CommandFactory;
        Args::command().debug_assert();
    }

    #[test]
    fn a_size_is_a_ratio_or_has_a_unit() {
        assert_eq!((length("1.5x"), length("6m")), (Ok(Size::Times(1.5)), Ok(Size::Absolute(6.0))));
        assert_eq!((passes("2 x"), passes("3")), (Ok(Size::Times(2.0)), Ok(Size::Absolute(3.0))));
        assert!(matches!(flow("6 L/min"), Ok(Size::Absolute(kg_s)) if (kg_s - 0.1).abs() < 1e-9));
        assert!(length("6").is_err() && length("long").is_err() && passes("two").is_err() && flow("6 m").is_err());
        assert_eq!(length("-2x"), Ok(Size::Times(-2.0)), "refused with the exchanger's name");
    }

    #[test]
    fn jobs_are_at_least_one_and_not_too_many() {
        let parsed = |n: &str| Args::try_parse_from(["calefact", "run", "p.toml", "--jobs", n]);
        assert!(parsed("1").is_ok() && parsed("256").is_ok());
        for wrong in ["0", "-2", "two", "257"] {
            let error = parsed(wrong).expect_err("refused").to_string();
            assert!(error.contains("a whole number from 1 to 256 is wanted") || wrong == "-2", "{error}");
        }
    }
}
