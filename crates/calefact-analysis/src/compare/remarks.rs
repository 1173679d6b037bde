//! Words about design and method: what a reader must know to believe, or doubt, a comparison.

use super::groups::{choose, title};
use super::sentence::level_name;
use crate::finding::Finding;
use crate::result::{Comparison, Gap, TrialSummary};
use crate::settings::{Combine, ComparisonRequest, End, Propagation, RigCheck, Settings, Window};
use crate::words::plural;
use std::collections::HashSet;

/// Remarks on the design of one comparison.
pub fn design(request: &ComparisonRequest, chosen: &[&TrialSummary], levels: &[String], adjusted: bool) -> Vec<String> {
    if levels.len() < 2 {
        return vec![format!("only {} of {}: nothing to compare", plural(levels.len(), "level"), request.factor)];
    }
    let count = |level: &&String| chosen.iter().filter(|t| t.level(&request.factor) == Some(level)).count();
    let single: Vec<String> = levels.iter().filter(|l| count(l) == 1).map(|l| level_name(&request.factor, l)).collect();
    if single.is_empty() || super::frame::is_numeric(levels) {
        return Vec::new();
    }
    let what = if adjusted {
        "its scatter is taken from the others"
    } else {
        "its scatter is unknown, so it takes part in no test"
    };
    vec![format!("{} was tried only once: {what}", single.join(", "))]
}

/// Findings of the analysis as a whole.
pub fn findings(settings: &Settings, comparisons: &[Comparison]) -> Vec<Finding> {
    settings
        .comparisons
        .iter()
        .zip(comparisons)
        .filter(|(_, c)| c.levels.is_empty())
        .map(|(request, _)| {
            Finding::warning_text(
                "empty-comparison",
                format!(
                    "the comparison of {} has no usable {} trial with that column filled",
                    title(request),
                    request.kind.name()
                ),
            )
            .hint("check the factor's name against the register's columns, and the findings of the trials")
        })
        .collect()
}

/// A finding for each comparison whose main quantity could not be given for any trial, with the commonest reason.
pub fn without_main(
    settings: &Settings,
    comparisons: &[Comparison],
    trials: &[TrialSummary],
    gaps: &[Gap],
) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for (request, comparison) in settings.comparisons.iter().zip(comparisons) {
        let Some(main) = request.quantities.first().filter(|_| !comparison.levels.is_empty()) else { continue };
        if comparison.groups.iter().any(|g| g.quantity == *main) {
            continue;
        }
        let chosen: HashSet<&str> = choose(request, trials).iter().map(|t| &*t.trial).collect();
        let lacking = |g: &Gap| g.trials.iter().filter(|i| chosen.contains(&*trials[**i].trial)).count();
        let of_main = gaps.iter().filter(|g| g.quantity == *main).map(|g| (lacking(g), g));
        let Some((count, gap)) = of_main.filter(|(n, _)| *n > 0).max_by_key(|(n, _)| *n) else { continue };
        let of = plural(count, "trial");
        let message = format!("{} could not be given: {} ({of})", main.label(), gap.reason);
        let mut finding = Finding::warning_text("main-quantity-missing", message);
        if !comparison.groups.is_empty() {
            finding = finding.action("the next quantity stands in its place");
        }
        let finding = finding.hint("the table `missing` says for each trial what is lacking");
        if !findings.contains(&finding) {
            findings.push(finding);
        }
    }
    findings
}

/// The settings in words, one line each.
pub fn method(settings: &Settings) -> Vec<String> {
    let mut lines = vec![format!("intervals of {:.0} %", 100.0 * settings.level)];
    lines.push(match settings.window {
        Window::WholeLog => format!("trials reduced over the whole log, a burn ending at {}", end(settings.end)),
        Window::Between { from, to } => {
            format!("trials reduced between tank temperatures of {from} and {to} degC, crossings interpolated")
        }
    });
    lines.push(format!("heating rate stated at a tank of {} degC", settings.heating_rate_at));
    lines.push(match settings.propagation {
        Propagation::FirstOrder => "uncertainty propagated to first order (JCGM 100:2008)".into(),
        Propagation::MonteCarlo { seed, digits } => {
            format!(
                "uncertainty propagated by Monte Carlo beside first order (JCGM 101:2008), seed {seed}, {} stable",
                plural(usize::from(digits), "digit")
            )
        }
    });
    if let Some(job) = &settings.reference_job {
        lines.push(format!(
            "reference job: {:.0} L from {} to {} degC in air of {} degC",
            1000.0 * job.water_m3,
            job.from,
            job.to,
            job.ambient
        ));
    }
    lines.push(match settings.combine {
        Combine::Mean => "repeats combined by their plain mean, levels compared by Welch's test with Holm's adjustment unless a comparison says otherwise".into(),
        Combine::Reml => "repeats combined by random effects (REML), Hartung-Knapp-Sidik-Jonkman intervals".into(),
        Combine::PauleMandel => {
            "repeats combined by random effects (Paule-Mandel), Hartung-Knapp-Sidik-Jonkman intervals".into()
        }
    });
    lines.push(match settings.rig_check {
        RigCheck::Report => "reference-heater trials are shown and change nothing".into(),
        RigCheck::Bound => {
            "the reference heater's distance from one is added to the uncertainty of delivered heat".into()
        }
        RigCheck::Correct => "delivered heat is divided by the reference heater's ratio".into(),
    });
    lines
}

fn end(end: End) -> String {
    match end {
        End::LastReading => "the last reading".into(),
        End::Target(t) => format!("a tank of {t} degC"),
        End::FireOut => "the event `fire out`".into(),
        End::Peak => "the highest tank temperature".into(),
    }
}
