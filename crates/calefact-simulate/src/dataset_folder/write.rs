//! Writing the folder. Logs are made and written in parallel; what they hold does not depend on it.

use super::dataset_toml::dataset_toml;
use super::error::SimulateError;
use super::files::{prepare, save};
use super::log_csv::log_csv;
use super::options::{SimulateOptions, Summary};
use super::pipeline_toml::pipeline_toml;
use super::register_csv::{Columns, register_csv};
use super::style::{PLAIN, Style, style};
use super::truth_csv::{truth_csv, truth_groups_csv};
use crate::group::group_truth;
use crate::nursery;
use crate::plan::TrialPlan;
use crate::rig::Rig;
use crate::trial::SimulatedTrial;
use calefact_data::Readings;
use rayon::prelude::*;
use std::num::NonZeroUsize;
use std::path::Path;

/// Rows of a log where a number of trials is stated and none of rows.
const ROWS: usize = 600;
/// The end of the demo's `dataset.toml`.
const BARREL: &str =
    "\n# The batch stove's logger has its own word for the tank.\n[columns]\ntank = { header = \"Barrel\" }\n";

/// The demo's logs hold the air temperature, and its site has one height.
fn columns() -> Columns {
    Columns { left_out: vec!["ambient", "altitude"], further: vec!["damper", "split"] }
}

/// Writes `dataset.toml`, `trials.csv`, `logs/`, `truth.csv`, `truth-groups.csv` and `pipeline.toml`.
///
/// # Errors
/// A folder that holds something, or a file that cannot be written.
pub fn write(options: &SimulateOptions) -> Result<Summary, SimulateError> {
    let out = options.out.as_path();
    prepare(out)?;
    let scenario = nursery::scenario();
    let plans = plans(options);
    let styles: Vec<Style> = plans.iter().map(|p| if options.trials.is_some() { PLAIN } else { style(p) }).collect();
    let rig = Rig::draw(&scenario, options.seed);
    let trials: Vec<(SimulatedTrial, usize)> = plans
        .par_iter()
        .zip(&styles)
        .map(|(plan, style)| write_log(&rig, plan, style, out))
        .collect::<Result<_, _>>()?;
    let rows = trials.iter().map(|(t, _)| &t.row).zip(styles.iter().copied());
    save(&out.join("trials.csv"), &register_csv(rows, &columns()))?;
    save(&out.join("truth.csv"), &truth_csv(trials.iter().map(|(t, _)| t)))?;
    let groups = group_truth(&scenario, &plans, options.seed)?;
    save(&out.join("truth-groups.csv"), &truth_groups_csv(&groups))?;
    save(&out.join("dataset.toml"), &(dataset_toml(&scenario.apparatus()) + BARREL))?;
    let pipeline = out.join("pipeline.toml");
    save(&pipeline, &pipeline_toml("hill-nursery", "."))?;
    Ok(Summary { pipeline, trials: trials.len(), readings: trials.iter().map(|(_, n)| n).sum() })
}

fn plans(options: &SimulateOptions) -> Vec<TrialPlan> {
    let rows = options.rows.map(NonZeroUsize::get);
    if let Some(trials) = options.trials {
        return nursery::many(trials.get(), rows.unwrap_or(ROWS));
    }
    let mut plans = nursery::design();
    if let Some(rows) = rows {
        for plan in &mut plans {
            plan.logging.rows = rows.max(2);
        }
    }
    plans
}

/// Makes a trial and writes its log; the readings are let go, so that memory does not grow with their number.
fn write_log(rig: &Rig, plan: &TrialPlan, style: &Style, out: &Path) -> Result<(SimulatedTrial, usize), SimulateError> {
    let mut trial = rig.trial(plan)?;
    save(&out.join(&trial.row.log), &log_csv(&trial.readings, style))?;
    let rows = trial.readings.len();
    trial.readings = Readings::default();
    Ok((trial, rows))
}
