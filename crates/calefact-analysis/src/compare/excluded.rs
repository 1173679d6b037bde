//! The result with excluded trials put back: leaving a trial out needs a reason, and shows what it did.

use super::groups::choose_with_excluded;
use super::influence::change;
use super::outcome::{Depth, Outcome, Question, analyse};
use super::sentence::{level_name, name, noun, plain};
use super::verdict::differences;
use crate::Quantity;
use crate::result::TrialSummary;
use crate::words::{plural, spoken};

/// One remark where the register excludes trials of this comparison; none otherwise.
pub fn remarks(
    question: Question<'_>,
    trials: &[TrialSummary],
    chosen: &[&TrialSummary],
    order: &[String],
    outcomes: &[Outcome],
) -> Vec<String> {
    let whole = choose_with_excluded(question.request, trials);
    let known = |t: &&&TrialSummary| t.exclude.is_some() && order.iter().any(|l| has(question, t, l));
    let out: Vec<&TrialSummary> = whole.iter().filter(known).copied().collect();
    if out.is_empty() || whole.len() == chosen.len() {
        return Vec::new();
    }
    let back: Vec<Outcome> =
        outcomes.iter().map(|o| analyse(question, &whole, order, o.quantity, Depth::Verdicts)).collect();
    let mut changes = Vec::new();
    for (before, after) in outcomes.iter().zip(&back) {
        let after = differences(question, after);
        changes.extend(differences(question, before).iter().filter_map(|b| change(before.quantity, b, &after)));
    }
    let verdicts = if changes.is_empty() {
        "no verdict would change".to_owned()
    } else {
        format!("the verdict would change on {}", changes.join("; "))
    };
    vec![format!(
        "{} left out: {}. With {} put back {verdicts}{}",
        plural(out.len(), noun(question.request.kind)),
        listed(&out),
        if out.len() == 1 { "it" } else { "them" },
        largest(question, outcomes, &back)
    )]
}

fn has(question: Question<'_>, trial: &TrialSummary, level: &str) -> bool {
    trial.level(&question.request.factor) == Some(level)
}

/// "b09 (door left open), b17 (scale moved)", the first few.
fn listed(out: &[&TrialSummary]) -> String {
    let one = |t: &&TrialSummary| format!("{} ({})", t.trial, t.exclude.as_deref().unwrap_or_default());
    let mut names: Vec<String> = out.iter().take(5).map(one).collect();
    if out.len() > names.len() {
        names.push(format!("{} more", out.len() - names.len()));
    }
    names.join(", ")
}

/// The mean that changes most, as a share of itself.
fn largest(question: Question<'_>, before: &[Outcome], after: &[Outcome]) -> String {
    let mut top: Option<(f64, Quantity, &str, f64, f64)> = None;
    for (b, a) in before.iter().zip(after) {
        for mean in &b.means {
            let Some(other) = a.means.iter().find(|m| m.level == mean.level) else { continue };
            let (x, y) = (mean.value.value, other.value.value);
            let share = (y - x).abs() / x.abs();
            if share.is_finite() && share > top.map_or(0.0, |t| t.0) {
                top = Some((share, b.quantity, &mean.level, x, y));
            }
        }
    }
    let Some((_, q, level, x, y)) = top else { return String::new() };
    let (scale, unit) = spoken(q);
    let number = |v: f64| format!("{}{unit}", plain(v * scale, (y - x).abs() * scale));
    format!(
        "; the largest change of a mean is that of {}, {}: {} instead of {}",
        level_name(&question.request.factor, level),
        name(q),
        number(y),
        number(x)
    )
}
