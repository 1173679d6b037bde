//! A made-up analysis for the tests and the gallery. No number here was measured; the scatter is a fixed pattern.

use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_analysis::result::{
    Analysis, BalanceTerm, BudgetRow, Comparison, Contrast, ContrastKind, Curve, FitQuality, GroupBalance, GroupResult,
    Missing, Trend, TrialEstimate, TrialResult, VerdictKind, VesselLoss,
};
use calefact_analysis::settings::{ComparisonRequest, End, Settings};
use calefact_analysis::{Quantity, TrialAccumulator};
use calefact_data::apparatus::Exchanger;
use calefact_data::readings::Remark;
use calefact_data::{ApparatusNames, Channel, MoistureBasis, Readings, RegisterRow, TrialKind, Water};
use calefact_stats::{ErrorSources, Estimate, Interval, UncertainValue};
use std::collections::BTreeMap;

const LEVEL: f64 = 0.95;
const SCATTER: [f64; 9] = [0.4, -0.9, 1.1, -0.5, 0.2, -1.2, 0.7, 0.9, -0.6];
/// Stove, exchanger, burns, efficiency, conductance.
const STOVES: [(&str, &str, usize, f64, f64); 3] = [
    ("box", "helix-8", 4, 0.187, 38.0),
    ("rocket", "helix-12", 3, 0.312, 61.0),
    ("batch <XL> & long name", "flat-6", 2, 0.268, 47.0),
];

/// An estimate with a relative standard uncertainty.
fn estimate(value: f64, unit: &'static str, relative: f64, method: &'static str) -> Estimate {
    Estimate::student(value, unit, (value * relative).abs(), 12.0, LEVEL, method)
}

fn quantity(quantity: Quantity, value: f64, relative: f64) -> TrialEstimate {
    let estimate = estimate(value, quantity.unit(), relative, "first order");
    TrialEstimate { quantity, estimate, traced: UncertainValue::exact(value), note: String::new() }
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

fn balance(efficiency: f64) -> Vec<BalanceTerm> {
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
            energy: estimate(share * 96.0, "MJ", 0.06, "first order"),
            share: estimate(share, "1", 0.06, "first order"),
            traced: UncertainValue::exact(share),
            note: String::new(),
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
            residual_sd: 0.21,
            lag_one: Some(0.4),
            runs_p: Some(0.2),
            fits: true,
            verdict: "the model fits".into(),
        }),
        ..TrialResult::empty(row, 41, vec![])
    }
}

fn still(id: &str, kind: TrialKind, estimates: Vec<TrialEstimate>, curve: Curve) -> TrialResult {
    TrialResult { estimates, curve, ..TrialResult::empty(row(id, kind, None, None), 41, vec![]) }
}

fn trials() -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, (_, _, burns, ..)) in STOVES.iter().enumerate() {
        for b in 0..*burns {
            trials.push(burn(trials.len(), stove, b));
        }
    }
    trials[1].findings.push(
        Finding::warning_text(
            "caution-creosote",
            "flue gas after the coil stayed below 120 degC for 14 min: tar condenses there",
        )
        .trial("b02")
        .hint("burn hotter or bypass the coil until the flue is warm"),
    );
    trials[3].row.exclude = Some("door left open for ten minutes".into());
    trials[6].missing.push(Missing { quantity: Quantity::FlueLoss, reason: "no gas analysis in the log".into() });
    trials[6].estimates.retain(|e| e.quantity != Quantity::ExchangerConductance);
    let loss = vec![quantity(Quantity::LossCoefficient, 2.31, 0.03)];
    trials.push(still("s01", TrialKind::StandingLoss, loss, curve(71.0, 12.0, 26000.0, 0.05)));
    let ratio = vec![quantity(Quantity::ReferenceHeaterRatio, 0.985, 0.01)];
    trials.push(still("h01", TrialKind::ReferenceHeater, ratio, curve(14.0, 90.0, 4300.0, 0.1)));
    trials
}

fn group(factor: &str, level: &str, q: Quantity, members: &[&TrialResult]) -> GroupResult {
    let values: Vec<f64> = members.iter().filter_map(|t| t.get(q)).map(|e| e.estimate.value).collect();
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let sd = (values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt();
    let estimate = Estimate::student(
        mean,
        q.unit(),
        (sd * sd / n + (0.02 * mean).powi(2)).sqrt(),
        n - 1.0,
        LEVEL,
        "mean of burns",
    );
    let reach = 1.6 * estimate.interval.half_width();
    GroupResult {
        levels: vec![(factor.into(), level.into())],
        quantity: q,
        trials: members.iter().map(|t| t.row.trial.as_str().into()).collect(),
        mean: estimate,
        traced: UncertainValue::exact(mean),
        between_sd: Some(sd),
        between_sd_interval: None,
        predict: Some(Interval { lower: mean - reach, upper: mean + reach, confidence: LEVEL }),
    }
}

fn contrast(q: Quantity, a: &GroupResult, b: &GroupResult) -> Contrast {
    let u = 1.2 * libm::hypot(a.mean.std_uncertainty, b.mean.std_uncertainty);
    let estimate = Estimate::student(a.mean.value - b.mean.value, q.unit(), u, 6.0, LEVEL, "Welch");
    let settled = !estimate.interval.contains(0.0);
    let (x, y) = (&a.levels[0].1, &b.levels[0].1);
    let above = estimate.value > 0.0;
    let sentence = if settled {
        format!("stove {x} is {} stove {y} in {}", if above { "above" } else { "below" }, q.label())
    } else {
        format!(
            "no conclusion on {} between {x} and {y} from {} and {} burns",
            q.label(),
            a.trials.len(),
            b.trials.len()
        )
    };
    Contrast {
        quantity: q,
        factor: "stove".into(),
        a: x.clone(),
        b: y.clone(),
        n: (a.trials.len(), b.trials.len()),
        kind: ContrastKind::Difference,
        p_value: if settled { 0.004 } else { 0.21 },
        p_adjusted: if settled { 0.012 } else { 0.21 },
        adjustment: "Holm",
        verdict: if !settled {
            VerdictKind::NoConclusion
        } else if above {
            VerdictKind::Above
        } else {
            VerdictKind::Below
        },
        sentence,
        more_trials: (!settled).then_some(3),
        estimate,
    }
}

fn comparison(trials: &[TrialResult]) -> Comparison {
    let mut groups = Vec::new();
    let mut contrasts = Vec::new();
    for q in COMPARED {
        let of_stove = |stove: &str| -> Vec<&TrialResult> {
            trials.iter().filter(|t| t.usable() && t.row.stove.as_deref() == Some(stove)).collect()
        };
        let these: Vec<GroupResult> = STOVES.iter().map(|s| group("stove", s.0, q, &of_stove(s.0))).collect();
        for (i, j) in [(0, 1), (0, 2), (1, 2)] {
            contrasts.push(contrast(q, &these[i], &these[j]));
        }
        groups.extend(these);
    }
    Comparison {
        factor: "stove".into(),
        title: "stove".into(),
        levels: STOVES.iter().map(|s| s.0.to_owned()).collect(),
        groups,
        contrasts,
        balances: balances(trials),
        trends: vec![trend()],
        remarks: vec!["The exchanger changed with the stove: the two cannot be told apart here.".into()],
        reassurances: Vec::new(),
    }
}

/// Plain means of the shares by stove.
fn balances(trials: &[TrialResult]) -> Vec<GroupBalance> {
    let mut all = Vec::new();
    for (stove, ..) in STOVES {
        let own: Vec<&TrialResult> =
            trials.iter().filter(|t| t.usable() && t.row.stove.as_deref() == Some(stove)).collect();
        for (i, term) in balance(0.2).iter().enumerate() {
            let share = own.iter().map(|t| t.balance[i].share.value).sum::<f64>() / own.len() as f64;
            let share = estimate(share, "1", 0.05, "mean of burns");
            all.push(GroupBalance { level: stove.into(), term: term.term, n: own.len(), share });
        }
    }
    all
}

fn trend() -> Trend {
    let slope = Estimate::student(-0.0006, "1 per unit of damper", 0.0002, 30.0, LEVEL, "slope of the linear model");
    Trend {
        quantity: Quantity::ThermalEfficiency,
        factor: "damper".into(),
        per: "per unit of damper".into(),
        n: 9,
        estimate: slope,
        p_value: 0.005,
        sentence: "Thermal efficiency falls with damper: by 0.06 points per unit of damper, from 9 burns.".into(),
    }
}

fn budget() -> Vec<BudgetRow> {
    let sources = [
        ("scatter between burns", false, 0.52),
        ("moisture meter", true, 0.27),
        ("calorific value of spruce", true, 0.16),
        ("tank probe, offset", true, 0.05),
    ];
    sources
        .into_iter()
        .map(|(source, shared, share): (&str, bool, f64)| BudgetRow {
            quantity: Quantity::ThermalEfficiency,
            of: "rocket".into(),
            source: source.into(),
            shared,
            contribution: 0.011 * share.sqrt(),
            share,
        })
        .collect()
}

/// Builds that differ in length and passes.
fn exchangers() -> BTreeMap<String, Exchanger> {
    let build = |length: f64, passes: f64| {
        [("length", length), ("passes", passes), ("pitch", 0.04)].map(|(k, v)| (k.to_owned(), v)).into()
    };
    let of = |(length, passes): (f64, f64)| Exchanger { build: build(length, passes), ..Exchanger::default() };
    let sizes = [(6.0, 1.0), (11.0, 2.0), (8.0, 1.0)];
    STOVES.iter().zip(sizes).map(|(s, size)| (s.1.to_owned(), of(size))).collect()
}

fn settings() -> Settings {
    Settings { level: LEVEL, end: End::Peak, comparisons: vec![], ..Settings::default() }
}

/// The quantities that are compared.
const COMPARED: [Quantity; 4] =
    [Quantity::ThermalEfficiency, Quantity::FuelPerHeat, Quantity::ReferenceTime, Quantity::HeatingRate];

/// Trials as an analysis holds them.
pub(crate) fn gathered(trials: impl IntoIterator<Item = TrialResult>) -> TrialAccumulator {
    let request =
        ComparisonRequest { quantities: COMPARED.to_vec(), ..ComparisonRequest::of("stove", TrialKind::Burn) };
    let settings = Settings { comparisons: vec![request], ..Settings::default() };
    let mut gathered = TrialAccumulator::new(&settings, &ErrorSources::new());
    gathered.extend(trials);
    gathered
}

/// Findings of no trial.
fn findings() -> Vec<Finding> {
    vec![
        Finding::error_text("no-log", "the register names a log that is not there")
            .trial("b10")
            .at("trials.csv", Some(11), None)
            .action("trial left out")
            .hint("add the file, or remove the row"),
        Finding::note_text("assumed-calorific-value", "calorific value of spruce taken from its class").at(
            "dataset.toml",
            Some(20),
            Some(1),
        ),
    ]
}

/// The analysis.
pub(crate) fn analysis() -> Analysis {
    let trials = trials();
    let comparisons = vec![comparison(&trials)];
    let TrialAccumulator { trials, shown, gaps, noticed: of_trials, .. } = gathered(trials);
    let (shown, curves) = shown.finish();
    let mut noticed: FindingSummary = findings().iter().collect();
    noticed.append(of_trials);
    Analysis {
        name: "gallery".into(),
        title: "Three stoves on one drum".into(),
        invented: true,
        level: LEVEL,
        settings: settings(),
        currency: None,
        names: ApparatusNames::none(),
        exchangers: exchangers(),
        method: vec![
            "Each burn is reduced from the first reading to the highest tank temperature.".into(),
            "Means carry scatter between burns and the errors that all burns share.".into(),
        ],
        losses: vec![VesselLoss {
            vessel: "drum".into(),
            trials: vec!["s01".into()],
            estimate: estimate(2.31, "W/K", 0.03, "cooling curve"),
            traced: UncertainValue::exact(2.31),
            sources: ErrorSources::new(),
        }],
        comparisons,
        trials,
        shown,
        curves,
        gaps,
        cautions: vec![],
        budget: budget(),
        advice: vec![
            "A better scale would not help; a moisture meter reading to 1 % would cut the interval by a tenth.".into(),
        ],
        findings: findings(),
        noticed,
    }
}

/// Readings of a trial: five rows, one cell blank, one remark that needs quoting.
pub(crate) fn readings() -> Readings {
    let mut channels = BTreeMap::new();
    channels.insert(Channel::Tank, vec![14.1, 20.25, f64::NAN, 33.0, 1.0 / 3.0]);
    channels.insert(Channel::FlueO2, vec![0.12; 5]);
    Readings {
        elapsed_s: vec![0.0, 600.0, 1200.0, 1800.5, 2400.0],
        channels,
        flags: vec![0, 0, 1, 0, 4],
        events: vec![Remark { row: 1, text: "stoked, \"damper\" open".into() }],
        notes: vec![],
    }
}
