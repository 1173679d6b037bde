//! Words about design and method: what a reader must know to believe, or doubt, a comparison.

use super::groups::title;
use crate::result::{Comparison, TrialResult};
use crate::settings::{ComparisonRequest, End, Propagation, RigCheck, Settings, Window};
use crate::words::plural;
use calefact_data::Finding;
use calefact_stats::SourceBook;

/// Remarks on the design of one comparison.
pub fn design(request: &ComparisonRequest, chosen: &[&TrialResult], comparison: &Comparison) -> Vec<String> {
    let mut remarks = Vec::new();
    if comparison.levels.len() < 2 {
        remarks.push(format!(
            "only {} of {}: nothing to compare",
            plural(comparison.levels.len(), "level"),
            request.factor
        ));
    }
    for level in &comparison.levels {
        let n = chosen.iter().filter(|t| t.row.level(&request.factor) == Some(level)).count();
        if n == 1 {
            remarks.push(format!(
                "{} {level} has a single trial: its scatter is unknown, so it takes part in no test",
                request.factor
            ));
        }
    }
    remarks
}

/// Findings of the analysis as a whole.
pub fn findings(settings: &Settings, comparisons: &[Comparison]) -> Vec<Finding> {
    settings
        .comparisons
        .iter()
        .zip(comparisons)
        .filter(|(_, c)| c.levels.is_empty())
        .map(|(request, _)| {
            Finding::warning(
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

/// What would narrow the intervals of a comparison: more trials or a better instrument.
pub fn advice(comparison: &Comparison, sources: &SourceBook) -> Vec<String> {
    let Some(quantity) = comparison.groups.first().map(|g| g.quantity) else { return Vec::new() };
    let mut seen = Vec::new();
    for group in comparison.groups.iter().filter(|g| g.quantity == quantity) {
        let Some((_, level)) = group.levels.first() else { continue };
        let rows = super::budget::of(quantity, level, &group.traced, sources);
        let Some(first) = rows.first() else { continue };
        let without = 100.0 * (1.0 - (1.0 - first.share).max(0.0).sqrt());
        let source = &first.source;
        seen.push(if source.contains("scatter") {
            format!("{} {level}, {}: burn-to-burn scatter makes {:.0} % of the variance; more burns help most", comparison.factor, quantity.label(), 100.0 * first.share)
        } else {
            format!("{} {level}, {}: {source} makes {:.0} % of the variance; without it the interval would be {without:.0} % narrower, more burns would not touch it", comparison.factor, quantity.label(), 100.0 * first.share)
        });
    }
    seen
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
