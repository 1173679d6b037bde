//! `forecasts`: what each job takes with each combination of stove, fuel and exchanger.

use super::ids::ids;
use crate::columns::Table;
use crate::words::{Wording, forecast};
use calefact_analysis::result::{Analysis, Combination, Forecast, JobForecast, Refusal, Spread};
use calefact_stats::Interval;

/// A row: one quantity of one answer, or why there is none.
struct Row<'a> {
    job: &'a JobForecast,
    combination: Option<&'a Combination>,
    forecast: Result<&'a Forecast, &'a Refusal>,
    quantity: &'static str,
    unit: &'a str,
    spread: Option<Spread>,
}

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let all: Vec<Row<'_>> = analysis.forecasts.jobs.iter().flat_map(|job| rows(analysis, job)).collect();
    let rows = || all.iter();
    let plain = Wording::plain();
    let level = |of: fn(&Combination) -> Option<&String>| {
        let levels: Vec<Option<String>> = all.iter().map(|r| r.combination.and_then(of).cloned()).collect();
        levels.into_iter()
    };
    let number = |of: fn(&Spread) -> f64| all.iter().map(move |r| r.spread.as_ref().map_or(f64::NAN, of));
    let next =
        |of: fn(&Interval) -> f64| all.iter().map(move |r| r.spread.and_then(|s| s.next).as_ref().map_or(f64::NAN, of));
    let texts = |of: &dyn Fn(&Row<'_>) -> String| all.iter().map(of).collect::<Vec<String>>().into_iter();
    let refuels = |of: fn((u32, u32)) -> u32| {
        all.iter().map(move |r| r.forecast.ok().and_then(|f| f.refuels).map(|range| u64::from(of(range))))
    };
    let outside = |r: &Row<'_>| r.forecast.map_or_else(|_| String::new(), |f| forecast::outside(&plain, &f.outside));
    let assumed = |r: &Row<'_>| r.forecast.map_or_else(|_| String::new(), |f| ids(&f.assumed));
    let refused = |r: &Row<'_>| r.forecast.err().map_or_else(String::new, |reason| forecast::refusal(&plain, reason));
    Table::new("forecasts")
        .text("job", "name of the job", rows().map(|r| r.job.job.name.clone()).collect::<Vec<_>>().into_iter())
        .maybe("stove", "stove; blank where none is named", level(|c| c.stove.as_ref()))
        .maybe("fuel", "fuel; blank where none is named", level(|c| c.fuel.as_ref()))
        .maybe("exchanger", "exchanger; blank where none is named", level(|c| c.exchanger.as_ref()))
        .count("n", "burns behind it", rows().map(|r| r.combination.map(|c| c.trials.len() as u64)))
        .text("quantity", "`wood`, `time`, `cost` or `after_standing`", rows().map(|r| r.quantity))
        .number("value", "as `unit`", "best estimate", number(|s| s.value))
        .text("unit", "unit symbol of the row", texts(&|r| r.unit.to_owned()))
        .number("lower", "as `unit`", "lower end of the interval for the mean of many burns; where `scatter` is unknown, by errors of measurement alone", number(|s| s.mean.lower))
        .number("upper", "as `unit`", "upper end of the interval for the mean of many burns", number(|s| s.mean.upper))
        .number("level", "1", "coverage probability the intervals are meant to have", number(|s| s.mean.confidence))
        .number("predict_lower", "as `unit`", "lower end of the interval for one next burn", next(|i| i.lower))
        .number("predict_upper", "as `unit`", "upper end of the interval for one next burn", next(|i| i.upper))
        .number(
            "kindling",
            "kg",
            "kindling in the wood",
            rows().map(|r| r.combination.map_or(f64::NAN, |c| c.kindling_kg)),
        )
        .count("refuels_least", "times that wood is put on after the first load, least", refuels(|r| r.0))
        .count("refuels_most", "times that wood is put on after the first load, most", refuels(|r| r.1))
        .text(
            "scatter",
            "where the scatter between burns is taken from: `own`, `pooled` or `unknown`",
            rows().map(|r| r.combination.map_or("", |c| forecast::scatter_id(c.scatter))),
        )
        .text("outside", "in what the job lies beyond the burns", texts(&outside))
        .text("assumed", "inputs that nobody recorded and the answer rests on", texts(&assumed))
        .text("refused", "why there is no answer", texts(&refused))
}

fn rows<'a>(analysis: &'a Analysis, job: &'a JobForecast) -> Vec<Row<'a>> {
    let refused =
        |combination, reason| Row { job, combination, forecast: Err(reason), quantity: "", unit: "", spread: None };
    let answers = match &job.answers {
        Err(reason) => return vec![refused(None, reason)],
        Ok(answers) => answers,
    };
    let currency = analysis.currency.as_deref().unwrap_or("1");
    let of_answer = |(combination, answer): (&'a Combination, &'a Result<Forecast, Refusal>)| match answer {
        Err(reason) => vec![refused(Some(combination), reason)],
        Ok(f) => {
            let all = [
                ("wood", "kg", f.wood),
                ("time", "s", Some(f.time)),
                ("cost", currency, f.cost),
                ("after_standing", "degC", f.after_standing),
            ];
            let row = |(quantity, unit, spread): (&'static str, &'a str, Option<Spread>)| {
                let combination = Some(combination);
                spread.map(|spread| Row { job, combination, forecast: Ok(f), quantity, unit, spread: Some(spread) })
            };
            all.into_iter().filter_map(row).collect()
        }
    };
    analysis.forecasts.combinations.iter().zip(answers).flat_map(of_answer).collect()
}
