//! How a forecast is known: the model, where its exponent is from, how far the data reach.

use super::change::differs;
use crate::words::{Wording, plural, sentence};
use calefact_analysis::result::{AreaExponent, BuildForecast, BuildModel, Builds, BurnScatter, Reach};
use calefact_data::apparatus::Arrangement;
use calefact_physics::exchanger::AREA_EXPONENT;

/// Premises of every forecast, and the meaning of its brackets.
fn same_fire(w: &Wording<'_>, confidence: f64) -> String {
    format!(
        "every figure is for the same fire: as much gas, and as hot before the exchanger, as in the burns that were logged. In brackets \
         stand {} intervals, those of the ratios without the scatter of the fire itself",
        w.confidence(confidence)
    )
}

const fn arrangement(arrangement: Arrangement) -> &'static str {
    match arrangement {
        Arrangement::Counter => "counterflow",
        Arrangement::Parallel => "parallel flow",
        Arrangement::CrossGasMixed => "cross flow with mixed gas",
        Arrangement::CrossWaterMixed => "cross flow with mixed water",
        Arrangement::CrossUnmixed => "cross flow with neither stream mixed",
    }
}

/// The model in one clause, for tables.
pub(crate) fn method(builds: &Builds, forecast: &BuildForecast) -> String {
    let area = match builds.model.map(|m| m.area) {
        Some(AreaExponent::Inferred { .. }) => "inferred from builds of different area",
        _ => "assumed",
    };
    format!(
        "number of transfer units of {}, gas-side control, exponent of area {area}",
        arrangement(forecast.arrangement)
    )
}

/// How conductance is taken to follow the build, and whether that is from the data.
pub(super) fn model(w: &Wording<'_>, model: &BuildModel) -> String {
    let (value, u) = model.area.value();
    let number = |x: f64| w.typography.fixed(x, 2);
    let range = format!("{} to {}", number(AREA_EXPONENT.0), number(AREA_EXPONENT.1));
    let exponent = format!("{} (standard uncertainty {})", number(value), number(u));
    let from = match model.area {
        AreaExponent::Inferred { builds, weight, .. } => format!(
            "the builds measured have {} of the weight in it ({}), the assumed range {range} the rest",
            w.percent(weight),
            plural(builds, "build")
        ),
        AreaExponent::Assumed { .. } => format!(
            "assumed from the range {range}: not from these data, which hold no two builds whose tube areas differ enough"
        ),
    };
    format!(
        "The heat is that of effectiveness and number of transfer units (Incropera and DeWitt, chapter 11). The gas side is taken to \
         hold the resistance but for a tenth at most. Conductance goes with the tube area to the power {exponent}: {from}."
    )
}

/// Premises of all forecasts: the fire, the model.
pub fn premises(w: &Wording<'_>, builds: &Builds) -> Vec<String> {
    let Some(known) = &builds.model else { return Vec::new() };
    vec![sentence(&same_fire(w, builds.confidence)), model(w, known)]
}

/// How far the builds that were measured reach, in a word or two for tables.
pub(crate) fn reach_word(reach: &Reach) -> &'static str {
    match reach {
        Reach::Unchanged => "unchanged",
        Reach::Between => "between measured builds",
        Reach::Beyond { .. } => "beyond measured builds",
        Reach::Untested => "length not varied in these data",
    }
}

/// Remark where the data do not reach.
pub(super) fn reach(w: &Wording<'_>, forecast: &BuildForecast) -> Option<String> {
    match forecast.reach {
        Reach::Unchanged | Reach::Between => None,
        Reach::Beyond { times } => Some(format!(
            "outside your data: the tube has {} times {} that was measured, and the intervals are widened",
            w.typography.significant(if forecast.ratio.area > 1.0 { times } else { 1.0 / times }, 2),
            if forecast.ratio.area > 1.0 { "the greatest area" } else { "the least area" }
        )),
        Reach::Untested => Some(
            "not from these data: no two builds whose tube areas differ enough were measured, so how length works is assumed".to_owned(),
        ),
    }
}

/// Remark on passes and water flow, which no build of the data shows apart from the rest.
pub(super) fn assumed_changes(forecast: &BuildForecast) -> Option<&'static str> {
    let (passes, flow) = (forecast.ratio.passes, forecast.ratio.water_flow);
    match (differs(passes), differs(flow)) {
        (true, true) => Some("how passes and water flow work is assumed, not from these data"),
        (true, false) => Some(
            "how passes work is assumed, not from these data: from no effect to that of gas that flows as much faster",
        ),
        (false, true) => Some("how water flow works is assumed, not from these data"),
        (false, false) => None,
    }
}

/// Remark on how burns differ.
pub(super) fn scatter(scatter: BurnScatter) -> Option<&'static str> {
    match scatter {
        BurnScatter::Own => None,
        BurnScatter::Borrowed => {
            Some("one burn only: the scatter between burns is that of the other stoves and exchangers")
        }
        BurnScatter::Unknown => Some(
            "one burn only: how burns differ is not known, and the interval holds the measurement of this burn alone",
        ),
    }
}
