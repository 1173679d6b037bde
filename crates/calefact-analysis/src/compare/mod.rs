//! Comparing groups of trials: means, contrasts, verdicts, budget.
//!
//! Steps: choose trials -> groups by level -> means with shared errors kept -> pairwise contrasts with shared errors
//! cancelled -> verdicts in words. Nothing here looks at a log.

pub mod balances;
pub mod budget;
pub mod contrasts;
pub mod currency;
pub mod groups;
pub mod remarks;
pub mod rig_model;
pub mod verdict;

use crate::context::shared_sources;
use crate::result::{Analysis, Comparison, TrialResult, VesselLoss};
use crate::settings::{ComparisonRequest, Settings};
use crate::{Quantity, cautions};
use calefact_data::{Apparatus, Finding};
use calefact_stats::SourceBook;

/// What names an analysis.
#[derive(Debug, Clone, Default)]
pub struct AnalysisHeader {
    /// Pipeline name.
    pub name: String,
    /// Title.
    pub title: String,
    /// Whether any dataset is invented.
    pub invented: bool,
}

/// Quantities compared when a request names none.
pub const DEFAULT_QUANTITIES: [Quantity; 5] = [
    Quantity::ThermalEfficiency,
    Quantity::FuelPerHeat,
    Quantity::HeatInput,
    Quantity::ReferenceTime,
    Quantity::ReferenceFuel,
];

/// Compares reduced trials. Shared sources come from the apparatus; the trials bring their own.
pub fn compare(
    header: AnalysisHeader,
    settings: &Settings,
    apparatus: &Apparatus,
    trials: Vec<TrialResult>,
    losses: Vec<VesselLoss>,
    mut findings: Vec<Finding>,
) -> Analysis {
    let mut sources = shared_sources(apparatus);
    sources.extend(losses.iter().flat_map(|l| l.sources.clone()));
    sources.extend(trials.iter().flat_map(|t| t.sources.clone()));
    let comparisons: Vec<Comparison> =
        settings.comparisons.iter().map(|request| one(request, settings, &trials, &mut sources)).collect();
    let (budget, advice) = budget::draw(&trials, &comparisons, &sources);
    findings.extend(remarks::findings(settings, &comparisons));
    findings.extend(cautions::general::findings(&trials));
    let cautions = cautions::collect(&trials);
    findings.extend(rig_model::findings(&trials));
    let mut analysis = Analysis {
        name: header.name,
        title: header.title,
        invented: header.invented,
        level: settings.level,
        settings: settings.clone(),
        method: remarks::method(settings),
        currency: currency::common(apparatus),
        exchangers: apparatus.exchangers.clone(),
        trials,
        losses,
        comparisons,
        cautions,
        budget,
        advice,
        findings,
        sources,
    };
    currency::name(&mut analysis);
    analysis
}

fn one(
    request: &ComparisonRequest,
    settings: &Settings,
    trials: &[TrialResult],
    sources: &mut SourceBook,
) -> Comparison {
    let chosen = groups::choose(request, trials);
    let levels = groups::levels(&request.factor, &chosen);
    let balances = balances::balances(&request.factor, &levels, &chosen, sources, settings.level);
    let quantities = if request.quantities.is_empty() { &DEFAULT_QUANTITIES[..] } else { &request.quantities[..] };
    let mut comparison = Comparison {
        factor: request.factor.clone(),
        title: groups::title(request),
        levels,
        groups: Vec::new(),
        contrasts: Vec::new(),
        balances,
        remarks: Vec::new(),
    };
    for &quantity in quantities {
        let cells = groups::cells(request, &comparison.levels, &chosen, quantity, sources);
        comparison.contrasts.extend(contrasts::pairwise(request, quantity, &cells, sources, settings.level));
        comparison.groups.extend(cells.into_iter().map(|cell| cell.finish(&request.factor, settings.level)));
    }
    comparison.remarks = remarks::design(request, &chosen, &comparison);
    comparison
}
