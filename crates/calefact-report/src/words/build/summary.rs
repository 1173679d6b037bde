//! Forecasts of half and twice the tube in a sentence, and remarks on a forecast beside its numbers.

use super::caution::caution;
use super::change::{change, differs, place};
use super::model::{assumed_changes, reach, scatter};
use crate::words::{Measure, Wording, capital, plural};
use calefact_analysis::result::{BuildCurve, BuildForecast, BuildOutcome, Builds};

/// Forecast of half and twice the tube of a stove's exchanger, beside the exchanger as it is.
pub(crate) fn summary(w: &Wording<'_>, builds: &Builds, curve: &BuildCurve) -> Option<String> {
    let find = |ratio: f64| {
        let same = |f: &&BuildForecast| f.stove == curve.stove && f.exchanger == curve.exchanger;
        builds.forecasts.iter().filter(same).find(|f| !differs(f.ratio.area / ratio))
    };
    let (half, now, twice) = (find(0.5)?, find(1.0)?, find(2.0)?);
    let length = now.length_m.map_or_else(String::new, |m| format!(", {} of tube", w.measure(Measure::LongLength, m)));
    Some(format!(
        "{}{length}: {} into the water and gas out at {}, from {}. {}; {}.",
        place(w, curve.stove.as_deref(), &curve.exchanger),
        value(w, Measure::HeatFlow, &now.power),
        value(w, Measure::Temperature, &now.gas_out),
        plural(now.burns, "burn"),
        capital(&beside(w, half)?),
        beside(w, twice)?
    ))
}

/// "twice the tube (12 m) would put 1.26 times as much heat into the water (1.23 to 1.30), 5.7 kW, and let the gas out at 91 degC
/// (73 to 109)".
fn beside(w: &Wording<'_>, forecast: &BuildForecast) -> Option<String> {
    let (gain, gas) = (forecast.gain.as_ref()?, &forecast.gas_out);
    let shown = |measure, o: &BuildOutcome| w.estimate_in(&w.unit(measure), &o.mean);
    let (gain, gas) = (shown(Measure::Ratio, gain), shown(Measure::Temperature, gas));
    Some(format!(
        "{} would put {} times as much heat into the water ({}), {}, and let the gas out at {} ({})",
        change(w, forecast),
        gain.value,
        gain.interval,
        value(w, Measure::HeatFlow, &forecast.power),
        gas.with_unit(),
        gas.interval
    ))
}

fn value(w: &Wording<'_>, measure: Measure, outcome: &BuildOutcome) -> String {
    w.estimate_in(&w.unit(measure), &outcome.mean).with_unit()
}

/// All that is to be said of a forecast beside its numbers, as clauses.
pub(crate) fn clauses(w: &Wording<'_>, forecast: &BuildForecast) -> Vec<String> {
    let plain = [assumed_changes(forecast), scatter(forecast.scatter)].into_iter().flatten().map(str::to_owned);
    let cautions = forecast.cautions.iter().map(|c| caution(w, c));
    reach(w, forecast).into_iter().chain(plain).chain(cautions).collect()
}
