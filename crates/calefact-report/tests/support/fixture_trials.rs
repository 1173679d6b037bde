//! The trials of the made-up analysis. No number here was measured; the scatter is a fixed pattern.

use calefact_analysis::Quantity;
use calefact_analysis::fact::{CautionFact, Derivation, ErrorPropagation, EstimateMethod, Lack};
use calefact_analysis::finding::Finding;
use calefact_analysis::phases::SteadyPart;
use calefact_analysis::result::{BalanceTerm, Curve, FitQuality, Missing, TrialEstimate, TrialResult};
use calefact_data::{MoistureBasis, RegisterRow, TrialKind, Water};
use calefact_stats::{Estimate, UncertainValue};
use std::collections::BTreeMap;

pub(super) const LEVEL: f64 = 0.95;
const SCATTER: [f64; 9] = [0.4, -0.9, 1.1, -0.5, 0.2, -1.2, 0.7, 0.9, -0.6];
/// Stove, exchanger, burns, efficiency, conductance.
pub(super) const STOVES: [(&str, &str, usize, f64, f64); 3] = [
    ("box", "helix-8", 4, 0.187, 38.0),
    ("rocket", "helix-12", 3, 0.312, 61.0),
    ("batch <XL> & long name", "flat-6", 2, 0.268, 47.0),
];

/// An estimate with a relative standard uncertainty.
pub(super) fn estimate(value: f64, unit: &'static str, relative: f64) -> Estimate {
    Estimate::student(value, unit, (value * relative).abs(), 12.0, LEVEL)
}

fn quantity(quantity: Quantity, value: f64, relative: f64) -> TrialEstimate {
    let estimate = estimate(value, quantity.unit(), relative);
    let method = EstimateMethod { derivation: Derivation::EnergyRatio, propagation: ErrorPropagation::FirstOrder };
    TrialEstimate { quantity, estimate, traced: UncertainValue::exact(value), method, notes: Vec::new() }
}

fn row(trial: &str, kind: TrialKind, stove: Option<&str>, exchanger: Option<&str>) -> RegisterRow {
    RegisterRow {
        trial: trial.into(),
        kind,
        date: Some("2031-03-04".into()),
        log: format!("logs/{trial}.csv").into(),
        stove: stove.map(Into::into),
        fuel: stove.map(|_| "spruce".into()),
        exchanger: exchanger.map(Into::into),
        vessel: "drum".into(),
        water: Water::Volume(0.16),
        fuel_mass: stove.map(|_| 6.2),
        fuel_moisture: stove.map(|_| 0.18),
        moisture_basis: stove.map(|_| MoistureBasis::Wet),
        kindling_mass: None,
        leftover_fuel: None,
        leftover_char: None,
        heater_power: None,
        ambient: Some(12.0),
        altitude: None,
        block: None,
        operator: None,
        exclude: None,
        note: None,
        extra: BTreeMap::new(),
        origin: std::sync::Arc::default(),
        line: 2,
    }
}

/// A saturating rise (or a decay) with a wobble.
fn curve(from: f64, limit: f64, tau: f64, wobble: f64) -> Curve {
    let at = |t: f64| limit + (from - limit) * libm::exp(-t / tau);
    let measured = (0..=40).map(|i| f64::from(i) * 90.0).map(|t| (t, at(t) + wobble * libm::sin(t / 300.0))).collect();
    let fitted = (0..=40).map(|i| f64::from(i) * 90.0).map(|t| (t, at(t))).collect();
    Curve { measured, fitted, window: (0.0, 3600.0) }
}

pub(super) fn balance(efficiency: f64) -> Vec<BalanceTerm> {
    let terms = [
        ("stored", efficiency * 0.93),
        ("standing_loss", efficiency * 0.07),
        ("flue_sensible", 0.31),
        ("flue_latent", 0.09),
        ("flue_co", 0.018),
        ("leftover_char", 0.05),
        ("unaccounted", 1.0 - efficiency - 0.468),
    ];
    terms
        .into_iter()
        .map(|(term, share)| BalanceTerm {
            term,
            energy: estimate(share * 96.0, "MJ", 0.06),
            share: estimate(share, "1", 0.06),
            traced: UncertainValue::exact(share),
            notes: Vec::new(),
        })
        .collect()
}

fn burn(index: usize, stove: usize, burn: usize) -> TrialResult {
    let (name, exchanger, _, efficiency, conductance) = STOVES[stove];
    let e = efficiency * (1.0 + 0.05 * SCATTER[index % 9]);
    let ua = conductance * (1.0 + 0.03 * SCATTER[(index + 4) % 9]);
    let gas = 0.006 + 0.0012 * burn as f64 + 0.0005 * SCATTER[index % 9];
    let row = row(&format!("b{:02}", index + 1), TrialKind::Burn, Some(name), Some(exchanger));
    TrialResult {
        estimates: vec![
            quantity(Quantity::HeatingRate, 3.1 * e, 0.02),
            quantity(Quantity::HeatDelivered, 96.0 * e, 0.012),
            quantity(Quantity::FuelEnergy, 96.0, 0.03),
            quantity(Quantity::ThermalEfficiency, e, 0.034),
            quantity(Quantity::FuelPerHeat, 0.232 / e, 0.034),
            quantity(Quantity::ExchangerConductance, ua, 0.05),
            quantity(Quantity::ExchangerConductanceArea, 1.3 * ua, 0.05),
            quantity(Quantity::GasFlow, gas, 0.07),
            quantity(Quantity::ReferenceTime, 1450.0 / e, 0.03),
        ],
        balance: balance(e),
        curve: curve(14.0, 60.0 + 170.0 * e, 2900.0, 0.3),
        fit: Some(FitQuality {
            n: 41,
            residual_sd_k: 0.21,
            share_of_range: 0.005,
            lag_one: Some(0.4),
            pattern_p: Some(0.2),
            wanders: false,
            fits: true,
        }),
        ..TrialResult::empty(row, 41, vec![])
    }
}

fn still(id: &str, kind: TrialKind, estimates: Vec<TrialEstimate>, curve: Curve) -> TrialResult {
    TrialResult { estimates, curve, ..TrialResult::empty(row(id, kind, None, None), 41, vec![]) }
}

pub(super) fn trials() -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, (_, _, burns, ..)) in STOVES.iter().enumerate() {
        for b in 0..*burns {
            trials.push(burn(trials.len(), stove, b));
        }
    }
    let part = SteadyPart { start_s: 600.0, end_s: 1800.0, certain: true };
    trials[1]
        .findings
        .push(Finding::warning(CautionFact::Creosote { share: 0.7, part, lowest_degc: 88.0 }).trial("b02"));
    trials[3].row.exclude = Some("door left open for ten minutes".into());
    trials[6].missing.push(Missing { quantity: Quantity::FlueLoss, lacks: vec![Lack::Composition] });
    trials[6].estimates.retain(|e| e.quantity != Quantity::ExchangerConductance);
    let loss = vec![quantity(Quantity::LossCoefficient, 2.31, 0.03)];
    trials.push(still("s01", TrialKind::StandingLoss, loss, curve(71.0, 12.0, 26000.0, 0.05)));
    let ratio = vec![quantity(Quantity::ReferenceHeaterRatio, 0.985, 0.01)];
    trials.push(still("h01", TrialKind::ReferenceHeater, ratio, curve(14.0, 90.0, 4300.0, 0.1)));
    trials
}
