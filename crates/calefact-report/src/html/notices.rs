//! Cautions, errors and warnings at the top of the page, and the table of all findings at its end.

use super::grid::{Grid, Names, Text};
use super::verdicts;
use crate::place;
use crate::words::{self, Wording, trial_list};
use calefact_analysis::finding::FindingGroup;
use calefact_analysis::result::{Analysis, Caution};
use calefact_data::Severity;
use std::path::Path;

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

/// Collects the notices; files are shown relative to `base`.
pub(super) fn collect(w: &Wording<'_>, analysis: &Analysis, base: &Path) -> Notices {
    let notices = |severity| {
        let kinds = analysis.noticed.of(severity).filter(|k| !is_caution(k));
        kinds.map(|k| notice(w, k, base)).collect()
    };
    let excluded = analysis.trials.iter().filter_map(|t| t.exclude.as_ref().map(|why| format!("{}: {why}", t.trial)));
    Notices {
        cautions: cautions(w, analysis, base),
        errors: notices(Severity::Error),
        warnings: notices(Severity::Warning),
        excluded: excluded.collect(),
    }
}

fn is_caution(alike: &FindingGroup) -> bool {
    alike.leading().code().starts_with("caution")
}

fn notice(w: &Wording<'_>, alike: &FindingGroup, base: &Path) -> Notice {
    let (trials, first) = (alike.trials(), alike.leading());
    let place = match (&first.file, first.line) {
        (Some(file), Some(line)) if trials.len() < 2 => format!("{}, line {line}", place::relative(file, base)),
        _ => String::new(),
    };
    let words = words::message(w, first);
    let names = listed(&trials, &words.text);
    Notice {
        text: words.text,
        trials: [names, place].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join("; "),
        action: words.action.unwrap_or_default(),
        hint: words.hint.unwrap_or_default(),
    }
}

/// The trials, and whose the figures of the words are.
fn listed(trials: &[&str], words: &str) -> Text {
    let names = trial_list(trials);
    match trials {
        [first, _, ..] if words.split(' ').any(|w| w.starts_with(|c: char| c.is_ascii_digit())) => {
            format!("{names}; the figures are of {first}")
        }
        _ => names,
    }
}

/// The cautions of the analysis, and those that stand among the findings alone.
fn cautions(w: &Wording<'_>, analysis: &Analysis, base: &Path) -> Vec<Notice> {
    let of_caution = |c: &Caution| Notice {
        text: verdicts::full(&c.text),
        trials: listed(&c.trials.iter().map(String::as_str).collect::<Vec<_>>(), &c.text),
        action: Text::new(),
        hint: Text::new(),
    };
    let known = |k: &&FindingGroup| analysis.cautions.iter().any(|c| c.code == k.leading().code());
    let single = analysis.noticed.kinds().iter().filter(|k| is_caution(k) && !known(k));
    let mut notices: Vec<Notice> = single.map(|k| notice(w, k, base)).collect();
    notices.extend(analysis.cautions.iter().filter(|c| c.code != DEFERENCE).map(of_caution));
    notices
}

/// The table of findings, one row a code.
pub(super) fn grid(w: &Wording<'_>, analysis: &Analysis) -> Option<Grid> {
    let ranked = [Severity::Error, Severity::Warning, Severity::Note];
    let general =
        |k: &FindingGroup| analysis.cautions.iter().any(|c| c.code == k.leading().code() && c.trials.is_empty());
    let listed = ranked.iter().flat_map(|s| analysis.noticed.of(*s)).filter(|k| !general(k));
    let listed: Vec<&FindingGroup> = listed.collect();
    let count: usize = listed.iter().map(|k| k.count()).sum();
    let rows: Vec<Vec<Text>> = listed.into_iter().map(|k| row(w, k)).collect();
    let head = ["Severity", "Number", "Finding, first case", "Trials", "Done about it", "What you can do", "Code"];
    (!rows.is_empty()).then(|| Grid {
        caption: format!("{count} findings by kind; the general cautions are above."),
        head: head.into_iter().map(|h| (h.to_owned(), h == "Number")).collect(),
        rows,
        names: Names::None,
    })
}

fn row(w: &Wording<'_>, alike: &FindingGroup) -> Vec<Text> {
    let first = alike.leading();
    let words = words::message(w, first);
    vec![
        words::severity_word(first.severity).to_owned(),
        alike.count().to_string(),
        words.text,
        trial_list(&alike.trials()),
        words.action.unwrap_or_default(),
        words.hint.unwrap_or_default(),
        first.code().to_owned(),
    ]
}
