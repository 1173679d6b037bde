//! Arguments of `plan` and `sheet`.

use super::common::{Units, Working};
use calefact_report::Paper;
use calefact_units::{Kind, parse_quantity};
use clap::{Args as ClapArgs, ValueEnum};
use std::path::PathBuf;

/// Arguments of `plan`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct PlanArgs {
    /// A pipeline file, or a folder with one or with a dataset [default: the folder you are in].
    #[arg(value_name = "PIPELINE|DATASET")]
    pub(crate) pipeline: Option<PathBuf>,
    /// Wishes and guesses.
    #[command(flatten)]
    pub(crate) wishes: PlanWishes,
    /// Folder for the plan [default: the folder of the report with `-plan`].
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    /// Style of the sheets.
    #[command(flatten)]
    pub(crate) sheet: SheetStyle,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// Wishes and guesses of a plan. Each goes before the key of its name under `[plan]`.
#[derive(Debug, Clone, Default, PartialEq, ClapArgs)]
pub(crate) struct PlanWishes {
    /// Plan one comparison only, by its factor.
    #[arg(long, value_name = "COLUMN")]
    pub(crate) factor: Option<String>,
    /// Levels of that factor that no burn has yet, separated by commas.
    #[arg(long, value_name = "LEVELS", value_delimiter = ',')]
    pub(crate) levels: Vec<String>,
    /// Smallest difference that matters: `10 %` of the mean, `4 points`, or an amount with its unit.
    #[arg(long, value_name = "SIZE", allow_hyphen_values = true)]
    pub(crate) difference: Option<String>,
    /// Wanted width of the interval of a difference, from end to end.
    #[arg(long, value_name = "SIZE", allow_hyphen_values = true)]
    pub(crate) width: Option<String>,
    /// Guessed standard deviation between burns of one level.
    #[arg(long, value_name = "SIZE", allow_hyphen_values = true)]
    pub(crate) scatter: Option<String>,
    /// Guessed mean of the quantity.
    #[arg(long, value_name = "VALUE", allow_hyphen_values = true)]
    pub(crate) mean: Option<String>,
    /// Chance of showing a difference that is there [default: 80 %].
    #[arg(long, value_name = "SHARE", value_parser = power)]
    pub(crate) power: Option<f64>,
    /// Burns of one day [default: 2].
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=24))]
    pub(crate) burns_per_day: Option<u8>,
    /// Day of the first burn, as 2026-03-28.
    #[arg(long, value_name = "DATE")]
    pub(crate) first_day: Option<jiff::civil::Date>,
    /// Seed of the order [default: 1].
    #[arg(long, value_name = "N")]
    pub(crate) seed: Option<u64>,
}

/// How burn sheets look.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct SheetStyle {
    /// Time between two ruled rows.
    #[arg(long, value_name = "TIME", default_value = "5 min", value_parser = every)]
    pub(crate) every: f64,
    /// Paper.
    #[arg(long, value_name = "PAPER", value_enum, default_value_t = PaperSize::A4)]
    pub(crate) paper: PaperSize,
    /// Units of the sheets and the terminal [default: those of the pipeline, else metric].
    #[arg(long, value_name = "UNITS", value_enum)]
    pub(crate) units: Option<Units>,
}

/// Paper of `--paper`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperSize {
    /// 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

impl From<PaperSize> for Paper {
    fn from(paper: PaperSize) -> Self {
        match paper {
            PaperSize::A4 => Self::A4,
            PaperSize::Letter => Self::Letter,
        }
    }
}

/// Arguments of `sheet`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct SheetArgs {
    /// A pipeline file, or a folder with one or with a dataset [default: the folder you are in].
    #[arg(value_name = "PIPELINE|DATASET")]
    pub(crate) from: Option<PathBuf>,
    /// Number of sheets.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=400))]
    pub(crate) burns: u16,
    /// How the sheets look.
    #[command(flatten)]
    pub(crate) style: SheetStyle,
    /// The file.
    #[arg(long, value_name = "FILE", default_value = "burn-sheets.html")]
    pub(crate) out: PathBuf,
}

/// Reads `--power`.
fn power(text: &str) -> Result<f64, String> {
    let power = parse_quantity(text, Kind::Fraction).ok().filter(|p| *p > 0.0 && *p < 1.0);
    power.ok_or_else(|| "a share above 0 % and below 100 % is wanted, such as `80 %`".to_owned())
}

/// Reads `--every`, s.
fn every(text: &str) -> Result<f64, String> {
    let time = parse_quantity(text, Kind::Time).ok().filter(|s| (1.0..=86_400.0).contains(s));
    time.ok_or_else(|| "a time from 1 s to 24 h is wanted, such as `5 min`".to_owned())
}
