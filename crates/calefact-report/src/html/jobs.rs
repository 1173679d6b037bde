//! The first screen: what each job takes in wood and time, level by level, which takes the least and how sure that is; then every
//! combination as a table.

use super::grid::{Grid, Names, Text, head};
use crate::leaders::{Leaders, level};
use crate::words::forecast::{self, refuels};
use crate::words::forecast_answer::best;
use crate::words::{Wording, capital, list};
use calefact_analysis::forecast::least_wood;
use calefact_analysis::result::{Analysis, Combination, Forecast, JobForecast, Refusal, VesselDraws};

/// Share of draws from which a level counts as the one that takes the least wood.
const SURE: f64 = 0.95;
/// Combinations listed of a job; all are in `forecasts.csv`.
const MOST: usize = 40;

/// The jobs at a glance.
pub(super) struct Section {
    /// Apparatus that the columns share: "Spruce slabwood and Single coil, which all have burnt."
    pub(super) with: Text,
    /// Names of the columns.
    pub(super) levels: Vec<Text>,
    /// One row a job.
    pub(super) jobs: Vec<Row>,
    /// Vessels of which something is assumed.
    pub(super) vessels: Vec<Text>,
    /// Every combination, a table a job.
    pub(super) details: Vec<Detail>,
}

/// A job.
pub(super) struct Row {
    /// "Saturday tub".
    pub(super) name: Text,
    /// "380 L from 12 degC to 40 degC".
    pub(super) words: Text,
    /// In what it lies beyond the burns; empty where it does not.
    pub(super) outside: Text,
    /// One cell a level; none where the job cannot be.
    pub(super) cells: Vec<Cell>,
    /// Why the job cannot be; empty where it can.
    pub(super) refused: Text,
}

/// Wood and time of a job with a level.
#[derive(Default)]
pub(super) struct Cell {
    /// "4.2 kg".
    pub(super) wood: Text,
    /// Its interval.
    pub(super) wood_interval: Text,
    /// "106 min".
    pub(super) time: Text,
    /// Its interval.
    pub(super) time_interval: Text,
    /// Why there is no answer.
    pub(super) refused: Text,
    /// "least wood, 97 % sure", where it takes the least.
    pub(super) least: Text,
    /// Whether that is sure.
    pub(super) wins: bool,
}

/// All combinations of a job.
pub(super) struct Detail {
    /// The best of all, and what follows from it.
    pub(super) best: Vec<Text>,
    /// The table.
    pub(super) grid: Grid,
}

/// The section, if there are jobs and burns.
pub(super) fn section(w: &Wording<'_>, analysis: &Analysis, leaders: Option<&Leaders<'_>>) -> Option<Section> {
    let (forecasts, leaders) = (&analysis.forecasts, leaders?);
    if forecasts.jobs.is_empty() {
        return None;
    }
    let chosen = || leaders.chosen.iter().map(|i| &forecasts.combinations[*i]);
    Some(Section {
        with: with(w, leaders),
        levels: chosen().map(|c| column_name(w, leaders, c)).collect(),
        jobs: forecasts.jobs.iter().map(|job| row(w, analysis, leaders, job)).collect(),
        vessels: vessels(w, &forecasts.jobs),
        details: forecasts.jobs.iter().filter_map(|job| detail(w, &forecasts.combinations, job)).collect(),
    })
}

/// "with Spruce slabwood and Single coil".
fn with(w: &Wording<'_>, leaders: &Leaders<'_>) -> Text {
    let names = leaders.common.iter().flatten().map(|(column, level)| w.level(column, level)).collect::<Vec<_>>();
    let with = if names.is_empty() { String::new() } else { format!(" with {}", list(&names)) };
    if leaders.all > leaders.chosen.len() {
        return format!("{with}, the first {} of {}", leaders.chosen.len(), leaders.all);
    }
    with
}

/// "Rocket stove"; the whole combination where the columns share nothing.
fn column_name(w: &Wording<'_>, leaders: &Leaders<'_>, c: &Combination) -> Text {
    match level(c, leaders.factor) {
        Some(level) if leaders.common.is_some() => w.level(leaders.factor, level),
        _ => capital(&forecast::combination(w, c)),
    }
}

fn row(w: &Wording<'_>, analysis: &Analysis, leaders: &Leaders<'_>, job: &JobForecast) -> Row {
    let row = Row {
        name: capital(&job.job.name),
        words: forecast::job_words(w, &job.job),
        outside: String::new(),
        cells: Vec::new(),
        refused: String::new(),
    };
    let answers = match &job.answers {
        Err(reason) => return Row { refused: format!("No answer: {}.", forecast::refusal(w, reason)), ..row },
        Ok(answers) => answers,
    };
    let mut cells: Vec<Cell> = leaders.chosen.iter().map(|i| cell(w, &answers[*i])).collect();
    if let Some(least) = least(analysis, leaders, job) {
        let sure = least.share.map(|share| format!("{} sure", forecast::chance(w, share)));
        let words = sure.unwrap_or_else(|| "how sure cannot be told without repeats".to_owned());
        let wins = least.share.is_some_and(|share| share >= SURE);
        cells[least.place] =
            Cell { least: format!("least wood, {words}"), wins, ..std::mem::take(&mut cells[least.place]) };
    }
    let answered = leaders.chosen.iter().filter_map(|i| answers[*i].as_ref().ok());
    let outside = forecast::farthest(w, answered.flat_map(|f| &f.outside));
    Row { outside, cells, ..row }
}

fn cell(w: &Wording<'_>, answer: &Result<Forecast, Refusal>) -> Cell {
    match answer {
        Err(reason) => Cell { refused: capital(&forecast::refusal(w, reason)), ..Cell::default() },
        Ok(forecast) => {
            let time = w.time_spread(&forecast.time);
            let wood = forecast.wood.as_ref().map(|wood| w.wood_spread(wood));
            let (wood, wood_interval) = wood.map_or_else(Default::default, |s| (s.value, s.next));
            Cell { wood, wood_interval, time: time.value, time_interval: time.next, ..Cell::default() }
        }
    }
}

/// The level that takes the least wood by best estimate.
struct Least {
    place: usize,
    /// Share of draws in which it does; none where scatter is not known.
    share: Option<f64>,
}

fn least(analysis: &Analysis, leaders: &Leaders<'_>, job: &JobForecast) -> Option<Least> {
    let answers = job.answers.as_ref().ok()?;
    let wood = |place: &usize| answers[leaders.chosen[*place]].as_ref().ok()?.wood.map(|wood| wood.value);
    let known = (0..leaders.chosen.len()).filter(|place| wood(place).is_some());
    let place = known.min_by(|a, b| wood(a).unwrap_or(f64::NAN).total_cmp(&wood(b).unwrap_or(f64::NAN)))?;
    let share = least_wood(&analysis.forecasts, job, &leaders.chosen).map(|shares| shares[place]);
    (leaders.chosen.len() > 1).then_some(Least { place, share })
}

/// Assumptions about the vessels, a line for jobs alike.
fn vessels(w: &Wording<'_>, jobs: &[JobForecast]) -> Vec<Text> {
    let mut lines: Vec<Text> = Vec::new();
    for job in jobs {
        let assumed = job.vessels.iter().find(|v| !v.assumed.is_empty());
        lines.extend(assumed.map(|v| format!("{}: {}.", capital(&job.job.name), forecast::vessel(w, v))));
    }
    lines
}

/// A combination with its answer and the vessel of the job.
type Given<'a> = (&'a Combination, &'a Forecast, &'a VesselDraws);

fn detail(w: &Wording<'_>, combinations: &[Combination], job: &JobForecast) -> Option<Detail> {
    let answers = job.answers.as_ref().ok()?.iter();
    let all = combinations.iter().zip(answers).zip(&job.vessels);
    let mut given: Vec<Given<'_>> = all.filter_map(|((c, a), v)| Some((c, a.as_ref().ok()?, v))).collect();
    let key = |f: &Forecast| f.wood.map_or(f.time.value, |wood| wood.value);
    given.sort_by(|a, b| key(a.1).total_cmp(&key(b.1)));
    let columns = [
        ("Stove, fuel, exchanger", false),
        ("Burns", true),
        ("Wood", true),
        ("One next burn", true),
        ("Mean of many", true),
        ("Time", true),
        ("One next burn", true),
        ("Mean of many", true),
        ("Times wood is put on again", true),
        ("Cost", true),
    ];
    (!given.is_empty()).then(|| Detail {
        best: best(w, &job.job, &given).iter().map(|line| format!("{}.", capital(line.trim()))).collect(),
        grid: Grid {
            caption: format!(
                "{}: every stove, fuel and exchanger with burns, least wood first.",
                capital(&job.job.name)
            ),
            head: head(&columns),
            rows: given.iter().take(MOST).map(|(c, f, _)| detail_row(w, c, f)).collect(),
            names: Names::None,
        },
    })
}

fn detail_row(w: &Wording<'_>, c: &Combination, f: &Forecast) -> Vec<Text> {
    let wood = f.wood.as_ref().map(|wood| w.wood_spread(wood));
    let [value, next, mean] = wood.map_or_else(Default::default, |s| [s.value, s.next, s.mean]);
    let time = w.time_spread(&f.time);
    let cost = f.cost.as_ref().map_or_else(String::new, |cost| w.cost_spread(cost).value);
    let loads = f.refuels.map_or_else(String::new, refuels);
    let burns = c.trials.len().to_string();
    vec![forecast::combination(w, c), burns, value, next, mean, time.value, time.next, time.mean, loads, cost]
}
