//! From the wishes as they are typed, as options or under `[plan]`, to those of the analysis.

use super::Job;
use crate::args::PlanWishes;
use crate::messages;
use calefact_analysis::Quantity;
use calefact_analysis::planning::PlanRequest;
use calefact_data::nearest;
use calefact_report::words::size_text::{self, SizeError};
use calefact_report::words::{Wording, list};
use std::collections::BTreeMap;

/// The request, from options and the pipeline file; a message says what is wrong with it.
pub(super) fn request(job: &Job, wishes: &PlanWishes) -> Option<PlanRequest> {
    settled(job, wishes).inspect_err(|line| messages::say(&format!("error: {line}"))).ok()
}

fn settled(job: &Job, wishes: &PlanWishes) -> Result<PlanRequest, String> {
    let (file, usual) = (&job.pipeline.plan, PlanRequest::default());
    let factor = wishes.factor.clone().or_else(|| file.factor.clone());
    let factors: Vec<&str> = job.pipeline.settings.comparisons.iter().map(|c| c.factor.as_str()).collect();
    if let Some(unknown) = factor.as_ref().filter(|f| !factors.contains(&f.as_str())) {
        return Err(unknown_factor(unknown, &factors));
    }
    let is_wanted = |f: &str| factor.as_ref().is_none_or(|wanted| wanted == f);
    let comparisons = job.pipeline.settings.comparisons.iter().filter(|c| is_wanted(&c.factor));
    let quantities: Vec<Quantity> = comparisons.map(|c| c.quantities[0]).collect();
    let size = |key: &str, option: &Option<String>, file: &Option<String>| {
        by_quantity(key, option.as_ref().or(file.as_ref()), &quantities, |text, q| {
            size_text::size(&Wording::plain(), text, q)
        })
    };
    let mean = wishes.mean.as_ref().or(file.mean.as_ref());
    let levels = if wishes.levels.is_empty() { &file.levels } else { &wishes.levels };
    let stated_day = || file.first_day.as_ref().and_then(|day| day.parse().ok());
    Ok(PlanRequest {
        levels: levels.iter().map(|l| l.trim().to_owned()).filter(|l| !l.is_empty()).collect(),
        difference: size("difference", &wishes.difference, &file.difference)?,
        width: size("width", &wishes.width, &file.width)?,
        scatter: size("scatter", &wishes.scatter, &file.scatter)?,
        mean: by_quantity("mean", mean, &quantities, |text, q| size_text::mean(&Wording::plain(), text, q))?,
        power: wishes.power.or(file.power).unwrap_or(usual.power),
        burns_per_day: wishes.burns_per_day.map(usize::from).or(file.burns_per_day).unwrap_or(usual.burns_per_day),
        first_day: wishes.first_day.or_else(stated_day),
        seed: wishes.seed.or(file.seed).unwrap_or(usual.seed),
        factor,
    })
}

fn unknown_factor(unknown: &str, factors: &[&str]) -> String {
    let near = nearest(unknown, factors.iter().copied()).map(|n| format!("; did you mean `{n}`?")).unwrap_or_default();
    let known: Vec<String> = factors.iter().map(|f| format!("`{f}`")).collect();
    format!(
        "no comparison of the pipeline has the factor `{unknown}`{near}; it compares {}; add a [[comparison]] for another",
        list(&known)
    )
}

/// A text for each quantity that it fits; an error where it fits none.
fn by_quantity<T>(
    key: &str,
    text: Option<&String>,
    quantities: &[Quantity],
    read: impl Fn(&str, Quantity) -> Result<T, SizeError>,
) -> Result<BTreeMap<Quantity, T>, String> {
    let Some(text) = text else { return Ok(BTreeMap::new()) };
    let mut found = BTreeMap::new();
    let mut worst = SizeError::OtherUnit;
    for quantity in quantities {
        match read(text, *quantity) {
            Ok(size) => drop(found.insert(*quantity, size)),
            Err(error) => worst = worst.max(error),
        }
    }
    if found.is_empty() { Err(worst.message(key, text)) } else { Ok(found) }
}
