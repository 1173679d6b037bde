//! Methods: the settings of an analysis as sentences, and how means and contrasts were obtained as labels of tables.

use super::{Wording, list, plural};
use calefact_analysis::result::{Method, ModelDescription};
use calefact_analysis::settings::{Combine, End, Propagation, ReferenceJob, RigCheck, Settings, Window};

/// How slopes are obtained, for tables.
pub(crate) const SLOPE: &str = "slope of the linear model";

/// How a mean or a contrast was obtained, for tables and captions.
pub(crate) fn method_label(method: &Method) -> String {
    match method {
        Method::SingleTrial => "one trial: how much trials differ is not known, so there is no interval of a mean; `estimates` has that of the trial".to_owned(),
        Method::BorrowedScatter => "one trial, with the scatter of the other levels".to_owned(),
        Method::Mean => "mean, t interval, shared errors kept".to_owned(),
        Method::TwoTrials => "two trials: unweighted mean, t interval".to_owned(),
        Method::Reml => "random effects (REML), Hartung-Knapp-Sidik-Jonkman interval".to_owned(),
        Method::PauleMandel => "random effects (Paule-Mandel), Hartung-Knapp-Sidik-Jonkman interval".to_owned(),
        Method::Welch => "Welch, shared errors cancelled".to_owned(),
        Method::MarginalMean(model) => format!("marginal mean, {}", model_label(model)),
        Method::Contrast(model) => model_label(model),
    }
}

fn model_label(model: &ModelDescription) -> String {
    let held = &model.adjusted_for;
    let held = if held.is_empty() { String::new() } else { format!(" adjusted for {}", held.join(", ")) };
    match &model.block {
        Some(block) if model.blocks_alike => {
            format!("linear model{held}, no variance found between levels of {block}, shared errors kept")
        }
        Some(block) => format!("mixed model{held}, random {block}, Kenward-Roger, shared errors kept"),
        None => format!("linear model{held}, shared errors kept"),
    }
}

/// The settings of an analysis, one sentence each.
pub(crate) fn settings(w: &Wording<'_>, settings: &Settings) -> Vec<String> {
    let mut lines = vec![
        format!("Every interval is a {} interval.", w.confidence(settings.level)),
        window(w, settings),
        format!(
            "The heating rate is stated at a tank temperature of {}.",
            whole_temperature(w, settings.heating_rate_at)
        ),
        propagation(settings.propagation),
    ];
    lines.extend(settings.reference_job.as_ref().map(|job| reference_job(w, job)));
    lines.push(combine(settings.combine).to_owned());
    lines.push(rig_check(settings.rig_check).to_owned());
    if !settings.comparisons.is_empty() {
        lines.push(verdicts(w, settings.level));
    }
    lines
}

fn window(w: &Wording<'_>, settings: &Settings) -> String {
    match settings.window {
        Window::WholeLog => {
            let end = match settings.end {
                End::LastReading => "the last reading".to_owned(),
                End::Target(degc) => format!("a tank temperature of {}", whole_temperature(w, degc)),
                End::FireOut => format!("the event {}", w.quoted("fire out")),
                End::Peak => "the highest tank temperature".to_owned(),
            };
            format!("Trials are reduced over the whole log; a burn ends at {end}.")
        }
        Window::Between { from, to } => format!(
            "Trials are reduced between tank temperatures of {} and {}; the times between readings are interpolated.",
            whole_temperature(w, from),
            whole_temperature(w, to)
        ),
    }
}

/// A temperature that a person chose: without decimals where it has none in the reader's unit.
fn whole_temperature(w: &Wording<'_>, degc: f64) -> String {
    w.measure(super::Measure::Temperature, degc)
}

fn propagation(propagation: Propagation) -> String {
    match propagation {
        Propagation::FirstOrder => "Uncertainty is propagated to first order (JCGM 100:2008).".to_owned(),
        Propagation::MonteCarlo { seed, digits } => format!(
            "Uncertainty is propagated to first order and, beside it, by Monte Carlo (JCGM 101:2008) with seed {seed} until {} \
             of the standard uncertainty are stable.",
            plural(usize::from(digits), "digit")
        ),
    }
}

fn reference_job(w: &Wording<'_>, job: &ReferenceJob) -> String {
    let moisture = job.fuel_moisture.map(|m| format!("fuel moisture {} (wet basis)", w.share(m)));
    let temperatures = [
        format!("{} of water", w.volume(job.water_m3)),
        format!("from {} to {}", whole_temperature(w, job.from), whole_temperature(w, job.to)),
        format!("in air of {}", whole_temperature(w, job.ambient)),
    ];
    let parts: Vec<String> = [temperatures.join(" ")].into_iter().chain(moisture).collect();
    format!("The reference job is {}.", list(&parts))
}

fn combine(combine: Combine) -> &'static str {
    match combine {
        Combine::Mean => {
            "Repeats are combined by their plain mean, and levels are compared by Welch's test with Holm's adjustment unless a \
             comparison states otherwise."
        }
        Combine::Reml => "Repeats are combined by random effects (REML) with Hartung-Knapp-Sidik-Jonkman intervals.",
        Combine::PauleMandel => {
            "Repeats are combined by random effects (Paule-Mandel) with Hartung-Knapp-Sidik-Jonkman intervals."
        }
    }
}

/// How many false verdicts a page may hold.
fn verdicts(w: &Wording<'_>, level: f64) -> String {
    format!(
        "Of all pages like this one, at most {} hold any false verdict: each comparison has an equal share of that error, four \
         fifths of it for its main quantity, and what is settled passes its share on (Bretz, Maurer, Brannath & Posch 2009).",
        w.percent(1.0 - level)
    )
}

fn rig_check(check: RigCheck) -> &'static str {
    match check {
        RigCheck::Report => "Reference-heater trials are shown and change nothing.",
        RigCheck::Bound => {
            "The distance of the reference heater's ratio from one is added to the uncertainty of delivered heat."
        }
        RigCheck::Correct => "Delivered heat is divided by the reference heater's ratio.",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_are_sentences() {
        let job =
            ReferenceJob { water_m3: 0.16, from: 10.0, to: 37.777_777_8, ambient: 12.5, fuel_moisture: Some(0.15) };
        let asked = Settings {
            window: Window::Between { from: 20.0, to: 60.0 },
            propagation: Propagation::MonteCarlo { seed: 7, digits: 2 },
            reference_job: Some(job),
            combine: Combine::Reml,
            rig_check: RigCheck::Bound,
            ..Settings::default()
        };
        insta::assert_snapshot!(settings(&Wording::plain(), &asked).join("\n"), @r"
        Every interval is a 95 % interval.
        Trials are reduced between tank temperatures of 20 degC and 60 degC; the times between readings are interpolated.
        The heating rate is stated at a tank temperature of 40 degC.
        Uncertainty is propagated to first order and, beside it, by Monte Carlo (JCGM 101:2008) with seed 7 until 2 digits of the standard uncertainty are stable.
        The reference job is 160 L of water from 10 degC to 37.8 degC in air of 12.5 degC and fuel moisture 15 % (wet basis).
        Repeats are combined by random effects (REML) with Hartung-Knapp-Sidik-Jonkman intervals.
        The distance of the reference heater's ratio from one is added to the uncertainty of delivered heat.
        ");
    }

    #[test]
    fn each_end_of_a_burn_is_named() {
        let ends = [End::LastReading, End::Target(60.0), End::FireOut, End::Peak];
        let words = ends.map(|end| window(&Wording::plain(), &Settings { end, ..Settings::default() }));
        let ends = [
            "the last reading",
            "a tank temperature of 60 degC",
            "the event `fire out`",
            "the highest tank temperature",
        ];
        assert_eq!(words, ends.map(|end| format!("Trials are reduced over the whole log; a burn ends at {end}.")));
    }

    #[test]
    fn models_name_what_is_held_constant() {
        let model = |block: Option<&str>, blocks_alike| ModelDescription {
            adjusted_for: vec!["fuel".into(), "fuel_moisture".into()],
            block: block.map(Into::into),
            blocks_alike,
        };
        assert_eq!(
            method_label(&Method::Contrast(model(Some("day"), false))),
            "mixed model adjusted for fuel, fuel_moisture, random day, Kenward-Roger, shared errors kept"
        );
        assert_eq!(
            method_label(&Method::MarginalMean(model(None, false))),
            "marginal mean, linear model adjusted for fuel, fuel_moisture, shared errors kept"
        );
        assert_eq!(
            method_label(&Method::Contrast(model(Some("day"), true))),
            "linear model adjusted for fuel, fuel_moisture, no variance found between levels of day, shared errors kept"
        );
    }
}
