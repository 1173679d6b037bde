//! Forecasts of jobs on the terminal: the answer first, then a table, then what it rests on.

use super::forecast::{assumed_words, burns, combination, farthest, job_words, outside, refuels, refusal, vessel};
use super::{Wording, plural};
use calefact_analysis::result::{Combination, Forecast, Forecasts, JobForecast, Refusal, ScatterOrigin, VesselDraws};
use calefact_analysis::settings::Job;
use std::collections::BTreeMap;

/// A register column, and the level in it that alone is asked for.
pub type Only<'a> = (&'static str, &'a str);

/// An answer of the command.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// The lines.
    pub text: String,
    /// Combinations of all jobs that have an answer.
    pub answered: usize,
}

/// The answer to all jobs, restricted to some levels.
pub fn answer(w: &Wording<'_>, forecasts: &Forecasts, only: &[Only<'_>]) -> Answer {
    let jobs: Vec<Answer> = forecasts.jobs.iter().map(|job| job_answer(w, forecasts, job, only)).collect();
    let texts: Vec<&str> = jobs.iter().map(|a| a.text.as_str()).collect();
    Answer { text: texts.join("\n\n"), answered: jobs.iter().map(|a| a.answered).sum() }
}

fn job_answer(w: &Wording<'_>, forecasts: &Forecasts, job: &JobForecast, only: &[Only<'_>]) -> Answer {
    let title = format!("{}: {}", job.job.name, job_words(w, &job.job));
    let unanswered =
        |reason: &Refusal| Answer { text: format!("{title}\n  no answer: {}", refusal(w, reason)), answered: 0 };
    let answers = match &job.answers {
        Ok(answers) => answers,
        Err(reason) => return unanswered(reason),
    };
    if let Some(reason) = no_such_burns(forecasts, only) {
        return unanswered(&reason);
    }
    let all = forecasts.combinations.iter().zip(answers).zip(&job.vessels);
    let (mut given, mut refused) = (Vec::new(), Vec::new());
    for ((c, answer), vessel) in all.filter(|((c, _), _)| is_asked(c, only)) {
        match answer {
            Ok(forecast) => given.push((c, forecast, vessel)),
            Err(reason) => refused.push(format!("  no answer with {}: {}", combination(w, c), refusal(w, reason))),
        }
    }
    let key = |f: &Forecast| f.wood.map_or(f.time.value, |wood| wood.value);
    given.sort_by(|a, b| key(a.1).total_cmp(&key(b.1)));
    let mut text = vec![title];
    text.extend(lines(w, &job.job, &given));
    text.extend(refused);
    Answer { text: text.join("\n"), answered: given.len() }
}

/// The level of a combination in a column.
fn level<'c>(c: &'c Combination, column: &str) -> Option<&'c str> {
    match column {
        "stove" => c.stove.as_deref(),
        "fuel" => c.fuel.as_deref(),
        _ => c.exchanger.as_deref(),
    }
}

fn is_asked(c: &Combination, only: &[Only<'_>]) -> bool {
    only.iter().all(|(column, wanted)| level(c, column) == Some(*wanted))
}

/// Why no combination has the levels asked for: the first level that no burn has beside those before it.
fn no_such_burns(forecasts: &Forecasts, only: &[Only<'_>]) -> Option<Refusal> {
    for n in 0..only.len() {
        let (column, wanted) = only[n];
        let rest = || forecasts.combinations.iter().filter(|c| is_asked(c, &only[..n]));
        if rest().all(|c| level(c, column) != Some(wanted)) {
            let mut known: Vec<String> = rest().filter_map(|c| Some(level(c, column)?.to_owned())).collect();
            known.sort_unstable();
            known.dedup();
            return Some(Refusal::NoSuchBurns { column, level: wanted.to_owned(), known });
        }
    }
    None
}

/// A combination, its answer and the vessel of the job.
pub(crate) type Given<'a> = (&'a Combination, &'a Forecast, &'a VesselDraws);

/// The lines on a job, least wood first.
fn lines(w: &Wording<'_>, job: &Job, given: &[Given<'_>]) -> Vec<String> {
    let mut lines: Vec<String> = best(w, job, given).into_iter().collect();
    if !given.is_empty() {
        lines.push(String::new());
        lines.extend(table(w, given));
    }
    lines.extend(given.first().map(|(_, _, v)| format!("  vessel: {}", vessel(w, v))));
    lines.extend(beyond(w, given));
    lines.extend(grouped(w, given, "assumed, not recorded", |_, f| assumed_words(&f.assumed)));
    lines.extend(grouped(w, given, "scatter between burns", |c, _| scatter(c).to_owned()));
    lines
}

/// ", 0.3 kg of it kindling"; a job that takes no more wood than the burns took kindling is beyond such advice.
fn kindling(w: &Wording<'_>, c: &Combination, wood_kg: f64) -> String {
    if c.kindling_kg > 0.0 && c.kindling_kg < wood_kg {
        format!(", {} of it kindling,", w.mass(rounded(c.kindling_kg)))
    } else {
        String::new()
    }
}

/// A mass to a hundredth.
fn rounded(kg: f64) -> f64 {
    (100.0 * kg).round() / 100.0
}

/// In what the job lies beyond the burns, by row; of many rows the farthest.
fn beyond(w: &Wording<'_>, given: &[Given<'_>]) -> Vec<String> {
    let lines = grouped(w, given, "beyond your burns", |_, f| outside(w, &f.outside));
    if lines.len() <= MOST_LINES {
        return lines;
    }
    let rows = given.iter().filter(|(_, f, _)| !f.outside.is_empty()).count();
    let far = farthest(w, given.iter().flat_map(|(_, f, _)| &f.outside));
    vec![format!("  beyond your burns ({rows} of {}, at most): {far}", plural(given.len(), "row"))]
}

/// "least wood: Rocket stove, Spruce slabwood: 4.2 kg (one burn 3.6 to 4.9 kg) in 118 min (104 to 135 min)".
pub(crate) fn best(w: &Wording<'_>, job: &Job, given: &[Given<'_>]) -> Vec<String> {
    let Some((c, f, _)) = given.first() else { return Vec::new() };
    let time = w.time_spread(&f.time);
    let wood = f.wood.map_or_else(String::new, |wood| {
        let words = w.wood_spread(&wood);
        format!("{} of wood{} (one burn: {}) in ", words.value, kindling(w, c, wood.value), words.next)
    });
    let words = format!("{wood}{} (one burn: {})", time.value, time.next);
    let least = if f.wood.is_some() { "least wood" } else { "shortest" };
    let lead = if given.len() > 1 { format!("  {least} by best estimate: ") } else { "  ".to_owned() };
    let mut lines = vec![format!("{lead}{}: {words}", combination(w, c))];
    if let (Some(deadline), Some(share)) = (job.deadline_s, f.in_time) {
        lines.push(format!("  done within {} in {} of its burns", w.time(deadline), share_words(w, share)));
    }
    if let (Some(repeats), Some(wood)) = (job.repeats, &f.wood) {
        lines.push(format!("  a day: {} of wood on average", w.mass(repeats * wood.value)));
    }
    if let (Some(standing), Some(after)) = (job.standing_s, &f.after_standing) {
        let after = w.temperature_spread(after);
        lines.push(format!("  after standing for {}: {} ({})", w.time(standing), after.value, after.mean));
    }
    lines
}

/// A share of burns, of which a few hundred draws tell no extreme.
fn share_words(w: &Wording<'_>, share: f64) -> String {
    match share {
        s if s > 0.99 => format!("more than {}", w.percent(0.99)),
        s if s < 0.01 => format!("less than {}", w.percent(0.01)),
        s => w.percent(s),
    }
}

/// The aligned table, without columns that are empty in all rows.
fn table(w: &Wording<'_>, given: &[Given<'_>]) -> Vec<String> {
    let head = ["with", "", "wood", "one burn", "on average", "time", "one burn", "on average", "refuels", "cost"];
    let mut rows = vec![head.map(str::to_owned)];
    for (c, f, _) in given {
        let wood = f.wood.map(|wood| w.wood_spread(&wood));
        let wood = wood.map_or_else(Default::default, |s| [s.value, s.next, s.mean]);
        let time = w.time_spread(&f.time);
        let cost = f.cost.map_or_else(String::new, |cost| w.cost_spread(&cost).value);
        let loads = f.refuels.map_or_else(String::new, refuels);
        let [value, next, mean] = wood;
        rows.push([combination(w, c), burns(c), value, next, mean, time.value, time.next, time.mean, loads, cost]);
    }
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let is_filled = |column: usize| rows[1..].iter().any(|row| !row[column].is_empty());
    let columns: Vec<(usize, usize)> = (0..head.len()).filter(|c| is_filled(*c)).map(|c| (c, width(c))).collect();
    let line = |row: &[String; 10]| {
        let cells = columns.iter().map(|&(column, width)| format!("{:<width$}", row[column]));
        format!("  {}", cells.collect::<Vec<_>>().join("  ").trim_end())
    };
    rows.iter().map(line).collect()
}

/// One line for each text that some rows have: "lead (with A; B): text", without the rows where all have it.
fn grouped(
    w: &Wording<'_>,
    given: &[Given<'_>],
    lead: &str,
    text: impl Fn(&Combination, &Forecast) -> String,
) -> Vec<String> {
    let mut groups: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (c, f, _) in given {
        groups.entry(text(c, f)).or_default().push(combination(w, c));
    }
    let line = |(text, names): (&String, &Vec<String>)| match names.len() {
        n if n == given.len() => format!("  {lead}: {text}"),
        n if n > NAMED => format!("  {lead} ({} of {}): {text}", n, plural(given.len(), "row")),
        _ => format!("  {lead} ({}): {text}", names.join("; ")),
    };
    groups.iter().filter(|(text, _)| !text.is_empty()).map(line).collect()
}

/// Most names in brackets.
const NAMED: usize = 2;
/// Most lines on what lies beyond the burns.
const MOST_LINES: usize = 3;

const fn scatter(c: &Combination) -> &'static str {
    match c.scatter {
        ScatterOrigin::Own => "",
        ScatterOrigin::Pooled => "that of all combinations with two burns or more, since these have few burns",
        ScatterOrigin::Unknown => {
            "not known, since no combination has two burns; the intervals hold errors of measurement alone"
        }
    }
}
