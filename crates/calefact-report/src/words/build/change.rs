//! Which exchanger is meant, and how a build differs from it.

use crate::words::{Measure, Wording, list};
use calefact_analysis::result::BuildForecast;
use calefact_data::ApparatusKind;

/// "Single coil on Rocket stove".
pub(crate) fn place(w: &Wording<'_>, stove: Option<&str>, exchanger: &str) -> String {
    let coil = w.apparatus(ApparatusKind::Exchanger, exchanger);
    match stove {
        Some(stove) => format!("{coil} on {}", w.apparatus(ApparatusKind::Stove, stove)),
        None => coil,
    }
}

/// A ratio as people say it: "half", "twice", "1.5 times".
fn times(w: &Wording<'_>, ratio: f64) -> String {
    match ratio {
        r if !differs(2.0 * r) => "half".to_owned(),
        r if !differs(0.5 * r) => "twice".to_owned(),
        _ => format!("{} times", w.typography.significant(ratio, 3)),
    }
}

/// Whether a ratio is a change. One that was worked out from a length may miss 1 in its last digit.
pub(super) fn differs(ratio: f64) -> bool {
    (ratio - 1.0).abs() > 1e-9
}

/// How a build differs from the exchanger as it is: "1.5 times the tube (9 m)"; "as it is" where it does not.
pub(crate) fn change(w: &Wording<'_>, forecast: &BuildForecast) -> String {
    let ratio = forecast.ratio;
    let with = |text: String, size: Option<String>| match size {
        Some(size) => format!("{text} ({size})"),
        None => text,
    };
    let length = forecast.length_m.map(|m| w.measure(Measure::LongLength, m));
    let passes = forecast.passes.map(|p| plural_passes(w, p));
    let flow = forecast.flow_kg_s.map(|kg_s| w.flow(kg_s));
    let parts = [
        (ratio.area, "the tube", length),
        (ratio.passes, "the passes", passes),
        (ratio.water_flow, "the water flow", flow),
    ];
    let parts: Vec<String> = parts
        .into_iter()
        .filter(|(ratio, ..)| differs(*ratio))
        .map(|(ratio, what, size)| with(format!("{} {what}", times(w, ratio)), size))
        .collect();
    if parts.is_empty() { "as it is".to_owned() } else { list(&parts) }
}

fn plural_passes(w: &Wording<'_>, passes: f64) -> String {
    let number = w.typography.significant(passes, 3);
    if number == "1" { "1 pass".to_owned() } else { format!("{number} passes") }
}
