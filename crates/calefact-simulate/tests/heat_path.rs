//! The heat path against invented burns whose truth is known: each quantity lies within its interval about as often as
//! the interval says.

use calefact_analysis::{Quantity, Reducer, Settings, pool_losses};
use calefact_data::TrialKind;
use calefact_simulate::{Rig, TrialPlan, nursery};
use std::collections::BTreeMap;

fn settings() -> Settings {
    Settings { ..Settings::default() }
}

const JUDGED: [Quantity; 9] = [
    Quantity::ExchangerEffectiveness,
    Quantity::ExchangerConductance,
    Quantity::ExchangerConductanceArea,
    Quantity::CoilPower,
    Quantity::CoilFlow,
    Quantity::GasFlow,
    Quantity::AirRatio,
    Quantity::FlueLoss,
    Quantity::Unaccounted,
];

/// For each quantity how many burns gave it, how many intervals held the truth, and the scaled errors.
type Tally = BTreeMap<&'static str, (usize, usize, Vec<f64>)>;

/// Rigs drawn: each has instruments with errors of their own.
const RIGS: u64 = 40;

/// Burns of one rig: loss from its own standing-loss trials, then every fifth burn with a logger.
fn judge(seed: u64, plans: &[TrialPlan], tally: &mut Tally) {
    let (scenario, settings) = (nursery::scenario(), settings());
    let apparatus = scenario.apparatus();
    let rig = Rig::draw(&scenario, seed);
    let cooled: Vec<_> = plans
        .iter()
        .filter(|p| p.kind == TrialKind::StandingLoss)
        .map(|p| rig.trial(p).expect("simulated"))
        .map(|t| Reducer::new(&settings, &apparatus, &[]).reduce(&t.row, &t.readings, Vec::new()))
        .collect();
    let losses = pool_losses(&cooled, &apparatus, &settings);
    let reducer = Reducer::new(&settings, &apparatus, &losses);
    let logged = plans.iter().filter(|p| p.kind == TrialKind::Burn && p.logging.rows > 12 && p.exclude.is_none());
    for plan in logged.skip(seed as usize % 5).step_by(5) {
        let trial = rig.trial(plan).expect("simulated");
        let result = reducer.reduce(&trial.row, &trial.readings, Vec::new());
        for quantity in JUDGED {
            let (Some(found), Some(truth)) = (result.get(quantity), trial.truth.get(&quantity)) else { continue };
            let entry = tally.entry(quantity.name()).or_default();
            entry.0 += 1;
            entry.1 += usize::from(found.estimate.interval.contains(*truth));
            entry.2.push((found.estimate.value - truth) / found.estimate.std_uncertainty);
        }
    }
}

#[test]
fn truth_lies_within_the_intervals_at_about_the_stated_rate() {
    let plans = nursery::design();
    let mut tally = Tally::new();
    for seed in 1..=RIGS {
        judge(seed, &plans, &mut tally);
    }
    for (name, (given, held, scaled)) in &tally {
        let mean = scaled.iter().sum::<f64>() / scaled.len() as f64;
        let spread = (scaled.iter().map(|z| z * z).sum::<f64>() / scaled.len() as f64).sqrt();
        println!("{name}: {held} of {given}, scaled error mean {mean:.2}, rms {spread:.2}");
    }
    for (name, (given, held, _)) in &tally {
        assert!(*given >= 40, "{name} given {given} times");
        assert!(*held as f64 >= 0.88 * *given as f64, "{name}: {held} of {given} intervals hold the truth");
    }
    assert_eq!(tally.len(), JUDGED.len());
}
