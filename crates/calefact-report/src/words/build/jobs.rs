//! Jobs with an exchanger that is not built yet, beside the exchanger as it is.

use crate::words::Wording;
use crate::words::forecast::{combination, job_words, refusal};
use calefact_analysis::forecast::with_build;
use calefact_analysis::result::{BuildForecast, Combination, Forecast, Forecasts, JobForecast, Refusal};
use calefact_data::ApparatusKind;

/// Wood and time of every job with a build, one line a fuel; none for the exchanger as it is, or without jobs.
pub fn job_lines(w: &Wording<'_>, forecasts: &Forecasts, build: &BuildForecast) -> Vec<String> {
    let Some(rebuilt) = with_build(forecasts, build).filter(|r| !r.combinations.is_empty()) else { return Vec::new() };
    let today = Today { w, forecasts };
    let jobs = rebuilt.jobs.iter().zip(&forecasts.jobs);
    jobs.flat_map(|(job, as_is)| {
        let head = format!("  {}: {}", job.job.name, job_words(w, &job.job));
        std::iter::once(head).chain(today.lines(&rebuilt.combinations, job, as_is))
    })
    .collect()
}

/// Premise of the jobs with a build.
pub const JOB_PREMISE: &str = "The jobs are those of the burns logged, with the heat flow times the gain and as much wood burnt in a \
                               minute as before; all heat is taken to reach the water through the exchanger.";

/// The exchanger as it is, to stand beside the build.
struct Today<'a> {
    w: &'a Wording<'a>,
    forecasts: &'a Forecasts,
}

impl Today<'_> {
    fn lines(&self, rebuilt: &[Combination], job: &JobForecast, as_is: &JobForecast) -> Vec<String> {
        let no_answer = |reason: &Refusal| format!("no answer: {}", refusal(self.w, reason));
        match &job.answers {
            Err(reason) => vec![format!("    {}", no_answer(reason))],
            Ok(answers) => rebuilt
                .iter()
                .zip(answers)
                .map(|(c, answer)| {
                    let words = answer.as_ref().map_or_else(no_answer, |f| self.answer(f, self.same(c, as_is)));
                    format!("    {}: {words}", self.fuel(c))
                })
                .collect(),
        }
    }

    fn fuel(&self, c: &Combination) -> String {
        let named = |fuel: &String| self.w.apparatus(ApparatusKind::Fuel, fuel);
        c.fuel.as_ref().map_or_else(|| combination(self.w, c), named)
    }

    /// The same job with the same combination as it is.
    fn same<'f>(&self, rebuilt: &Combination, as_is: &'f JobForecast) -> Option<&'f Forecast> {
        let is_it =
            |c: &Combination| c.stove == rebuilt.stove && c.fuel == rebuilt.fuel && c.exchanger == rebuilt.exchanger;
        let place = self.forecasts.combinations.iter().position(is_it)?;
        as_is.answers.as_ref().ok()?.get(place)?.as_ref().ok()
    }

    /// "4.1 kg of wood (one burn: 3.2 to 5.2 kg; as it is 4.6 kg) in 98 min (one burn: 80 to 122 min; as it is 107 min)".
    fn answer(&self, forecast: &Forecast, today: Option<&Forecast>) -> String {
        let as_it_is = |value: Option<String>| value.map_or_else(String::new, |value| format!("; as it is {value}"));
        let time = self.w.time_spread(&forecast.time);
        let time_now = as_it_is(today.map(|f| self.w.time_spread(&f.time).value));
        let wood = forecast.wood.map_or_else(String::new, |wood| {
            let words = self.w.wood_spread(&wood);
            let now = as_it_is(today.and_then(|f| f.wood).map(|wood| self.w.wood_spread(&wood).value));
            format!("{} of wood (one burn: {}{now}) in ", words.value, words.next)
        });
        format!("{wood}{} (one burn: {}{time_now})", time.value, time.next)
    }
}
