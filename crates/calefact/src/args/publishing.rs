//! Arguments of `seal` and `verify`.

use super::common::Working;
use calefact_bundle::{LICENCES, Licence};
use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use clap::{Args as ClapArgs, ValueEnum};
use std::path::PathBuf;

/// What a bundle is made without.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Without {
    /// Remarks in registers, logs and dataset.toml, and the comments of TOML files.
    Notes,
    /// Names under `operator`: `operator-1` and so on stand for them.
    Operators,
}

/// Arguments of `seal`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct SealArgs {
    /// The pipeline file; its table [publish] says who publishes what.
    pub(crate) pipeline: PathBuf,
    /// The bundle: a folder, or an archive if the name ends in `.zip`. It must not exist.
    #[arg(long, value_name = "BUNDLE")]
    pub(crate) out: PathBuf,
    /// What to leave out or replace, separated by commas.
    #[arg(long, value_name = "WHAT", value_enum, value_delimiter = ',')]
    pub(crate) without: Vec<Without>,
    /// Licence by its SPDX name, in place of the one that the pipeline names.
    #[arg(long, value_name = "LICENCE", value_parser = PossibleValuesParser::new(LICENCES.map(|(id, _)| id)).map(|id| licence(&id)))]
    pub(crate) licence: Option<Licence>,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// Arguments of `verify`.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct VerifyArgs {
    /// The bundle: a folder or an archive that `calefact seal` wrote.
    pub(crate) bundle: PathBuf,
    /// How it works.
    #[command(flatten)]
    pub(crate) working: Working,
}

/// The licence of a name that is in the list.
fn licence(id: &str) -> Licence {
    LICENCES.iter().find(|(name, _)| *name == id).map_or(LICENCES[0].1, |(_, licence)| *licence)
}
