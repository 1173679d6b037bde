//! Checks of a reduced trial against what nature allows, and findings on what the reader should know.

use crate::Quantity;
use crate::context::Context;
use crate::finding::Finding;
use crate::result::{TrialEstimate, TrialResult};
use crate::series::Series;
use calefact_data::TrialKind;
use calefact_physics::air;

/// Kelvin above the boiling point of the standard atmosphere that weather can explain (3 kPa are 0.85 K).
const WEATHER_MARGIN: f64 = 1.0;

/// All findings of a reduced trial.
pub fn after(result: &TrialResult, series: &Series, context: &Context) -> Vec<Finding> {
    let row = &result.row;
    let found = [
        above_boiling(result, series, context),
        heat_above_supply(result),
        efficiency_not_positive(result),
        loss_not_positive(result),
        misfit(result),
        excluded(result),
    ];
    let placed = |f: Finding| f.trial(row.trial.clone()).at(row.log.clone(), None, None);
    found.into_iter().flatten().map(placed).collect()
}

fn above_boiling(result: &TrialResult, series: &Series, context: &Context) -> Option<Finding> {
    let altitude = result.row.altitude.or(context.apparatus.site.altitude_m);
    let boiling = air::boiling_point(altitude.unwrap_or(0.0));
    let u = context.errors.column("tank").map_or(0.0, |e| e.high.iter().map(|(_, u)| u * u).sum::<f64>().sqrt());
    let (i, highest) = series.tank.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
    if *highest <= boiling + WEATHER_MARGIN + 2.0 * u {
        return None;
    }
    let place = altitude.map_or_else(|| "at sea level (no altitude stated)".into(), |a| format!("at {a:.0} m"));
    Some(
        Finding::error_text(
            "above-boiling",
            format!(
                "the tank reads {highest:.1} degC after {:.0} s, but water boils at {boiling:.1} degC {place}",
                series.t[i]
            ),
        )
        .action("trial left out of comparisons")
        .hint("check the unit of the tank column, the probe, and the site's altitude; never heat a closed vessel"),
    )
}

/// First law: no more heat than was supplied, beyond what the uncertainties can explain.
fn heat_above_supply(result: &TrialResult) -> Option<Finding> {
    use Quantity as Q;
    let (quantity, supply, hint) = match result.row.kind {
        TrialKind::Burn => (
            [Q::ThermalEfficiency, Q::StoredFraction, Q::ThermalEfficiencyUncredited],
            "the energy of the fuel",
            "check fuel mass and its unit, leftovers, moisture and its basis, and the amount of water",
        ),
        _ => (
            [Q::ReferenceHeaterRatio, Q::StoredFraction, Q::StoredFraction],
            "the metered electricity",
            "check the heater's power and the amount of water",
        ),
    };
    let over = |e: &&TrialEstimate| e.estimate.value - 2.0 * e.estimate.std_uncertainty > 1.0;
    let found = quantity.iter().filter_map(|q| result.get(*q)).find(over)?;
    Some(
        Finding::error_text(
            "heat-above-supply",
            format!(
                "the heat found is {:.0} % of {supply}: no stove makes heat from nothing",
                100.0 * found.estimate.value
            ),
        )
        .action("trial left out of comparisons")
        .hint(hint),
    )
}

fn efficiency_not_positive(result: &TrialResult) -> Option<Finding> {
    let energy = result.get(Quantity::FuelEnergy)?.estimate.value;
    let stored = result.get(Quantity::HeatStored)?.estimate.value;
    let what = match (energy > 0.0, stored > 0.0) {
        (true, true) => return None,
        (false, _) => format!("the fuel energy less what was left comes to {energy:.2} MJ"),
        (true, false) => format!("the water took up {stored:.2} MJ: it did not get warmer"),
    };
    Some(
        Finding::error_text("no-heat-gained", what)
            .action("trial left out of comparisons")
            .hint("check the kind of trial, the weighings and the tank column"),
    )
}

fn loss_not_positive(result: &TrialResult) -> Option<Finding> {
    let loss = result.get(Quantity::LossCoefficient)?;
    (loss.estimate.value <= 0.0).then(|| {
        Finding::error_text("loss-not-positive", "the vessel does not cool towards the air in this standing-loss trial")
            .action("trial left out of the pooled loss coefficient")
            .hint("was heat still going in, or the air warmer than the tank?")
    })
}

fn misfit(result: &TrialResult) -> Option<Finding> {
    let fit = result.fit.as_ref().filter(|f| !f.fits)?;
    Some(Finding::note_text("model-misfit", format!("constant heat flow and constant loss: {}", fit.verdict)).action(
        "heat flow given as a mean with what that leaves open, heating rate taken from the readings around its temperature",
    ))
}

fn excluded(result: &TrialResult) -> Option<Finding> {
    let reason = result.row.exclude.as_ref()?;
    Some(Finding::note_text("excluded", format!("left out of comparisons by the register: {reason}")))
}
