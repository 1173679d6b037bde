//! Cautions, errors and warnings at the top of the page, and the table of all findings at its end.

use super::{Grid, Text};
use crate::{pick, place};
use calefact_analysis::result::Analysis;
use calefact_data::{Finding, Severity};

/// Findings shown in the page's table; more are in `findings.csv`.
pub(super) const MOST: usize = 300;
/// Trials named in a notice.
const NAMED: usize = 6;

/// Findings of one code, said once.
pub(super) struct Notice {
    /// The first message.
    pub(super) text: Text,
    /// "b02, b05 and 3 more"; empty if no trial is concerned.
    pub(super) trials: Text,
    /// What was done.
    pub(super) action: Text,
    /// What to do.
    pub(super) hint: Text,
}

/// What the reader must see before the evidence.
pub(super) struct Notices {
    /// Danger to people or rig; codes that begin with `caution`.
    pub(super) cautions: Vec<Notice>,
    /// What could not be used.
    pub(super) errors: Vec<Notice>,
    /// What deserves a look.
    pub(super) warnings: Vec<Notice>,
    /// Trials left out by the register: "b04: door left open".
    pub(super) excluded: Vec<Text>,
}

/// Collects the notices.
pub(super) fn of(analysis: &Analysis) -> Notices {
    let all = pick::findings(analysis);
    let caution = |f: &&&Finding| f.code.starts_with("caution");
    let these =
        |severity: Severity| all.iter().filter(move |f| f.severity == severity && !f.code.starts_with("caution"));
    let excluded =
        analysis.trials.iter().filter_map(|t| t.row.exclude.as_ref().map(|why| format!("{}: {why}", t.row.trial)));
    Notices {
        cautions: merge(all.iter().filter(caution).copied()),
        errors: merge(these(Severity::Error).copied()),
        warnings: merge(these(Severity::Warning).copied()),
        excluded: excluded.collect(),
    }
}

/// One notice a code.
fn merge<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Notice> {
    let mut codes: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        match codes.iter_mut().find(|same| same[0].code == finding.code) {
            Some(same) => same.push(finding),
            None => codes.push(vec![finding]),
        }
    }
    codes.iter().map(|same| notice(same)).collect()
}

fn notice(same: &[&Finding]) -> Notice {
    let mut trials: Vec<&str> = same.iter().filter_map(|f| f.trial.as_deref()).collect();
    trials.dedup();
    let named = trials.iter().take(NAMED).copied().collect::<Vec<_>>().join(", ");
    let more = trials.len().saturating_sub(NAMED);
    let first = same[0];
    let place = match (&first.file, first.line) {
        (Some(file), Some(line)) if trials.len() < 2 => format!("{}, line {line}", place::shown(file)),
        _ => String::new(),
    };
    let names = if more > 0 { format!("{named} and {more} more") } else { named };
    Notice {
        text: first.message.clone(),
        trials: [names, place].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join("; "),
        action: first.action.clone().unwrap_or_default(),
        hint: first.hint.clone().unwrap_or_default(),
    }
}

/// The table of findings.
pub(super) fn grid(analysis: &Analysis) -> Option<Grid> {
    let all = pick::findings(analysis);
    if all.is_empty() {
        return None;
    }
    let head = ["Severity", "Trial", "What was noticed", "What was done", "What you can do", "Where", "Code"];
    Some(Grid {
        caption: format!("All {} findings, those of no trial first.", all.len()),
        head: head.into_iter().map(|h| (h.to_owned(), false)).collect(),
        rows: all.iter().take(MOST).map(|f| row(f)).collect(),
    })
}

fn row(f: &Finding) -> Vec<Text> {
    let file = f.file.as_deref().map(place::shown).unwrap_or_default();
    let place = f.line.map_or(file.clone(), |line| format!("{file}:{line}"));
    vec![
        pick::severity(f.severity).to_owned(),
        f.trial.clone().unwrap_or_default(),
        f.message.clone(),
        f.action.clone().unwrap_or_default(),
        f.hint.clone().unwrap_or_default(),
        place,
        f.code.to_owned(),
    ]
}
