//! A made-up analysis for the tests and the gallery. No number here was measured; the scatter is a fixed pattern.

#[path = "fixture_builds.rs"]
mod fixture_builds;
#[path = "fixture_forecasts.rs"]
mod fixture_forecasts;
#[path = "fixture_trials.rs"]
mod fixture_trials;

use calefact_analysis::fact::{ErrorSource, InstrumentError};
use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_analysis::result::{
    Adjustment, Advice, Analysis, Assumptions, BudgetOwner, BudgetRow, Comparison, Confounded, Contrast, ContrastKind,
    Effect, ErrorOrigin, GroupBalance, GroupResult, Method, Remark, SampleSizeAdvice, Step, Subject, Trend,
    TrialResult, VerdictKind, VesselLoss,
};
use calefact_analysis::settings::{ComparisonRequest, End, Settings};
use calefact_analysis::{Quantity, TrialAccumulator};
use calefact_data::apparatus::Exchanger;
use calefact_data::fact::{File, Log, ReadFailure};
use calefact_data::readings::Remark as ReadingRemark;
use calefact_data::{ApparatusNames, Channel, Readings, TrialKind};
use calefact_stats::{ErrorSources, Estimate, Interval, UncertainValue};
use fixture_trials::{LEVEL, STOVES, balance, estimate, trials};
use std::collections::BTreeMap;

fn group(factor: &str, level: &str, q: Quantity, members: &[&TrialResult]) -> GroupResult {
    let values: Vec<f64> = members.iter().filter_map(|t| t.get(q)).map(|e| e.estimate.value).collect();
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let sd = (values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt();
    let u = (sd * sd / n + (0.02 * mean).powi(2)).sqrt();
    let estimate = Estimate::student(mean, q.unit(), u, n - 1.0, LEVEL);
    let reach = 1.6 * estimate.interval.half_width();
    GroupResult {
        levels: vec![(factor.into(), level.into())],
        quantity: q,
        trials: members.iter().map(|t| t.row.trial.as_str().into()).collect(),
        mean: estimate,
        method: Method::Mean,
        traced: UncertainValue::exact(mean),
        between_sd: Some(sd),
        between_sd_interval: None,
        predict: Some(Interval { lower: mean - reach, upper: mean + reach, confidence: LEVEL }),
    }
}

fn contrast(q: Quantity, a: &GroupResult, b: &GroupResult) -> Contrast {
    let u = 1.2 * libm::hypot(a.mean.std_uncertainty, b.mean.std_uncertainty);
    let estimate = Estimate::student(a.mean.value - b.mean.value, q.unit(), u, 6.0, LEVEL);
    let settled = !estimate.interval.contains(0.0);
    let (x, y) = (&a.levels[0].1, &b.levels[0].1);
    let above = estimate.value > 0.0;
    Contrast {
        quantity: q,
        factor: "stove".into(),
        a: x.clone(),
        b: y.clone(),
        n: (a.trials.len(), b.trials.len()),
        means: (a.mean.value, b.mean.value),
        assumed: Vec::new(),
        kind: ContrastKind::Difference,
        p_value: if settled { 0.004 } else { 0.21 },
        p_pairs: if settled { 0.012 } else { 0.21 },
        p_adjusted: if settled { 0.012 } else { 0.21 },
        adjustment: Adjustment::Holm,
        verdict: if !settled {
            VerdictKind::NoConclusion
        } else if above {
            VerdictKind::Above
        } else {
            VerdictKind::Below
        },
        main: q == Quantity::ThermalEfficiency,
        planned: None,
        margin: None,
        sample_size: (!settled).then_some(SampleSizeAdvice::Further { trials: 3, fewest: 1 }),
        confounded: vec![],
        traced: UncertainValue::exact(estimate.value),
        estimate,
        method: Method::Welch,
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
        kind: TrialKind::Burn,
        only: BTreeMap::new(),
        levels: STOVES.iter().map(|s| s.0.to_owned()).collect(),
        groups,
        contrasts,
        balances: balances(trials),
        trends: vec![trend()],
        remarks: vec![Remark::Confounded(vec![Confounded {
            effect: Effect { column: "exchanger".into(), level: Some("coil".into()) },
            with: vec![Effect { column: "stove".into(), level: Some("rocket".into()) }],
        }])],
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
            let share = estimate(share, "1", 0.05);
            let method = Method::Mean;
            all.push(GroupBalance { level: stove.into(), term: term.term, n: own.len(), share, method });
        }
    }
    all
}

fn trend() -> Trend {
    let slope = Estimate::student(-0.0006, "1", 0.0002, 30.0, LEVEL);
    Trend {
        quantity: Quantity::ThermalEfficiency,
        factor: "damper".into(),
        step: Step::Unit,
        n: 9,
        estimate: slope.clone(),
        p_value: 0.005,
        p_adjusted: 0.02,
        confounded: vec![],
        traced: UncertainValue::exact(slope.value),
    }
}

fn budget() -> Vec<BudgetRow> {
    let instrument = |id: &str, error| ErrorSource::Instrument { id: id.into(), error };
    let sources = [
        (ErrorSource::TrialScatter, false, 0.52),
        (instrument("moisture-meter", InstrumentError::Offset), true, 0.27),
        (ErrorSource::CalorificValue { fuel: "spruce".into() }, true, 0.16),
        (instrument("tank-probe", InstrumentError::Low), true, 0.05),
    ];
    sources
        .into_iter()
        .map(|(source, shared, share): (ErrorSource, bool, f64)| BudgetRow {
            quantity: Quantity::ThermalEfficiency,
            owner: BudgetOwner::Group { comparison: 0, levels: vec![("stove".into(), "rocket".into())] },
            source,
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
        ComparisonRequest { quantities: COMPARED.to_vec(), ..ComparisonRequest::new("stove", TrialKind::Burn) };
    let settings = Settings { comparisons: vec![request], ..Settings::default() };
    let mut gathered = TrialAccumulator::new(&settings, &ErrorSources::new());
    gathered.extend(trials);
    gathered
}

/// Findings of no trial.
fn findings() -> Vec<Finding> {
    let no_log = Log::Unreadable { log: "logs/b10.csv".into(), failure: ReadFailure::NotFound };
    let guessed = File::EncodingGuessed("windows-1252");
    vec![
        Finding::error(calefact_data::Fact::from(no_log)).trial("b10").at("trials.csv", Some(11), None),
        Finding::note(calefact_data::Fact::from(guessed)).at("logs/b03.csv", None, None),
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
        forecasts: fixture_forecasts::forecasts(),
        book: Vec::new(),
        name: "gallery".into(),
        title: "Three stoves on one drum".into(),
        invented: true,
        level: LEVEL,
        settings: settings(),
        currency: None,
        names: ApparatusNames::none(),
        exchangers: exchangers(),
        losses: vec![VesselLoss {
            vessel: "drum".into(),
            trials: vec!["s01".into()],
            estimate: estimate(2.31, "W/K", 0.03),
            traced: UncertainValue::exact(2.31),
            sources: ErrorSources::new(),
        }],
        comparisons,
        builds: fixture_builds::builds(),
        trials,
        shown,
        curves,
        gaps,
        budget: budget(),
        assumptions: Assumptions::default(),
        advice: vec![Advice::Negligible {
            quantity: Quantity::ThermalEfficiency,
            subject: Subject::Differences,
            instruments: vec![ErrorOrigin::Instrument("scale".into())],
        }],
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
        events: vec![ReadingRemark { row: 1, text: "stoked, \"damper\" open".into() }],
        ..Readings::default()
    }
}
