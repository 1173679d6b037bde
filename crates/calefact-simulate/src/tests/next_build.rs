//! The next build against invented exchangers: two lengths are burnt and analysed, a third is forecast, and then it is burnt.
//!
//! The rig is not that of the forecast: gas has a heat capacity that changes with temperature, conductance follows the gas flow
//! from moment to moment and the area by an exponent of its own, the tank warms up, and burns differ. All coils hang in gas of
//! the same mean temperature, which is found by trying.

use crate::forward::Forward;
use crate::nursery;
use crate::plan::TrialPlan;
use crate::rig::Rig;
use crate::scenario::Scenario;
use crate::stream::stream;
use crate::worlds::reference::{WASH, jobs};
use calefact_analysis::build::{BuildRequest, Size, answer};
use calefact_analysis::forecast::with_build;
use calefact_analysis::result::{BuildForecast, BuildOutcome, Forecast};
use calefact_analysis::settings::{Job, ReferenceJob};
use calefact_analysis::{AnalysisHeader, Quantity, Reducer, Settings, TrialAccumulator, compare, pool_losses};
use calefact_data::TrialKind;
use calefact_stats::Interval;
use rand::RngExt;

/// The stove: its logger has all probes.
const ROCKET: usize = 1;
/// Lengths of the coils, m: two that are burnt, and one that is held out.
const LENGTHS: [f64; 3] = [6.0, 11.0, 16.0];
/// Place of the one held out.
const HELD_OUT: usize = 2;
/// Gas before the exchanger, degC.
const GAS: f64 = 520.0;
/// Rigs drawn.
const RIGS: u64 = 120;
/// Burns of each coil.
const BURNS: usize = 3;

/// The nursery with one kind of coil in three lengths, whose conductance goes with its area to the power `exponent`.
fn scenario(exponent: f64) -> Scenario {
    let mut scenario = nursery::scenario();
    let single = scenario.exchangers[0].clone();
    scenario.exchangers = LENGTHS
        .iter()
        .enumerate()
        .map(|(i, length)| {
            let mut coil = single.clone();
            coil.id = format!("coil{i}");
            coil.entry.build.insert("length".into(), *length);
            coil.conductance = single.conductance * libm::pow(length / LENGTHS[0], exponent);
            coil
        })
        .collect();
    scenario
}

/// A burn of the rocket stove with a coil.
fn plan(coil: usize, number: usize) -> TrialPlan {
    let rocket = |p: &TrialPlan| p.burn.as_ref().is_some_and(|b| b.stove == ROCKET) && p.logging.rows > 12;
    let mut plan = nursery::design().into_iter().filter(rocket).nth(number).expect("enough burns");
    let burn = plan.burn.as_mut().expect("a burn");
    (burn.exchanger, burn.fuel, burn.refuel, burn.efficiency) = (coil, 0, None, 0.0);
    (plan.exclude, plan.logging.rows) = (None, 121);
    plan.trial = format!("coil{coil}-{number}");
    plan
}

/// Mean temperature of the gas before the exchanger over the middle half of an expected burn.
fn gas_before(scenario: &Scenario, coil: usize) -> f64 {
    let (expected, plan) = (scenario.expected(), plan(coil, 0));
    let forward = Forward::new(&Rig::draw(&expected, 0), &plan).expect("a burn");
    let before = forward.flue.expect("a flue").before;
    let middle = &before[before.len() / 4..3 * before.len() / 4];
    middle.iter().sum::<f64>() / middle.len() as f64
}

/// Gives each coil the efficiency with which it hangs in gas of [`GAS`], by the secant rule.
fn hang_in_one_gas(scenario: &mut Scenario) {
    for coil in 0..LENGTHS.len() {
        let mut at = |efficiency: f64| {
            scenario.exchangers[coil].efficiency = efficiency;
            gas_before(scenario, coil) - GAS
        };
        let (mut a, mut b) = (0.0, 0.05);
        let (mut f_a, mut f_b) = (at(a), at(b));
        for _ in 0..8 {
            if f_b.abs() < 0.05 {
                break;
            }
            let next = b - f_b * (b - a) / (f_b - f_a);
            (a, f_a, b) = (b, f_b, next);
            f_b = at(b);
        }
        assert!(f_b.abs() < 0.5, "coil {coil}: gas of {} degC", GAS + f_b);
    }
}

/// A job within the burns.
fn wash() -> Job {
    let task =
        ReferenceJob { water_m3: WASH.water_m3, from: WASH.from, to: WASH.to, ambient: WASH.air, fuel_moisture: None };
    Job::new("wash", task)
}

/// The forecast of the coil held out from the burns of the others: its length in m from the longest of them; and that of the job
/// with it.
fn forecast(scenario: &Scenario, rig: &Rig<'_>, burns: usize) -> (BuildForecast, Forecast) {
    let (settings, apparatus) = (Settings { jobs: vec![wash()], ..Settings::default() }, scenario.apparatus());
    let reduce = |reducer: &Reducer<'_>, plan: &TrialPlan| {
        let trial = rig.trial(plan).expect("simulated");
        reducer.reduce(&trial.row, &trial.readings, Vec::new())
    };
    let cooling = nursery::design().into_iter().filter(|p| p.kind == TrialKind::StandingLoss);
    let plain = Reducer::new(&settings, &apparatus, &[]);
    let losses = pool_losses(&cooling.map(|p| reduce(&plain, &p)).collect::<Vec<_>>(), &apparatus, &settings);
    let reducer = Reducer::new(&settings, &apparatus, &losses);
    let coils = (0..LENGTHS.len()).filter(|coil| *coil != HELD_OUT);
    let plans = coils.flat_map(|coil| (0..burns).map(move |number| plan(coil, number)));
    let mut gathered = TrialAccumulator::new(&settings, reducer.sources());
    gathered.extend(plans.map(|p| reduce(&reducer, &p)).collect::<Vec<_>>());
    let analysis = compare(AnalysisHeader::default(), &settings, &apparatus, gathered, losses.clone(), Vec::new());
    let request = BuildRequest {
        exchanger: "coil1".into(),
        length: Some(Size::Absolute(LENGTHS[HELD_OUT])),
        ..BuildRequest::default()
    };
    let build = answer(&analysis, &request).expect("a forecast").remove(0);
    let mut rebuilt = with_build(&analysis.forecasts, &build).expect("a change");
    let mut answers = rebuilt.jobs.remove(0).answers.expect("a job that can be");
    (build, answers.remove(0).expect("an answer"))
}

/// How the intervals of effectiveness and heat came out, and those of the time and the wood of the job.
#[derive(Debug, Default)]
struct Score {
    /// Share of rigs in which the interval of the mean holds the truth.
    mean: [f64; 4],
    /// Share of rigs in which that for the next burn holds it.
    next: [f64; 4],
    /// Mean error in standard uncertainties.
    scaled: [f64; 2],
    /// Mean error of time and wood, as a share.
    error: [f64; 2],
}

fn study(rigs: std::ops::RangeInclusive<u64>, burns: usize) -> Score {
    let count = (rigs.end() - rigs.start() + 1) as f64;
    let mut score = Score::default();
    for seed in rigs {
        let exponent = stream(seed, "exponent").random_range(0.7..1.0);
        let mut scenario = scenario(exponent);
        hang_in_one_gas(&mut scenario);
        let rig = Rig::draw(&scenario, seed);
        let (found, job) = forecast(&scenario, &rig, burns);
        let expected = scenario.expected();
        let quiet = Rig::draw(&expected, seed);
        let means: Vec<_> = (0..burns).map(|n| quiet.truth(&plan(HELD_OUT, n)).expect("a burn")).collect();
        let mean = |q: Quantity| means.iter().map(|truth| truth[&q]).sum::<f64>() / burns as f64;
        let next = rig.truth(&plan(HELD_OUT, 0)).expect("a burn");
        let holds = |interval: &Interval, truth: f64| f64::from(u8::from(interval.contains(truth))) / count;
        let numbers: [(Quantity, &BuildOutcome); 2] =
            [(Quantity::ExchangerEffectiveness, &found.effectiveness), (Quantity::CoilPower, &found.power)];
        for (i, (quantity, outcome)) in numbers.into_iter().enumerate() {
            let estimate = &outcome.mean;
            score.mean[i] += holds(&estimate.interval, mean(quantity));
            score.next[i] += holds(outcome.next.as_ref().expect("burns differ"), next[&quantity]);
            score.scaled[i] += (estimate.value - mean(quantity)) / estimate.std_uncertainty / count;
        }
        let done = |rig: &Rig<'_>, n: usize| jobs(rig, &plan(HELD_OUT, n)).expect("a burn");
        let expected: Vec<_> = (0..burns).map(|n| done(&quiet, n)).collect();
        let next = done(&rig, 0);
        for (i, spread) in [job.time, job.wood.expect("weighed")].into_iter().enumerate() {
            let mean = expected.iter().map(|numbers| numbers[i].1).sum::<f64>() / burns as f64;
            score.mean[2 + i] += holds(&spread.mean, mean);
            score.next[2 + i] += holds(&spread.next.expect("burns differ"), next[i].1);
            score.error[i] += (spread.value / mean - 1.0) / count;
        }
    }
    score
}

/// The standard error of a share of 95 % of 120 is 2 %. The mean is on the wide side: the gas flow's exponent and what builds
/// differ by for other reasons are ranges to the forecast and fixed in this world. So is the wood of the job: its moisture and
/// what is left over are known to a range that the burns of one world share.
#[test]
fn a_coil_that_was_held_out_does_what_was_forecast() {
    let score = study(1..=RIGS, BURNS);
    let [mean @ .., mean_of_wood] = score.mean;
    let [next @ .., next_of_wood] = score.next;
    for share in mean.into_iter().chain(next) {
        assert!((0.91..=0.995).contains(&share), "{score:?}");
    }
    assert!(mean_of_wood >= 0.91 && next_of_wood >= 0.91, "{score:?}");
    assert!(score.scaled.iter().all(|z| z.abs() < 0.4), "{score:?}");
    assert!(score.error.iter().all(|share| share.abs() < 0.03), "{score:?}");
}
