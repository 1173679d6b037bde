//! `builds`: exchangers that have not been built, one row a number of a forecast.

use crate::columns::Table;
use crate::words::build;
use crate::words::{Typography, Units, Wording, sentence};
use calefact_analysis::result::{Analysis, BuildForecast, BuildOutcome};

/// The numbers of a forecast by name.
fn numbers(forecast: &BuildForecast) -> impl Iterator<Item = (&'static str, &BuildOutcome)> + Clone {
    let known = [
        ("exchanger_effectiveness", Some(&forecast.effectiveness)),
        ("coil_power", Some(&forecast.power)),
        ("coil_power_ratio", forecast.gain.as_ref()),
        ("gas_after", Some(&forecast.gas_out)),
        ("coil_out", forecast.water_out.as_ref()),
    ];
    known.into_iter().filter_map(|(name, outcome)| Some((name, outcome?)))
}

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let forecasts = &analysis.builds.forecasts;
    let rows = || forecasts.iter().flat_map(|f| numbers(f).map(move |(name, outcome)| (f, name, outcome)));
    let w = Wording::of_analysis(analysis, Units::Metric, Typography::Plain);
    let number = |value: fn(&BuildForecast) -> Option<f64>| rows().map(move |r| value(r.0).unwrap_or(f64::NAN));
    let next = |end: fn(&calefact_stats::Interval) -> f64| rows().map(move |r| r.2.next.as_ref().map_or(f64::NAN, end));
    Table::new("builds")
        .maybe("stove", "stove whose fire it is", rows().map(|r| r.0.stove.as_deref()))
        .text("exchanger", "exchanger that is changed", rows().map(|r| r.0.exchanger.as_str()))
        .number(
            "length_ratio",
            "1",
            "length and outside area of the tube over those of the exchanger",
            rows().map(|r| r.0.ratio.area),
        )
        .number("length", "m", "length of the tube; blank where that of the exchanger is not stated", number(|f| f.length_m))
        .number("passes_ratio", "1", "passes over those of the exchanger", rows().map(|r| r.0.ratio.passes))
        .number("flow_ratio", "1", "water flow over that of the exchanger", rows().map(|r| r.0.ratio.water_flow))
        .number("coil_flow", "kg/s", "water flow, where it is known", number(|f| f.flow_kg_s))
        .text("quantity", "what is forecast: `coil_power_ratio` is the heat into the water over that of the exchanger as it is; `gas_after` and `coil_out` are the temperatures of gas and water behind the exchanger", rows().map(|r| r.1))
        .count("n", "burns behind it", rows().map(|r| Some(r.0.burns as u64)))
        .estimates(rows().map(|r| &r.2.mean))
        .number("dof", "1", "effective degrees of freedom", rows().map(|r| r.2.mean.dof))
        .number("predict_lower", "as `unit`", "lower end of the interval for the next burn", next(|i| i.lower))
        .number("predict_upper", "as `unit`", "upper end of the interval for the next burn", next(|i| i.upper))
        .text("reach", "whether the builds that were measured reach so far", rows().map(|r| build::reach_word(&r.0.reach)))
        .text("method", "model behind it", rows().map(|r| build::method(&analysis.builds, r.0)))
        .text("cautions", "what to beware of", rows().map(move |r| {
            let lines: Vec<String> = r.0.cautions.iter().map(|c| sentence(&build::caution(&w, c))).collect();
            lines.join(" ")
        }))
}
