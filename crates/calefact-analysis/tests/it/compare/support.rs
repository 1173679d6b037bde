//! Trials made up in memory, with the errors a check needs and no others.

use calefact_analysis::fact::{Derivation, ErrorPropagation, EstimateMethod};
use calefact_analysis::result::{Comparison, Contrast, ContrastKind, GroupResult, TrialEstimate, TrialResult};
use calefact_analysis::settings::{Combine, ComparisonRequest};
use calefact_analysis::{Analysis, AnalysisHeader, Quantity, Settings, TrialAccumulator, compare};
use calefact_data::{Apparatus, RegisterRow, TrialKind, Water};
use calefact_stats::{ErrorSources, Estimate, Shape, SourceInfo, UncertainValue};

/// The quantity of most checks.
pub(crate) const Q: Quantity = Quantity::ThermalEfficiency;

/// A burn with levels in the named columns.
pub(crate) fn burn(trial: &str, value: f64, columns: &[(&str, &str)]) -> TrialResult {
    let mut row = RegisterRow {
        line: 2,
        ..RegisterRow::bare(trial, TrialKind::Burn, format!("logs/{trial}.csv"), "drum", Water::Volume(0.16))
    };
    for (column, level) in columns {
        match *column {
            "stove" => row.stove = Some((*level).to_owned()),
            "fuel" => row.fuel = Some((*level).to_owned()),
            "block" => row.block = Some((*level).to_owned()),
            _ => drop(row.extra.insert((*column).to_owned(), (*level).to_owned())),
        }
    }
    let mut result = TrialResult::empty(row, 5, Vec::new());
    set(&mut result, Q, UncertainValue::new(value, format!("own:{trial}"), 0.001));
    result
}

const METHOD: EstimateMethod =
    EstimateMethod { derivation: Derivation::EnergyRatio, propagation: ErrorPropagation::FirstOrder };

/// Sets the value of a quantity.
pub(crate) fn set(trial: &mut TrialResult, quantity: Quantity, traced: UncertainValue) {
    let u = traced.std_uncertainty();
    let estimate = Estimate::student(traced.value, quantity.unit(), u, f64::INFINITY, 0.95);
    trial.estimates.retain(|e| e.quantity != quantity);
    trial.estimates.push(TrialEstimate { quantity, estimate, traced, method: METHOD, notes: Vec::new() });
}

/// Gives every trial of the list an error in common: `part` of its value.
pub(crate) fn share(trials: &mut [TrialResult], source: &str, part: impl Fn(f64) -> f64) {
    let info = SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Normal };
    let book = ErrorSources::from([(source.into(), info)]);
    for trial in trials {
        let traced = trial.estimates[0].traced.clone();
        let value = traced.value;
        set(trial, Q, traced.with(source, part(value)));
        trial.sources.extend(book.clone());
    }
}

/// A request for the factor.
pub(crate) fn request(factor: &str) -> ComparisonRequest {
    ComparisonRequest { quantities: vec![Q], ..ComparisonRequest::new(factor, TrialKind::Burn) }
}

pub(crate) fn settings(request: ComparisonRequest, combine: Combine) -> Settings {
    Settings { comparisons: vec![request], combine, ..Settings::default() }
}

/// Trials as comparing wants them.
pub(crate) fn gathered(settings: &Settings, trials: Vec<TrialResult>) -> TrialAccumulator {
    let sources: ErrorSources = trials.iter().flat_map(|t| t.sources.clone()).collect();
    let mut gathered = TrialAccumulator::new(settings, &sources);
    gathered.extend(trials);
    gathered
}

/// The analysis of one comparison.
pub(crate) fn analysis(request: ComparisonRequest, combine: Combine, trials: Vec<TrialResult>) -> Analysis {
    let settings = settings(request, combine);
    let gathered = gathered(&settings, trials);
    compare(AnalysisHeader::default(), &settings, &Apparatus::default(), gathered, Vec::new(), Vec::new())
}

/// The comparison alone.
pub(crate) fn comparison(request: ComparisonRequest, trials: Vec<TrialResult>) -> Comparison {
    analysis(request, Combine::Mean, trials).comparisons.remove(0)
}

/// The contrast of two levels.
pub(crate) fn contrast<'c>(comparison: &'c Comparison, a: &str, b: &str, kind: ContrastKind) -> &'c Contrast {
    let found = comparison.contrasts.iter().find(|c| c.a == a && c.b == b && c.kind == kind);
    found.expect("no such contrast")
}

/// The mean of a level.
pub(crate) fn group<'c>(comparison: &'c Comparison, level: &str) -> &'c GroupResult {
    comparison.groups.iter().find(|g| g.levels[0].1 == level).expect("no such group")
}

/// `n` values with exactly this mean and standard deviation.
pub(crate) fn exact(n: usize, mean: f64, sd: f64) -> Vec<f64> {
    let z: Vec<f64> = (0..n).map(|i| i as f64 - 0.5 * (n as f64 - 1.0)).collect();
    let s = (z.iter().map(|z| z * z).sum::<f64>() / (n as f64 - 1.0)).sqrt();
    z.iter().map(|z| mean + sd * z / s).collect()
}

/// Whether `got` is `want` within `tolerance`.
#[track_caller]
pub(crate) fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} is not {want}");
}
