//! Which trials stand behind each level, and their means.

use crate::Quantity;
use crate::result::{GroupResult, TrialResult};
use crate::settings::ComparisonRequest;
use calefact_stats::group::GroupMean;
use calefact_stats::{Estimate, SourceBook, Traced};

/// Usable trials of the kind and levels a request asks for, in register order.
pub fn choose<'t>(request: &ComparisonRequest, trials: &'t [TrialResult]) -> Vec<&'t TrialResult> {
    let wanted = |t: &&TrialResult| {
        t.usable()
            && t.row.kind == request.kind
            && t.row.level(&request.factor).is_some()
            && request.only.iter().all(|(factor, level)| t.row.level(factor) == Some(level))
    };
    trials.iter().filter(wanted).collect()
}

/// Levels of a factor in the order of first appearance.
pub fn levels(factor: &str, trials: &[&TrialResult]) -> Vec<String> {
    let mut levels: Vec<String> = Vec::new();
    for level in trials.iter().filter_map(|t| t.row.level(factor)) {
        if !levels.iter().any(|l| l == level) {
            levels.push(level.to_owned());
        }
    }
    levels
}

/// Words for the heading of a comparison.
pub fn title(request: &ComparisonRequest) -> String {
    let only: Vec<String> = request.only.iter().map(|(f, l)| format!("{f} {l} only")).collect();
    if only.is_empty() { request.factor.clone() } else { format!("{}, {}", request.factor, only.join(", ")) }
}

/// One level and its mean.
#[derive(Debug, Clone)]
pub struct Cell {
    /// Level.
    pub level: String,
    /// Which quantity.
    pub quantity: Quantity,
    /// Trials that have the quantity.
    pub trials: Vec<String>,
    /// Mean and scatter.
    pub mean: GroupMean,
}

/// Means by level; a level none of whose trials has the quantity is left out. Their scatters join the book of sources.
pub fn cells(
    request: &ComparisonRequest,
    levels: &[String],
    trials: &[&TrialResult],
    quantity: Quantity,
    sources: &mut SourceBook,
) -> Vec<Cell> {
    let mut cells = Vec::new();
    for level in levels {
        let have: Vec<(&str, &Traced)> = trials
            .iter()
            .filter(|t| t.row.level(&request.factor) == Some(level))
            .filter_map(|t| t.get(quantity).map(|e| (t.row.trial.as_str(), &e.traced)))
            .collect();
        let traced: Vec<Traced> = have.iter().map(|(_, t)| (*t).clone()).collect();
        let name = format!("scatter:{}:{level}:{}", title(request), quantity.name());
        let Some(mean) = GroupMean::of(&traced, sources, name) else { continue };
        sources.extend(mean.scatter.clone());
        let names = have.iter().map(|(id, _)| (*id).to_owned()).collect();
        cells.push(Cell { level: level.clone(), quantity, trials: names, mean });
    }
    cells
}

impl Cell {
    /// Number of trials.
    pub fn n(&self) -> usize {
        self.trials.len()
    }

    /// The row of the groups table.
    pub fn finish(self, factor: &str, level: f64) -> GroupResult {
        let method = if self.n() == 1 {
            "one trial: measurement only, no repeat"
        } else {
            "mean, t interval, shared errors kept"
        };
        let mean = &self.mean.mean;
        let unit = self.quantity.unit();
        GroupResult {
            levels: vec![(factor.to_owned(), self.level)],
            quantity: self.quantity,
            mean: Estimate::student(mean.value, unit, mean.std_uncertainty(), self.mean.dof, level, method),
            between_sd: self.mean.summary.scatter.map(|s| s.sd),
            predict: self.mean.prediction_interval(level),
            traced: self.mean.mean.clone(),
            trials: self.trials,
        }
    }
}
