//! Inputs that were assumed because nobody recorded them, in words.

use super::{Wording, list, short_quantity_name};
use calefact_analysis::fact::AssumedInput;
use calefact_analysis::result::{Assumptions, LowerBound, Recording};
use calefact_data::ApparatusKind;
use calefact_stats::{Estimate, Interval};

/// The input as a noun, for lists.
pub(crate) const fn noun(input: AssumedInput) -> &'static str {
    match input {
        AssumedInput::VesselHeatCapacity => "heat capacity of the vessel",
        AssumedInput::LossCoefficient => "heat loss of the vessel",
        AssumedInput::AirTemperature => "air temperature",
        AssumedInput::KindlingMass => "kindling",
        AssumedInput::LeftoverFuel => "leftover wood",
        AssumedInput::LeftoverChar => "leftover char",
        AssumedInput::FuelMoisture => "moisture of the fuel",
        AssumedInput::MoistureBasis => "basis of the moisture",
        AssumedInput::CalorificValue => "calorific value of the fuel",
        AssumedInput::CharCalorificValue => "calorific value of the char",
        AssumedInput::ThermometerTolerance => "tolerance of the thermometers",
        AssumedInput::FlueProbeTolerance => "tolerance of the flue probes",
        AssumedInput::ScaleTolerance => "tolerance of the scale",
        AssumedInput::VolumeTolerance => "tolerance of the amount of water",
        AssumedInput::MoistureMeterTolerance => "tolerance of the moisture meter",
        AssumedInput::FlowTolerance => "tolerance of the water flow",
        AssumedInput::PowerTolerance => "tolerance of the electric power",
        AssumedInput::GasAnalysisTolerance => "tolerance of the gas analysis",
    }
}

/// The source of an error: "leftover wood, assumed (box, pine)".
pub(crate) fn source(w: &Wording<'_>, input: AssumedInput, owner: &str) -> String {
    let owner = match input {
        AssumedInput::VesselHeatCapacity | AssumedInput::LossCoefficient => w.apparatus(ApparatusKind::Vessel, owner),
        AssumedInput::FuelMoisture | AssumedInput::CalorificValue | AssumedInput::CharCalorificValue => {
            w.apparatus(ApparatusKind::Fuel, owner)
        }
        _ => owner.into(),
    };
    if owner.is_empty() { format!("{}, assumed", noun(input)) } else { format!("{}, assumed ({owner})", noun(input)) }
}

/// The tolerance of an instrument that states none: "tolerance of the thermometers, assumed (tank)".
pub(crate) fn tolerance_of(w: &Wording<'_>, input: AssumedInput, instrument: &str) -> String {
    format!("{}, assumed ({})", noun(input), w.apparatus(ApparatusKind::Instrument, instrument))
}

/// A line at the top: its start, a list of items, the end of the sentence after them.
pub(crate) struct Line {
    /// "Assumed, not measured: ".
    pub(crate) start: String,
    /// "vessel", "air temperature".
    pub(crate) items: Vec<String>,
    /// Separator of items.
    between: &'static str,
    /// " (what was left over can only raise it).", or a full stop.
    end: String,
}

impl Line {
    /// Some of the items as written one after the other.
    fn joined(&self, items: &[String]) -> String {
        items.join(self.between)
    }

    /// The first items, and the rest of the sentence where there is more than that.
    pub(crate) fn split(&self, first: usize) -> (String, Option<String>) {
        if self.items.len() <= first {
            return (format!("{}{}{}", self.start, self.joined(&self.items), self.end), None);
        }
        let (shown, rest) = self.items.split_at(first);
        (format!("{}{}", self.start, self.joined(shown)), Some(format!("{}{}", self.joined(rest), self.end)))
    }
}

/// Assumptions, figures that hold all the same, and inputs to record next time.
pub(crate) fn items(w: &Wording<'_>, assumptions: &Assumptions) -> Vec<Line> {
    let all = [named(&assumptions.inputs), bounds(w, assumptions), recordings(w, &assumptions.record)];
    all.into_iter().flatten().collect()
}

/// The same as whole sentences.
pub fn lines(w: &Wording<'_>, assumptions: &Assumptions) -> Vec<String> {
    items(w, assumptions).iter().map(|line| line.split(usize::MAX).0).collect()
}

/// "Assumed, not measured: vessel, air temperature, leftover wood."
fn named(inputs: &[AssumedInput]) -> Option<Line> {
    let (tolerances, mut inputs): (Vec<AssumedInput>, Vec<AssumedInput>) =
        inputs.iter().partition(|input| input.is_tolerance());
    let vessel = [AssumedInput::VesselHeatCapacity, AssumedInput::LossCoefficient];
    let mut names = Vec::new();
    if vessel.iter().all(|input| inputs.contains(input)) {
        inputs.retain(|input| !vessel.contains(input));
        names.push("vessel".to_owned());
    }
    names.extend(inputs.iter().map(|input| noun(*input).to_owned()));
    let tolerances: Vec<&str> = tolerances.iter().map(|t| noun(*t).trim_start_matches("tolerance of ")).collect();
    if !tolerances.is_empty() {
        names.push(format!("tolerance of {}", list(&tolerances)));
    }
    let start = "Assumed, not measured: ".to_owned();
    (!names.is_empty()).then(|| Line { start, items: names, between: ", ", end: ".".to_owned() })
}

/// "Thermal efficiency with all fuel counted as burnt: Box stove at least 22 %, give or take 3
/// percentage points."
fn bounds(w: &Wording<'_>, assumptions: &Assumptions) -> Option<Line> {
    // Rounded down, so that the words stay true.
    let least = |share: f64| w.percent(0.01 * (100.0 * share).floor());
    let bounds = assumptions.at_least.iter();
    let bound = |b: &LowerBound| {
        let open = w.typography.fixed((100.0 * b.half_width).ceil(), 0);
        let open = w.typography.join(&open, "percentage points");
        format!("{} at least {}, give or take {open}", w.group(&b.levels), least(b.efficiency))
    };
    let bounds: Vec<String> = bounds.map(bound).collect();
    let start = "Thermal efficiency with all fuel counted as burnt: ".to_owned();
    let end = " (what was left over can only raise it).".to_owned();
    (!bounds.is_empty()).then_some(Line { start, items: bounds, between: ", ", end })
}

/// "To record next time: weigh the leftover wood: ..."
fn recordings(w: &Wording<'_>, record: &[Recording]) -> Option<Line> {
    let first = record.first()?;
    let half_width = |r: &Recording, estimate: &Estimate| {
        let half = estimate.interval.half_width();
        let interval = Interval { lower: -half, upper: half, ..estimate.interval };
        let even = Estimate { value: 0.0, interval, ..estimate.clone() };
        let words = w.estimate_in(&w.unit_of_difference(r.quantity), &even);
        w.typography.join(&words.spread, &words.unit)
    };
    let one = |r: &Recording| {
        let what = match r.inputs[..] {
            [input] => instruction(input).to_owned(),
            _ => "all of these".to_owned(),
        };
        format!("{what} (to about {})", half_width(r, &r.recorded))
    };
    let start = format!(
        "To narrow the interval of the {} of {} from {}: ",
        short_quantity_name(first.quantity),
        w.group(&first.levels),
        half_width(first, &first.mean)
    );
    Some(Line { start, items: record.iter().map(one).collect(), between: "; ", end: ".".to_owned() })
}

/// What to do to record an input.
const fn instruction(input: AssumedInput) -> &'static str {
    match input {
        AssumedInput::VesselHeatCapacity => "weigh the empty vessel and state its mass and material",
        AssumedInput::LossCoefficient => {
            "let the full vessel cool once without a fire and log it as a standing-loss trial"
        }
        AssumedInput::AirTemperature => "write down the air temperature",
        AssumedInput::KindlingMass => "weigh the kindling",
        AssumedInput::LeftoverFuel => "weigh the leftover wood",
        AssumedInput::LeftoverChar => "weigh the leftover char",
        AssumedInput::FuelMoisture => "measure the moisture of the fuel",
        AssumedInput::MoistureBasis => "state the basis of the moisture",
        AssumedInput::CalorificValue => "state the class of the fuel",
        AssumedInput::CharCalorificValue => "state the calorific value of the char",
        AssumedInput::ThermometerTolerance => "state the tolerance of the thermometers",
        AssumedInput::FlueProbeTolerance => "state the tolerance of the flue probes",
        AssumedInput::ScaleTolerance => "state the tolerance of the scale",
        AssumedInput::VolumeTolerance => "measure the water with a known tolerance",
        AssumedInput::MoistureMeterTolerance => "state the tolerance of the moisture meter",
        AssumedInput::FlowTolerance => "state the tolerance of the flow meter",
        AssumedInput::PowerTolerance => "state the tolerance of the power meter",
        AssumedInput::GasAnalysisTolerance => "state the tolerance of the gas analyser",
    }
}
