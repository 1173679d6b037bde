//! The HTML report: one self-contained page, the answer first. Each section is built in a file of its own from the
//! analysis; the words around them are in `templates/`.

mod answer;
mod balance;
mod budget;
mod evidence;
mod files;
mod notices;
mod said;
mod trials;

use crate::ReportError;
use crate::charts::{Chart, Home};
use crate::format;
use crate::manifest::{Hashed, ToolInfo};
use askama::Template;
use calefact_analysis::result::Analysis;
use calefact_data::TrialKind;
use std::path::Path;

/// A table cell or heading text, escaped by the template.
type Text = String;

/// A table of a page.
struct Grid {
    /// What it shows; read out before it.
    caption: Text,
    /// Headings, and whether the column holds numbers.
    head: Vec<(Text, bool)>,
    /// Rows; as long as the headings.
    rows: Vec<Vec<Text>>,
    /// Whether the first column names trials.
    names: Names,
}

/// What the first column of a table is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Names {
    /// No trial.
    None,
    /// A trial, to be found here.
    Here,
    /// A trial, to be found in the table of trials.
    Linked,
}

/// A cell as it is written.
struct Cell<'a> {
    text: &'a str,
    number: bool,
    /// Anchor of a trial.
    id: Option<Text>,
    /// Anchor the cell leads to.
    link: Option<Text>,
}

impl Grid {
    /// Cells of a row.
    fn cells<'a>(&'a self, row: &'a [Text]) -> impl Iterator<Item = Cell<'a>> {
        row.iter().zip(&self.head).enumerate().map(|(column, (text, head))| {
            let names = if column == 0 { self.names } else { Names::None };
            let (id, link) = match names {
                Names::None => (None, None),
                Names::Here => (Some(trial_anchor(text)), Some("curves".to_owned())),
                Names::Linked => (None, Some(trial_anchor(text))),
            };
            Cell { text, number: head.1, id, link }
        })
    }
}

/// Anchor of a trial in the table of trials.
fn trial_anchor(trial: &str) -> Text {
    format!("trial-{}", crate::place::slug(trial))
}

#[derive(Template)]
#[template(path = "report.html")]
struct Page<'a> {
    title: &'a str,
    name: &'a str,
    invented: bool,
    summary: Text,
    level: Text,
    answers: Vec<answer::Answer>,
    notices: notices::Notices,
    evidence: Vec<evidence::Section<'a>>,
    curves: Vec<&'a Chart>,
    trials: trials::Section,
    balance_charts: Vec<&'a Chart>,
    balance_groups: Option<Grid>,
    balance: Option<Grid>,
    exchanger: Vec<&'a Chart>,
    losses: Option<Grid>,
    rig: Option<Grid>,
    doubt: Vec<&'a Chart>,
    budget: Vec<budget::Section<'a>>,
    advice: Vec<Text>,
    findings: Option<Grid>,
    method: Vec<Text>,
    tool: &'a ToolInfo,
    inputs: Option<Grid>,
    inputs_left: usize,
}

/// Renders the page; files that findings name are shown relative to `base`.
pub(crate) fn page(
    analysis: &Analysis,
    charts: &[Chart],
    (inputs, base): (&[Hashed], &Path),
    tool: &ToolInfo,
) -> Result<String, ReportError> {
    let of = |home: Home| charts.iter().filter(|c| c.home == home).collect::<Vec<_>>();
    let page = Page {
        title: &analysis.title,
        name: &analysis.name,
        invented: analysis.invented,
        summary: summary(analysis),
        level: format::percent(analysis.level),
        answers: answer::all(&analysis.comparisons),
        notices: notices::of(analysis, base),
        evidence: evidence::of(analysis, charts),
        curves: of(Home::Curves),
        trials: trials::of(analysis),
        balance_charts: of(Home::Balance),
        balance_groups: balance::groups(analysis),
        balance: balance::grid(analysis),
        exchanger: of(Home::Exchanger),
        losses: evidence::losses(analysis),
        rig: evidence::rig(analysis),
        doubt: of(Home::Doubt),
        budget: budget::of(analysis),
        advice: analysis.advice.iter().map(|a| said::full(a)).collect(),
        findings: notices::grid(analysis),
        method: analysis.method.iter().map(|m| said::full(m)).collect(),
        tool,
        inputs: files::grid(inputs),
        inputs_left: inputs.len().saturating_sub(files::MOST),
    };
    page.render().map_err(|e| ReportError::Draw { what: "report.html".to_owned(), message: e.to_string() })
}

/// "9 burns and 1 standing-loss trial; intervals at 95 %."
fn summary(analysis: &Analysis) -> Text {
    let kinds = [
        (TrialKind::Burn, "burn", "burns"),
        (TrialKind::StandingLoss, "standing-loss trial", "standing-loss trials"),
        (TrialKind::ReferenceHeater, "reference-heater trial", "reference-heater trials"),
    ];
    let mut parts = Vec::new();
    for (kind, one, many) in kinds {
        match analysis.trials.iter().filter(|t| t.kind == kind).count() {
            0 => {}
            1 => parts.push(format!("1 {one}")),
            n => parts.push(format!("{n} {many}")),
        }
    }
    list(&parts)
}

/// "a, b and c".
fn list(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{charts, fixture};

    fn tool() -> ToolInfo {
        ToolInfo { name: "calefact".into(), version: "0.0.0".into(), command: "calefact run a<b>.toml".into() }
    }

    fn rendered(analysis: &Analysis) -> String {
        let input = Hashed { path: "data/trials.csv".into(), bytes: 12, sha256: "00ff".into() };
        page(analysis, &charts::draw_all(analysis).unwrap(), (&[input], Path::new("")), &tool()).unwrap()
    }

    /// The part of the page between two marks.
    fn part<'a>(page: &'a str, from: &str, to: &str) -> &'a str {
        let rest = &page[page.find(from).unwrap()..];
        &rest[..rest.find(to).unwrap()]
    }

    #[test]
    fn the_answer_comes_first() {
        let page = rendered(&fixture::analysis());
        insta::assert_snapshot!(part(&page, "<section id=\"answer\">", "</section>"));
        let at = |text: &str| page.find(text).unwrap();
        assert!(at("Invented data.") < at("id=\"answer\"") && at("id=\"answer\"") < at("id=\"cautions\""));
        assert!(at("id=\"cautions\"") < at("id=\"errors\"") && at("id=\"errors\"") < at("id=\"by-stove\""));
    }

    #[test]
    fn cautions_errors_and_exclusions_are_near_the_top() {
        let page = rendered(&fixture::analysis());
        insta::assert_snapshot!(part(&page, "<section id=\"cautions\"", "<section id=\"by-stove\">"));
    }

    #[test]
    fn the_trials_table_as_rendered() {
        let page = rendered(&fixture::analysis());
        insta::assert_snapshot!(part(&page, "<caption><span>Every trial", "</table>"));
    }

    #[test]
    fn the_page_stands_alone_and_escapes_what_it_is_given() {
        let mut analysis = fixture::analysis();
        analysis.title = "<script>alert(1)</script>".into();
        analysis.trials[0].exclude = Some("<img src=x onerror=alert(1)>".into());
        analysis.shown[0].row.exclude = Some("<img src=x onerror=alert(1)>".into());
        let page = rendered(&analysis);
        for forbidden in ["<script", "<img", "<link", "@import", "url(", "src=\"", "a<b>"] {
            assert!(!page.contains(forbidden), "{forbidden}");
        }
        let foreign = page.match_indices("http").filter(|(i, _)| !page[*i..].starts_with("http://www.w3.org/2000/svg"));
        assert_eq!(foreign.count(), 0, "no address outside");
    }

    #[test]
    fn measured_data_carry_no_banner() {
        let mut analysis = fixture::analysis();
        analysis.invented = false;
        assert!(!rendered(&analysis).to_lowercase().contains("invented data"));
    }
}
