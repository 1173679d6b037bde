//! Cautions, errors and warnings at the top of the page, and the table of all findings at its end.

use super::{Grid, Names, Text, said};
use crate::{pick, place, trial_list};
use calefact_analysis::result::{Analysis, Caution};
use calefact_data::{Finding, Severity};

/// The caution that the page says itself, below the others.
const DEFERENCE: &str = "caution-codes";

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
    let these =
        |severity: Severity| all.iter().filter(move |f| f.severity == severity && !f.code.starts_with("caution"));
    let excluded =
        analysis.trials.iter().filter_map(|t| t.row.exclude.as_ref().map(|why| format!("{}: {why}", t.row.trial)));
    Notices {
        cautions: cautions(analysis, &all),
        errors: merge(these(Severity::Error).copied()),
        warnings: merge(these(Severity::Warning).copied()),
        excluded: excluded.collect(),
    }
}

/// One notice a code.
fn merge<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Notice> {
    by_code(findings).iter().map(|same| notice(same)).collect()
}

/// Findings by code, in the order of first appearance.
fn by_code<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Vec<&'a Finding>> {
    let mut codes: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        match codes.iter_mut().find(|same| same[0].code == finding.code) {
            Some(same) => same.push(finding),
            None => codes.push(vec![finding]),
        }
    }
    codes
}

fn notice(same: &[&Finding]) -> Notice {
    let trials = trials(same);
    let first = same[0];
    let place = match (&first.file, first.line) {
        (Some(file), Some(line)) if trials.len() < 2 => format!("{}, line {line}", place::shown(file)),
        _ => String::new(),
    };
    let names = trial_list(&trials);
    Notice {
        text: first.message.clone(),
        trials: [names, place].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join("; "),
        action: first.action.clone().unwrap_or_default(),
        hint: first.hint.clone().unwrap_or_default(),
    }
}

/// Trials the findings are about, in their order.
fn trials<'a>(same: &[&'a Finding]) -> Vec<&'a str> {
    let mut trials: Vec<&str> = same.iter().filter_map(|f| f.trial.as_deref()).collect();
    trials.dedup();
    trials
}

/// The cautions of the analysis, and those that stand among the findings alone.
fn cautions(analysis: &Analysis, all: &[&Finding]) -> Vec<Notice> {
    let of = |c: &Caution| Notice {
        text: said::full(&c.text),
        trials: trial_list(&c.trials.iter().map(String::as_str).collect::<Vec<_>>()),
        action: Text::new(),
        hint: Text::new(),
    };
    let known = |code: &str| analysis.cautions.iter().any(|c| c.code == code);
    let single = all.iter().filter(|f| f.code.starts_with("caution") && !known(f.code)).copied();
    let mut notices = merge(single);
    notices.extend(analysis.cautions.iter().filter(|c| c.code != DEFERENCE).map(of));
    notices
}

/// The table of findings, one row a code.
pub(super) fn grid(analysis: &Analysis) -> Option<Grid> {
    let all = pick::findings(analysis);
    let ranked = [Severity::Error, Severity::Warning, Severity::Note];
    let general = |f: &Finding| analysis.cautions.iter().any(|c| c.code == f.code && c.trials.is_empty());
    let listed = || all.iter().copied().filter(|f| !general(f));
    let codes = ranked.iter().flat_map(|s| by_code(listed().filter(move |f| f.severity == *s)));
    let rows: Vec<Vec<Text>> = codes.map(|same| row(&same)).collect();
    let head =
        ["Severity", "Number", "What was noticed, first case", "Trials", "What was done", "What you can do", "Code"];
    (!rows.is_empty()).then(|| Grid {
        caption: format!("The {} findings by kind, but for the general cautions above.", all.len()),
        head: head.into_iter().map(|h| (h.to_owned(), h == "Number")).collect(),
        rows,
        names: Names::None,
    })
}

fn row(same: &[&Finding]) -> Vec<Text> {
    let first = same[0];
    vec![
        pick::severity(first.severity).to_owned(),
        same.len().to_string(),
        first.message.clone(),
        trial_list(&trials(same)),
        first.action.clone().unwrap_or_default(),
        first.hint.clone().unwrap_or_default(),
        first.code.to_owned(),
    ]
}
