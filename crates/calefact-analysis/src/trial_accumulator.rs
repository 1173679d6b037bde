//! Gathering reduced trials one by one: of each, what comparing and the charts of all trials ask for is kept, and no more.
//!
//! A trial's result is large, and there may be thousands: their rows are written as they come. Only trials that are to be
//! shown one by one stay whole. Nothing here looks at a log.

use crate::Quantity;
use crate::budget;
use crate::fact::AssumedInput;
use crate::finding::FindingSummary;
use crate::result::{
    BudgetOwner, BudgetRow, Gap, LawParameter, Missing, Name, Packer, TrialEstimate, TrialResult, TrialSummary,
};
use crate::settings::{ComparisonRequest, Settings};
use crate::shared::SharedSources;
use crate::shown::Shown;
use crate::trial_mark;
use calefact_data::RegisterRow;
use calefact_stats::{ErrorSources, Estimate};
use std::collections::{BTreeSet, HashSet};
use std::sync::Arc;

/// Quantities whose charts show every trial, whatever is compared.
const CHARTED: [Quantity; 3] = [Quantity::GasFlow, Quantity::ExchangerConductance, Quantity::ExchangerConductanceArea];

/// Quantities that the book of fuel use asks for.
const BOOKED: [Quantity; 3] = [Quantity::FuelPerHeat, Quantity::HeatInput, Quantity::CostPerHeat];

/// Quantity that bounds another where nobody weighed what was left of the fuel.
const BOUND: Quantity = Quantity::ThermalEfficiencyUncredited;

/// Register columns that charts ask for, and those that may change together with any factor.
const USUAL_COLUMNS: [&str; 7] = ["stove", "fuel", "exchanger", "vessel", "operator", "block", "date"];

/// Further columns kept beside those that comparisons name,
const MOST_FURTHER: usize = 24;
/// and the longest text that is a level there and not a remark.
const LONGEST_LEVEL: usize = 40;

/// Trials above which the budget holds group means alone: a table that nobody reads would be the largest of all.
const MOST_BUDGETS: usize = 200;

/// The trials so far, as far as they are kept.
#[derive(Debug, Clone)]
pub struct TrialAccumulator {
    /// Sources of error that trials share.
    pub shared: SharedSources,
    /// Every trial, in the order in which they came.
    pub trials: Vec<TrialSummary>,
    /// Those that are shown one by one.
    pub shown: Shown,
    /// Quantities that could not be given.
    pub gaps: Vec<Gap>,
    /// Findings in the trials.
    pub noticed: FindingSummary,
    /// Budgets of the trials; empty where there are too many.
    pub budget: Vec<BudgetRow>,
    /// Assumed inputs that estimates of usable trials rest on.
    pub assumed: BTreeSet<AssumedInput>,
    quantities: BTreeSet<Quantity>,
    columns: Arc<[String]>,
    /// How many of the columns are not further ones that the rows brought.
    named: usize,
    levels: HashSet<Arc<str>>,
    packer: Packer,
}

impl TrialAccumulator {
    /// Nothing yet. The settings say what comparisons will ask for; `sources` holds the sources of error that trials share.
    pub fn new(settings: &Settings, sources: &ErrorSources) -> Self {
        let compared = settings.comparisons.iter().flat_map(|r| &r.quantities);
        Self {
            shared: SharedSources::from_book(sources),
            trials: Vec::new(),
            shown: Shown::by(settings.main_factor()),
            gaps: Vec::new(),
            noticed: FindingSummary::default(),
            budget: Vec::new(),
            assumed: BTreeSet::new(),
            quantities: compared.copied().chain(CHARTED).chain(BOOKED).chain([BOUND]).collect(),
            columns: columns(&settings.comparisons).into_iter().collect(),
            named: columns(&settings.comparisons).len(),
            levels: HashSet::new(),
            packer: Packer::default(),
        }
    }

    fn add(&mut self, result: TrialResult) {
        self.noticed.extend(&result.findings);
        self.note_gaps(&result);
        self.note_budget(&result);
        if result.usable() {
            self.assumed.extend(result.estimates.iter().flat_map(TrialEstimate::assumed));
        }
        let summary = self.summary(&result);
        self.trials.push(summary);
        self.shown.add(result);
    }

    fn note_gaps(&mut self, result: &TrialResult) {
        for missing in &result.missing {
            let trial = self.trials.len();
            if let Some(gap) = self.gaps.iter_mut().find(|g| g.matches(missing)) {
                gap.trials.push(trial);
            } else {
                let Missing { quantity, lacks } = missing.clone();
                self.gaps.push(Gap { quantity, lacks, trials: vec![trial] });
            }
        }
    }

    fn note_budget(&mut self, result: &TrialResult) {
        if self.trials.len() >= MOST_BUDGETS {
            self.budget = Vec::new();
            return;
        }
        let owner = BudgetOwner::Trial(result.row.trial.as_str().into());
        for estimate in &result.estimates {
            let lookup = |source: &_| self.shared.book().get(source).or_else(|| result.sources.get(source));
            self.budget.extend(budget::rows(estimate.quantity, &owner, &estimate.traced, lookup));
        }
    }

    fn summary(&mut self, result: &TrialResult) -> TrialSummary {
        let row = &result.row;
        self.note_columns(row);
        let boxed = |text: &Option<String>| text.as_deref().map(Into::into);
        let kept = result.estimates.iter().filter(|e| self.quantities.contains(&e.quantity));
        let kept = kept.map(|e| (Name::Quantity(e.quantity), &e.estimate, &e.traced));
        let shares = result.balance.iter().map(|b| (Name::Share(b.term), &b.share, &b.traced));
        let blank = Estimate::student(f64::NAN, "1", f64::NAN, f64::INFINITY, 0.95);
        let law = result.law.iter().flat_map(|law| LawParameter::ALL.into_iter().zip(&law.parameters));
        let law = law.map(|(parameter, value)| (Name::Law(parameter), &blank, value));
        let operating = result.operating.iter().map(|o| (Name::Operating(o.part), &o.estimate, &o.traced));
        TrialSummary {
            trial: row.trial.as_str().into(),
            mark: trial_mark::mark(result),
            kind: row.kind,
            sound: result.sound(),
            exclude: boxed(&row.exclude),
            note: boxed(&row.note),
            misfit: result.fit.filter(|f| !f.fits).map(Box::new),
            conditions: result.conditions,
            numbers: self.packer.pack(kept.chain(shares).chain(law).chain(operating), &self.shared, &result.sources),
            extent: result.law.as_ref().map(|law| Box::new(law.extent)),
            heater: result.heater.clone(),
            columns: self.columns.clone(),
            levels: self.levels(row),
        }
    }

    /// Takes up further columns that the row is the first to fill in. Trials before it keep the shorter list.
    fn note_columns(&mut self, row: &RegisterRow) {
        let free = (self.named + MOST_FURTHER).saturating_sub(self.columns.len());
        let is_new = |column: &&String| row.level(column).is_some() && !self.columns.contains(column);
        let new: Vec<String> = row.extra.keys().filter(is_new).take(free).cloned().collect();
        if !new.is_empty() {
            self.columns = self.columns.iter().cloned().chain(new).collect();
        }
    }

    /// Levels of the columns; trials share the words.
    fn levels(&mut self, row: &RegisterRow) -> Box<[Option<Arc<str>>]> {
        let columns = self.columns.clone();
        let level = |(place, column): (usize, &String)| {
            let level = row.level(column).filter(|level| place < self.named || level.len() <= LONGEST_LEVEL)?;
            let known = self.levels.get(level).cloned();
            Some(known.unwrap_or_else(|| {
                let new: Arc<str> = level.into();
                self.levels.insert(new.clone());
                new
            }))
        };
        columns.iter().enumerate().map(level).collect()
    }
}

/// Adds the next trials.
impl Extend<TrialResult> for TrialAccumulator {
    fn extend<I: IntoIterator<Item = TrialResult>>(&mut self, trials: I) {
        for result in trials {
            self.add(result);
        }
    }
}

/// Every column that a request or a chart names, and those that may change together with a factor.
fn columns(requests: &[ComparisonRequest]) -> BTreeSet<String> {
    let named = requests.iter().flat_map(ComparisonRequest::columns).map(|(_, column)| column);
    named.chain(USUAL_COLUMNS).map(ToOwned::to_owned).collect()
}
