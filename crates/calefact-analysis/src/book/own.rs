//! The entries of one pipeline: its burns by stove, fuel and exchanger.

use super::day::period;
use super::per_heat::{Sample, Scatter};
use crate::result::{
    BookEntry, BookLine, BookMeasure, Combination, CombinationIds, Forecast, Forecasts, JobForecast, Spread,
    TrialSummary, Work,
};
use crate::shared::SharedSources;
use calefact_data::TrialKind;

/// The burns of a combination with their figures, by measure.
struct Burns<'t> {
    ids: CombinationIds,
    trials: Vec<&'t TrialSummary>,
    samples: [Sample<'t>; BookMeasure::ALL.len()],
}

/// Entries of the rig of a pipeline, in the order of the first burn of each combination.
pub(crate) fn own(
    rig: &str,
    trials: &[TrialSummary],
    shared: &SharedSources,
    forecasts: &Forecasts,
    (currency, level): (Option<&str>, f64),
) -> Vec<BookEntry> {
    let all = by_combination(trials);
    let pooled = std::array::from_fn(|measure| Scatter::pooled(all.iter().map(|b| &b.samples[measure])));
    let entry = |burns: &Burns<'_>| BookEntry {
        rig: rig.to_owned(),
        combination: burns.ids.clone(),
        name: None,
        burns: burns.trials.iter().map(|t| t.mark).collect(),
        period: period(burns.trials.iter().map(|t| t.level("date"))),
        currency: currency.map(ToOwned::to_owned),
        lines: per_heat(burns, &pooled, shared, level).chain(of_jobs(&burns.ids, forecasts)).collect(),
    };
    all.iter().map(entry).filter(|entry| !entry.lines.is_empty()).collect()
}

fn by_combination(trials: &[TrialSummary]) -> Vec<Burns<'_>> {
    let mut groups: Vec<(CombinationIds, Vec<&TrialSummary>)> = Vec::new();
    for trial in trials.iter().filter(|t| t.usable() && t.kind == TrialKind::Burn) {
        let level = |factor: &str| trial.level(factor).map(ToOwned::to_owned);
        let ids = CombinationIds { stove: level("stove"), fuel: level("fuel"), exchanger: level("exchanger") };
        match groups.iter_mut().find(|(known, _)| *known == ids) {
            Some((_, burns)) => burns.push(trial),
            None => groups.push((ids, vec![trial])),
        }
    }
    let samples = |trials: &[_]| BookMeasure::ALL.map(|measure| Sample::new(trials, measure));
    groups.into_iter().map(|(ids, trials)| Burns { ids, samples: samples(&trials), trials }).collect()
}

/// Wood, time and cost of a kWh.
fn per_heat(
    burns: &Burns<'_>,
    pooled: &[Scatter; BookMeasure::ALL.len()],
    shared: &SharedSources,
    level: f64,
) -> impl Iterator<Item = BookLine> {
    let measures = BookMeasure::ALL.into_iter().zip(&burns.samples).zip(pooled);
    measures.filter_map(move |((measure, sample), pooled)| {
        let spread = sample.spread(*pooled, shared, level)?;
        Some(BookLine { work: Work::Heat, measure, n: sample.len(), spread, is_outside: false })
    })
}

/// Wood, time and cost of the jobs.
fn of_jobs(ids: &CombinationIds, forecasts: &Forecasts) -> Vec<BookLine> {
    let is_this = |c: &Combination| (&c.stove, &c.fuel, &c.exchanger) == (&ids.stove, &ids.fuel, &ids.exchanger);
    let Some(place) = forecasts.combinations.iter().position(is_this) else { return Vec::new() };
    let n = forecasts.combinations[place].trials.len();
    let answer = |job: &JobForecast| job.answers.as_ref().ok().and_then(|a| a.get(place)?.clone().ok());
    let answered = forecasts.jobs.iter().filter_map(|job| Some((job, answer(job)?)));
    answered.flat_map(|(job, forecast)| lines(job, &forecast, n)).collect()
}

fn lines(job: &JobForecast, forecast: &Forecast, n: usize) -> Vec<BookLine> {
    let work = Work::Job { name: job.job.name.clone(), task: job.job.task };
    let line = |(measure, spread): (BookMeasure, Option<Spread>)| {
        let is_outside = !forecast.outside.is_empty();
        spread.map(|spread| BookLine { work: work.clone(), measure, n, spread, is_outside })
    };
    let spreads = [forecast.wood, Some(forecast.time), forecast.cost];
    BookMeasure::ALL.into_iter().zip(spreads).filter_map(line).collect()
}
