//! Every trial with its main quantities, and what could not be given.

use super::grid::{Grid, Names, Text};
use crate::pick;
use crate::words::{self, Wording, capital, heading, missing_lines, short_quantity_name, trial_list};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Analysis, TrialResult};
use calefact_data::ApparatusKind;

/// Trials shown in the page; more are in `estimates.csv`.
const MOST: usize = calefact_analysis::shown::MOST;
/// Quantities shown.
const COLUMNS: usize = 8;
/// Lines on quantities that could not be given.
const MOST_GAPS: usize = 40;

/// The trials' section.
pub(super) struct Section {
    /// The table.
    pub(super) grid: Grid,
    /// Trials not shown.
    pub(super) left: usize,
    /// "No moisture basis in the register: thermal efficiency of b03, b04."
    pub(super) missing: Vec<Text>,
    /// Trials whose model does not fit, with the verdict on the first.
    pub(super) misfits: Option<Text>,
}

/// Builds the section.
pub(super) fn section(w: &Wording<'_>, analysis: &Analysis) -> Section {
    let quantities = columns(analysis);
    let mut head =
        vec![("Trial".to_owned(), false), ("Kind".to_owned(), false), ("Stove, fuel, exchanger".to_owned(), false)];
    head.extend(quantities.iter().map(|q| (heading(&capital(short_quantity_name(*q)), &unit(w, analysis, *q)), true)));
    head.push(("Used".to_owned(), false));
    Section {
        grid: Grid {
            caption: "Every trial: value ± half width of its interval, or the interval where a bound cuts it."
                .to_owned(),
            head,
            rows: analysis.shown.iter().take(MOST).map(|t| row(w, t, &quantities)).collect(),
            names: Names::Here,
        },
        left: analysis.trials.len().saturating_sub(MOST),
        missing: missing_lines(w, analysis).into_iter().take(MOST_GAPS).collect(),
        misfits: misfits(w, analysis),
    }
}

/// Trials the heat-balance model does not fit: their number and names, and the verdict on the first.
fn misfits(w: &Wording<'_>, analysis: &Analysis) -> Option<Text> {
    let bad = || analysis.trials.iter().filter_map(|t| Some((&*t.trial, t.misfit.as_ref()?)));
    let (first, fit) = bad().next()?;
    let verdict = words::trial::fit(w, fit);
    let names: Vec<&str> = bad().map(|(trial, _)| trial).collect();
    Some(format!("{}. The first, {first}: {verdict}", trial_list(&names)))
}

/// Quantities that are compared come first, then those that burns usually have; loss coefficients and rig checks have tables of their own.
fn columns(analysis: &Analysis) -> Vec<Quantity> {
    let compared = analysis.comparisons.iter().flat_map(pick::quantities);
    let usual = [Quantity::HeatDelivered, Quantity::ThermalEfficiency, Quantity::FuelPerHeat, Quantity::HeatingRate];
    let mut chosen: Vec<Quantity> = Vec::new();
    for quantity in compared.chain(usual) {
        let present = analysis.shown.iter().any(|t| t.get(quantity).is_some());
        if present && !chosen.contains(&quantity) && chosen.len() < COLUMNS {
            chosen.push(quantity);
        }
    }
    chosen
}

/// Unit of a column: that of the first trial that has the quantity.
fn unit(w: &Wording<'_>, analysis: &Analysis, quantity: Quantity) -> String {
    let first = analysis.shown.iter().find_map(|t| t.get(quantity));
    first.map_or_else(String::new, |e| w.unit_of_estimate(quantity, &e.estimate).symbol)
}

fn row(w: &Wording<'_>, trial: &TrialResult, quantities: &[Quantity]) -> Vec<Text> {
    let row = &trial.row;
    let mut cells = vec![row.trial.clone(), row.kind.name().to_owned(), apparatus(w, trial)];
    cells.extend(quantities.iter().map(|q| cell(w, trial, *q)));
    cells.push(match (&row.exclude, trial.usable()) {
        (Some(why), _) => format!("left out: {why}"),
        (None, true) => "yes".to_owned(),
        (None, false) => "no: see findings".to_owned(),
    });
    cells
}

/// Stove, fuel and exchanger of a trial; the vessel where there is none of them.
fn apparatus(w: &Wording<'_>, trial: &TrialResult) -> Text {
    let row = &trial.row;
    let known = [
        (ApparatusKind::Stove, &row.stove),
        (ApparatusKind::Fuel, &row.fuel),
        (ApparatusKind::Exchanger, &row.exchanger),
    ];
    let names: Vec<String> =
        known.into_iter().filter_map(|(kind, id)| Some(w.apparatus(kind, id.as_deref()?))).collect();
    if names.is_empty() { w.apparatus(ApparatusKind::Vessel, &row.vessel) } else { names.join(", ") }
}

fn cell(w: &Wording<'_>, trial: &TrialResult, quantity: Quantity) -> Text {
    trial.get(quantity).map_or_else(String::new, |e| {
        let shown = w.estimate(quantity, &e.estimate);
        let exact = e.estimate.interval.half_width() == 0.0;
        if exact { shown.value } else { format!("{} {}", shown.value, shown.spread) }
    })
}
