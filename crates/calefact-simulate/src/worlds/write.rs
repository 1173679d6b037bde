//! Writing a world as a folder that the command runs as it is.

use super::burns::{Which, plan};
use super::draws::Draws;
use super::facts::Facts;
use super::reference::{JOBS, reference};
use super::spec::{Missing, World};
use super::truth::{TrialTruth, WorldTruth, mean, named, unlogged};
use super::{log, scenario};
use crate::dataset_folder::SimulateError;
use crate::dataset_folder::dataset_toml::dataset_toml;
use crate::dataset_folder::files::{prepare, save};
use crate::dataset_folder::log_csv::log_csv;
use crate::dataset_folder::register_csv::{Columns, register_csv};
use crate::dataset_folder::style::PLAIN;
use crate::error::SimulationError;
use crate::forward::Forward;
use crate::observe::{displayed, register_row};
use crate::rig::Rig;
use crate::truth::truth;
use calefact_data::{Readings, RegisterRow};
use std::path::Path;

const PIPELINE: &str = r#"name = "world"
title = "Two stoves (invented)"
datasets = ["."]

[settings]
heating_rate_at = "40 degC"

[outputs]
formats = ["csv"]
readings = false
"#;
const STOVES: &str = "\n[[comparison]]\nfactor = \"stove\"\n";
const DAMPER: &str =
    "\n[[comparison]]\nfactor = \"damper\"\nadjust = [\"stove\"]\nquantities = [\"thermal_efficiency\"]\n";

/// A burn as it is written, and its truth.
struct Written {
    row: RegisterRow,
    readings: Readings,
    truth: TrialTruth,
}

impl World {
    /// Writes `dataset.toml`, `trials.csv`, `logs/` and `pipeline.toml` of one draw of this world.
    ///
    /// # Errors
    /// A folder that holds something, a file that cannot be written, or a draw that contradicts physics.
    pub fn write(&self, out: &Path, seed: u64) -> Result<WorldTruth, SimulateError> {
        let facts = Facts::draw(self, seed);
        let drawn = scenario::scenario(self, &facts);
        let rig = Rig::draw(&drawn, seed);
        let burns = self.burns(&facts, &rig, seed)?;
        prepare(out)?;
        for burn in &burns {
            save(&out.join(&burn.row.log), &log_csv(&burn.readings, &PLAIN))?;
        }
        let further = if self.damper { vec!["damper"] } else { Vec::new() };
        let columns = Columns { left_out: scenario::left_out(self), further };
        save(&out.join("trials.csv"), &register_csv(burns.iter().map(|b| (&b.row, PLAIN)), &columns))?;
        save(&out.join("dataset.toml"), &dataset_toml(&scenario::written(self, &drawn)))?;
        save(&out.join("pipeline.toml"), &format!("{PIPELINE}{JOBS}{}", if self.damper { DAMPER } else { STOVES }))?;
        let mut whole = WorldTruth {
            trials: burns.into_iter().map(|b| b.truth).collect(),
            means: [].into(),
            next: [].into(),
            damper_slope: self.damper.then_some(scenario::DAMPER_SLOPE),
        };
        for (stove, model) in drawn.stoves.iter().enumerate() {
            let trial = format!("next-{stove}");
            let which = Which { trial: &trial, stove, number: self.burns, mirrored: false };
            whole.means.insert(model.id.clone(), mean(self, &facts, &drawn, seed, stove)?);
            whole.next.insert(model.id.clone(), unlogged(self, &facts, &rig, seed, which)?);
        }
        Ok(whole)
    }

    /// All burns, the stoves by turns.
    fn burns(&self, facts: &Facts, rig: &Rig<'_>, seed: u64) -> Result<Vec<Written>, SimulationError> {
        let all = (0..self.burns).flat_map(|number| [(0, number), (1, number)]);
        let all = all.filter(|(stove, number)| !self.second_once || *stove == 0 || *number == 0);
        all.map(|(stove, number)| {
            let trial = format!("{}{}", ["a", "b"][stove], number + 1);
            self.burn(facts, rig, seed, Which { trial: &trial, stove, number, mirrored: false })
        })
        .collect()
    }

    fn burn(&self, facts: &Facts, rig: &Rig<'_>, seed: u64, which: Which<'_>) -> Result<Written, SimulationError> {
        let plan = plan(self, facts, seed, which);
        let forward = Forward::new(rig, &plan)?;
        let mut draws = Draws::new(seed, &format!("world/log/{}", which.trial), self.place, false);
        let mut exact = forward.readings();
        log::disturb(self, rig, &forward, &mut exact, &mut draws);
        let mut shown = displayed(rig, &plan, &exact);
        log::spike(self, &mut shown, &mut draws);
        let readings = log::noted(self, which.number, shown, &mut draws);
        let mut row = register_row(rig, &forward);
        if self.lacks(Missing::MoistureBasis) && facts.wet_basis {
            row.fuel_moisture = row.fuel_moisture.map(|dry| dry / (1.0 + dry));
        }
        let mut truth = truth(rig, &forward)?;
        truth.extend(reference(rig, &plan)?);
        let values = named(truth);
        let truth = TrialTruth { trial: plan.trial.clone(), stove: row.stove.clone().unwrap_or_default(), values };
        Ok(Written { row, readings, truth })
    }
}
