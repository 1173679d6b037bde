//! One replicate: a dataset with known truth through reduction, pooling and comparison, and which intervals held.

use super::design::Design;
use super::shared::Shared;
use super::trial::{self, BURN, Trial, normal};
use calefact_analysis::result::{ContrastKind, TrialResult, VerdictKind};
use calefact_analysis::settings::ComparisonRequest;
use calefact_analysis::{
    Analysis, AnalysisHeader, Quantity, Reducer, Settings, TrialAccumulator, compare, pool_losses,
};
use calefact_data::TrialKind;
use calefact_stats::Interval;
use calefact_stats::rng::stream;
use rand_pcg::Pcg64;

/// Mean loss coefficient, W/K.
const LOSS: f64 = 4.0;
/// Tank temperature of the heating rate, degC.
const RATE_AT: f64 = 24.0;

/// What an interval rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Of {
    /// One burn, whatever the size of the groups.
    Burn,
    /// The standing-loss nights.
    Nights,
    /// The burns of a group.
    Group,
}

/// One interval, and what it should hold.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hit {
    pub(crate) quantity: &'static str,
    /// What n counts.
    pub(crate) of: Of,
    pub(crate) lower: f64,
    pub(crate) upper: f64,
    /// The true value; none where a verdict of a family was false.
    pub(crate) truth: Option<f64>,
}

impl Hit {
    fn new(of: Of, quantity: &'static str, interval: &Interval, truth: f64) -> Self {
        Self { quantity, of, lower: interval.lower, upper: interval.upper, truth: Some(truth) }
    }

    /// Whether the interval held the truth.
    pub(crate) fn held(&self) -> bool {
        self.truth.is_some_and(|truth| (self.lower..=self.upper).contains(&truth))
    }
}

/// Runs replicate `index` of a design with `n` burns a group.
pub(crate) fn run(design: &Design, n: usize, seed: u64, index: usize) -> Vec<Hit> {
    let mut rng = stream(seed, &format!("{} nights {} burns {n} replicate {index}", design.name, design.nights));
    let fuels = if design.own_fuel { design.groups.len() } else { 1 };
    let shared = Shared::draw(&mut rng, design.shared, fuels);
    let nights: Vec<Trial> = (0..design.nights)
        .map(|i| {
            let loss = LOSS * (1.0 + design.night_sd * normal(&mut rng));
            trial::night(&mut rng, &design.log, &shared, &format!("night{i}"), loss)
        })
        .collect();
    let burns = burns(&mut rng, design, n, &shared);
    let next = design.groups[0].0 * (1.0 + design.groups[0].1 * normal(&mut rng));
    let (settings, apparatus) = (settings(), shared.apparatus(design.log.step));
    let losses = {
        let reducer = Reducer::new(&settings, &apparatus, &[]);
        let reduced: Vec<TrialResult> =
            nights.iter().map(|t| reducer.reduce(&t.row, &t.readings, Vec::new())).collect();
        pool_losses(&reduced, &apparatus, &settings)
    };
    let reducer = Reducer::new(&settings, &apparatus, &losses);
    let mut gathered = TrialAccumulator::new(&settings, reducer.sources());
    gathered.extend(burns.iter().map(|(t, _)| reducer.reduce(&t.row, &t.readings, Vec::new())));
    let analysis = compare(AnalysisHeader::default(), &settings, &apparatus, gathered, losses, Vec::new());
    let mut hits = single(&analysis, &burns[0]);
    if !design.by_nights {
        hits.extend(groups(&analysis, design, next));
    }
    hits
}

/// Burns group after group, with their true efficiencies.
fn burns(rng: &mut Pcg64, design: &Design, n: usize, shared: &Shared) -> Vec<(Trial, f64)> {
    let mut out = Vec::new();
    for (g, (mean, sd)) in design.groups.iter().enumerate() {
        for i in 0..n {
            let efficiency = mean * (1.0 + sd * normal(rng));
            let fuel = if design.own_fuel { g } else { 0 };
            let names = (format!("burn{g}-{i}"), format!("stove{g}"), format!("fuel{fuel}"));
            let burn = trial::burn(rng, &design.log, shared, names, efficiency, LOSS, design.longest_delay);
            out.push((burn, efficiency));
        }
    }
    out
}

/// Intervals of the first burn and of the pooled loss coefficient.
fn single(analysis: &Analysis, (burn, efficiency): &(Trial, f64)) -> Vec<Hit> {
    let course = &burn.course;
    let rate = course
        .reaches(RATE_AT, BURN)
        .map(|at| 60.0 * (course.heat - course.loss * (RATE_AT - course.air_at(at))) / course.capacity(RATE_AT));
    let truths = [
        (Quantity::ThermalEfficiency, "thermal_efficiency", Some(*efficiency)),
        (Quantity::HeatInput, "heat_input", Some(course.heat * (1.0 - course.delay / BURN))),
        (Quantity::HeatingRate, "heating_rate", rate),
    ];
    let of_burn = truths.into_iter().filter_map(|(quantity, name, truth)| {
        let found = analysis.shown.first()?.get(quantity)?;
        Some(Hit::new(Of::Burn, name, &found.estimate.interval, truth?))
    });
    let of_vessel =
        analysis.losses.iter().map(|l| Hit::new(Of::Nights, "loss_coefficient", &l.estimate.interval, LOSS));
    of_burn.chain(of_vessel).collect()
}

/// Intervals of the first group and of the first contrasts, and whether all verdicts on differences were right.
fn groups(analysis: &Analysis, design: &Design, next: f64) -> Vec<Hit> {
    let mut hits = Vec::new();
    let Some(comparison) = analysis.comparisons.first() else { return hits };
    let (a, b) = (design.groups[0].0, design.groups[1].0);
    if let Some(group) = comparison.groups.first() {
        hits.push(Hit::new(Of::Group, "group_mean", &group.mean.interval, a));
        hits.extend(group.predict.as_ref().map(|p| Hit::new(Of::Group, "prediction", p, next)));
    }
    if design.groups.len() == 2 {
        for contrast in &comparison.contrasts {
            let (name, truth) = match contrast.kind {
                ContrastKind::Difference => ("difference", a - b),
                ContrastKind::Ratio => ("ratio", a / b),
            };
            hits.push(Hit::new(Of::Group, name, &contrast.estimate.interval, truth));
        }
        return hits;
    }
    for (kind, name) in [(ContrastKind::Difference, "ten_differences"), (ContrastKind::Ratio, "ten_ratios")] {
        let family: Vec<_> = comparison.contrasts.iter().filter(|c| c.kind == kind).collect();
        let held = family.iter().all(|c| !matches!(c.verdict, VerdictKind::Above | VerdictKind::Below));
        let half = family.iter().map(|c| c.estimate.interval.half_width()).sum::<f64>() / family.len() as f64;
        hits.push(Hit { quantity: name, of: Of::Group, lower: -half, upper: half, truth: held.then_some(0.0) });
    }
    hits
}

fn settings() -> Settings {
    let quantities = vec![Quantity::ThermalEfficiency];
    let request = ComparisonRequest { quantities, ..ComparisonRequest::new("stove", TrialKind::Burn) };
    Settings { heating_rate_at: RATE_AT, comparisons: vec![request], ..Settings::default() }
}
