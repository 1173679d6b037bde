//! Cautions, errors and warnings at the top of the page, and the table of all findings at its end.

use super::grid::{Grid, Names, Text};
use crate::place;
use crate::words::{self, Wording, capital, trial_list};
use calefact_analysis::fact::CautionFact;
use calefact_analysis::finding::{Fact, FindingGroup};
use calefact_analysis::result::Analysis;
use calefact_data::{Severity, place_name};
use std::cmp::Reverse;
use std::path::Path;

/// Findings of one code, said once.
pub(super) struct Notice {
    /// The first message.
    pub(super) text: Text,
    /// "b02, b05 and 3 more"; empty if no trial is concerned.
    pub(super) trials: Text,
    /// Action taken.
    pub(super) action: Text,
    /// What to do.
    pub(super) hint: Text,
}

/// What the reader must see before the evidence.
pub(super) struct Notices {
    /// Danger to people or rig; codes that begin with `caution`.
    pub(super) cautions: Vec<Notice>,
    /// Trials and values that could not be used.
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
        cautions: cautions(analysis).into_iter().map(|k| notice(w, k, base)).collect(),
        errors: notices(Severity::Error),
        warnings: notices(Severity::Warning),
        excluded: excluded.collect(),
    }
}

fn is_caution(alike: &FindingGroup) -> bool {
    matches!(alike.leading().fact, Fact::Caution(_))
}

fn notice(w: &Wording<'_>, alike: &FindingGroup, base: &Path) -> Notice {
    let (trials, first) = (alike.trials(), alike.leading());
    let place = match (&first.file, first.line) {
        (Some(file), line) if trials.is_empty() || line.is_some() && trials.len() < 2 => {
            place_name(&place::relative(file, base), line, None)
        }
        _ => String::new(),
    };
    let words = words::message(w, &place::within(first, base));
    let names = listed(alike);
    Notice {
        text: capital(&words.text),
        trials: [names, place].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join("; "),
        action: words.action.unwrap_or_default(),
        hint: words.hint.unwrap_or_default(),
    }
}

/// The trials, and which of them the words describe where they differ.
fn listed(alike: &FindingGroup) -> Text {
    let (trials, first) = (alike.trials(), alike.leading());
    let names = trial_list(&trials);
    match &first.trial {
        Some(trial) if trials.len() > 1 && !alike.is_uniform() => format!("{names}; the figures are of {trial}"),
        _ => names,
    }
}

/// The cautions, those that a log shows first and among them the graver; the page says the last general one itself.
fn cautions(analysis: &Analysis) -> Vec<&FindingGroup> {
    let last = |k: &&FindingGroup| k.leading().fact == Fact::Caution(CautionFact::LocalCodes);
    let mut all: Vec<&FindingGroup> = analysis.noticed.kinds().iter().filter(|k| is_caution(k) && !last(k)).collect();
    all.sort_by_key(|k| (is_general(k), Reverse(k.leading().severity)));
    all
}

fn is_general(alike: &FindingGroup) -> bool {
    matches!(&alike.leading().fact, Fact::Caution(fact) if fact.is_general())
}

/// The table of findings, one row a code; files are shown relative to `base`.
pub(super) fn grid(w: &Wording<'_>, analysis: &Analysis, base: &Path) -> Option<Grid> {
    let ranked = [Severity::Error, Severity::Warning, Severity::Note];
    let listed = ranked.iter().flat_map(|s| analysis.noticed.of(*s)).filter(|k| !is_general(k));
    let listed: Vec<&FindingGroup> = listed.collect();
    let count: usize = listed.iter().map(|k| k.count()).sum();
    let rows: Vec<Vec<Text>> = listed.into_iter().map(|k| row(w, k, base)).collect();
    let head = ["Severity", "Number", "Finding, first case", "Trials", "Done about it", "What you can do", "Code"];
    (!rows.is_empty()).then(|| Grid {
        caption: format!("{count} findings by kind; the general cautions are above."),
        head: head.into_iter().map(|h| (h.to_owned(), h == "Number")).collect(),
        rows,
        names: Names::None,
    })
}

fn row(w: &Wording<'_>, alike: &FindingGroup, base: &Path) -> Vec<Text> {
    let first = alike.leading();
    let words = words::message(w, &place::within(first, base));
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
