//! Forecasts of jobs in words: what a job is, what it takes, how far that reaches beyond the burns, why there is no answer.

use super::number::{places, places_for_digits};
use super::suggestion::suggestion;
use super::{DisplayUnit, Measure, Message, Wording, assumed, list, plural};
use calefact_analysis::fact::{AssumedInput, ForecastFact};
use calefact_analysis::result::{Combination, Outside, Refusal, ScatterOrigin, Spread, VesselDraws, VesselOrigin};
use calefact_analysis::settings::{Job, ReferenceJob};
use calefact_data::ApparatusKind;
use calefact_stats::Interval;
use std::mem::discriminant;

/// Times from here on are shown in hours, s.
const LONG_S: f64 = 5.0 * 3600.0;

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &ForecastFact) -> Message {
    match fact {
        ForecastFact::JobRefused { job, reason } => {
            let message = Message::new(format!("job {}: {}", w.quoted(job), refusal(w, reason)));
            message.action("job left out")
        }
    }
}

/// The message where neither options nor pipeline state a job.
pub fn no_job() -> String {
    "the pipeline names no job; give --water, --from, --to and --ambient, or write [[job]] into the pipeline file"
        .into()
}

/// An option that a job from the options lacks.
pub fn no_option(option: &str) -> String {
    format!("a job needs {option}, since the pipeline names no job it could be taken from")
}

/// The word for the origin of the scatter in tables.
pub const fn scatter_id(origin: ScatterOrigin) -> &'static str {
    match origin {
        ScatterOrigin::Own => "own",
        ScatterOrigin::Pooled => "pooled",
        ScatterOrigin::Unknown => "unknown",
    }
}

/// "160 L from 10 degC to 55 degC, air at 10 degC".
pub fn job_words(w: &Wording<'_>, job: &Job) -> String {
    task_words(w, &job.task)
}

/// The same of the task of a job.
pub(super) fn task_words(w: &Wording<'_>, task: &ReferenceJob) -> String {
    let degrees = |t: f64| w.measure(Measure::Temperature, t);
    let moisture = task.fuel_moisture.map(|moisture| format!(", wood of {} moisture", w.share(moisture)));
    format!(
        "{} from {} to {}, air at {}{}",
        w.volume(task.water_m3),
        degrees(task.from),
        degrees(task.to),
        degrees(task.ambient),
        moisture.unwrap_or_default()
    )
}

/// "Rocket stove, Spruce slabwood, Double coil".
pub fn combination(w: &Wording<'_>, c: &Combination) -> String {
    combination_of(w, [&c.stove, &c.fuel, &c.exchanger])
}

/// The same of the ids of stove, fuel and exchanger.
pub(super) fn combination_of(w: &Wording<'_>, ids: [&Option<String>; 3]) -> String {
    let kinds = [ApparatusKind::Stove, ApparatusKind::Fuel, ApparatusKind::Exchanger];
    let named = kinds.into_iter().zip(ids);
    let names: Vec<String> = named.filter_map(|(kind, id)| Some(w.apparatus(kind, id.as_ref()?))).collect();
    if names.is_empty() { "all burns".into() } else { names.join(", ") }
}

/// In what a job lies beyond the burns of a combination: "25 % more water than any of its burns (160 L)".
pub fn outside(w: &Wording<'_>, outside: &[Outside]) -> String {
    beyond(w, &outside.iter().collect::<Vec<_>>(), "any of its burns")
}

fn beyond(w: &Wording<'_>, outside: &[&Outside], burns: &str) -> String {
    let words = |o: &&Outside| match **o {
        Outside::MoreWater { job, most } => {
            format!("{} more water than {burns} ({})", w.percent(job / most - 1.0), w.volume(most))
        }
        Outside::LessWater { job, least } => {
            format!("{} less water than {burns} ({})", w.percent(1.0 - job / least), w.volume(least))
        }
        Outside::Hotter { job, hottest } => format!(
            "{} hotter than {burns} ended ({})",
            w.temperature_difference(job - hottest, 0),
            w.temperature(hottest, 0)
        ),
        Outside::Longer { job, longest } => {
            format!("{} longer than {burns} ({})", w.percent(job / longest - 1.0), w.time(longest))
        }
    };
    list(&outside.iter().map(words).collect::<Vec<_>>())
}

/// The same for many answers: of each way beyond the burns the farthest.
pub fn farthest<'f>(w: &Wording<'_>, all: impl Iterator<Item = &'f Outside>) -> String {
    let mut most: Vec<&Outside> = Vec::new();
    for one in all {
        match most.iter_mut().find(|o| discriminant(**o) == discriminant(one)) {
            Some(known) if distance(known) < distance(one) => *known = one,
            Some(_) => {}
            None => most.push(one),
        }
    }
    beyond(w, &most, "any burn of a combination")
}

/// How far beyond, in the way's own measure.
fn distance(outside: &Outside) -> f64 {
    match *outside {
        Outside::MoreWater { job, most } => job / most,
        Outside::LessWater { job, least } => least / job,
        Outside::Hotter { job, hottest } => job - hottest,
        Outside::Longer { job, longest } => job / longest,
    }
}

/// A chance: "98 %", and beyond what draws can tell "over 99 %".
pub(crate) fn chance(w: &Wording<'_>, share: f64) -> String {
    if share > 0.99 { format!("over {}", w.percent(0.99)) } else { w.percent(share) }
}

/// Why there is no answer, as a fragment.
pub fn refusal(w: &Wording<'_>, refusal: &Refusal) -> String {
    let degrees = |t: f64| w.temperature(t, 0);
    match refusal {
        Refusal::NoBurns => {
            "no burn has water, temperatures, vessel and a whole log, so nothing can be forecast".into()
        }
        Refusal::NoSuchBurns { column, level, known } => {
            format!("no burn has the {column} {}; {}", w.quoted(level), suggestion(level, known))
        }
        Refusal::NoWater => "there is no water to heat; state how much".into(),
        Refusal::NotWarmer { from, to } => {
            format!("the target of {} is not above the start of {}", degrees(*to), degrees(*from))
        }
        Refusal::Frozen { from } => format!("water of {} is ice; start above {}", degrees(*from), degrees(0.0)),
        Refusal::Boils { to, boiling, altitude_m } => {
            let place = altitude_m.map_or_else(
                || "at sea level (state the altitude of the site)".to_owned(),
                |m| format!("at {}", w.measure(Measure::LongLength, m)),
            );
            format!("water boils at {} {place}; the target of {} cannot be reached", degrees(*boiling), degrees(*to))
        }
        Refusal::UnknownVessel { vessel, known } => {
            format!("no dataset describes the vessel {}; {}", w.quoted(vessel), suggestion(vessel, known))
        }
        Refusal::DoesNotFit { water, volume } => {
            format!("{} of water do not fit into a vessel of {}", w.volume(*water), w.volume(*volume))
        }
        Refusal::CannotHold { highest } => {
            format!("this fire holds the water at {} at most, since the vessel loses the rest", degrees(*highest))
        }
    }
}

/// A wood, time or cost with an interval.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SpreadWords {
    /// "4.2 kg".
    pub value: String,
    /// "3.6 to 4.9 kg", for one next burn.
    pub next: String,
    /// "4.0 to 4.4 kg", for the mean of many; by measurement alone where the scatter between burns is not known.
    pub mean: String,
}

impl Wording<'_> {
    /// A mass of wood, to a hundredth at most.
    pub fn wood_spread(&self, spread: &Spread) -> SpreadWords {
        self.spread_within(2, &self.unit(Measure::Mass), spread)
    }

    /// A time, to the minute or a tenth of an hour at most.
    pub fn time_spread(&self, spread: &Spread) -> SpreadWords {
        let (measure, most) = if spread.value < LONG_S { (Measure::Minutes, 0) } else { (Measure::Hours, 1) };
        self.spread_within(most, &self.unit(measure), spread)
    }

    /// A cost in the currency of the fuels, to its hundredth.
    pub fn cost_spread(&self, spread: &Spread) -> SpreadWords {
        self.spread_to(2, &self.unit(Measure::Ratio).named(self.currency.unwrap_or_default()), spread)
    }

    /// A temperature, to a tenth of a degree at most.
    pub fn temperature_spread(&self, spread: &Spread) -> SpreadWords {
        self.spread_within(1, &self.unit(Measure::Temperature), spread)
    }

    /// All numbers to the place that the interval of the next burn deserves, and at most to the last one that matters.
    fn spread_within(&self, most: i32, unit: &DisplayUnit, spread: &Spread) -> SpreadWords {
        let widest = spread.next.unwrap_or(spread.mean);
        let half = unit.width(spread.value - widest.lower).abs();
        let place = places(half).unwrap_or_else(|| places_for_digits(unit.value(spread.value), 3));
        self.spread_to(place.clamp(-1, most), unit, spread)
    }

    fn spread_to(&self, place: i32, unit: &DisplayUnit, spread: &Spread) -> SpreadWords {
        let fixed = |x: f64| self.typography.fixed(unit.value(x), place);
        let interval = |i: Interval| {
            if i.upper.is_infinite() {
                return format!("{} or more", self.typography.join(&fixed(i.lower), &unit.symbol));
            }
            self.typography.join(&format!("{} to {}", fixed(i.lower), fixed(i.upper)), &unit.symbol)
        };
        SpreadWords {
            value: self.typography.join(&fixed(spread.value), &unit.symbol),
            next: spread.next.map_or_else(|| "not known".to_owned(), interval),
            mean: match spread.next {
                Some(_) => interval(spread.mean),
                None => format!("{} by measurement alone", interval(spread.mean)),
            },
        }
    }
}

/// "none", "1", "1 or 2", "1 to 3".
pub fn refuels((least, most): (u32, u32)) -> String {
    match (least, most) {
        (0, 0) => "none".into(),
        (a, b) if a == b => a.to_string(),
        (a, b) if a + 1 == b => format!("{a} or {b}"),
        (a, b) => format!("{a} to {b}"),
    }
}

/// The vessel of a job.
pub fn vessel(w: &Wording<'_>, vessel: &VesselDraws) -> String {
    let loss = w.measure(Measure::Conductance, vessel.centre.loss);
    let which = vessel_name(w, vessel);
    if vessel.assumed.contains(&AssumedInput::LossCoefficient) {
        return format!("{which}, whose heat loss is assumed (about {loss})");
    }
    format!("{which}, which loses {loss}")
}

/// Which vessel it is.
pub(crate) fn vessel_name(w: &Wording<'_>, vessel: &VesselDraws) -> String {
    match &vessel.origin {
        VesselOrigin::Known(id) => w.apparatus(ApparatusKind::Vessel, id),
        VesselOrigin::Described => "the vessel described".into(),
        VesselOrigin::OfItsSize => "a vessel of the size of the water, since the usual one is smaller".into(),
    }
}

/// "air temperature and kindling".
pub(super) fn assumed_words(inputs: &[AssumedInput]) -> String {
    list(&inputs.iter().map(|input| assumed::noun(*input)).collect::<Vec<_>>())
}

/// "3 burns".
pub(super) fn burns(c: &Combination) -> String {
    plural(c.trials.len(), "burn")
}

#[cfg(test)]
mod tests;
