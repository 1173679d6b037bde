//! The HTML report: one self-contained page, the answer first. Each section is built in a file of its own from the
//! analysis; the words around them are in `templates/`.

mod answer;
mod balance;
pub(crate) mod book;
mod budget;
mod build;
mod calculator;
mod evidence;
mod files;
#[expect(unreachable_pub, clippy::inline_always, clippy::unused_self, reason = "of what the macro for filters adds")]
pub(crate) mod filters;
mod glance;
mod grid;
mod jobs;
mod notices;
mod trials;
mod verdicts;

use crate::charts::{Chart, Home};
use crate::leaders::leaders;
use crate::manifest::{Hashed, ToolInfo};
use crate::pick;
use crate::words::advice::advice;
use crate::words::glossary::{self, Term};
use crate::words::method::settings;
use crate::words::planning::TargetWords;
use crate::words::{Wording, assumed, list, plural, printable};
use crate::{ReportError, Results};
use askama::Template;
use calefact_analysis::Quantity;
use calefact_analysis::result::Analysis;
use calefact_data::TrialKind;
use grid::{Grid, Text};
use std::path::Path;

/// Items of a line on assumptions that are shown at once.
const MOST_ASSUMED: usize = 3;

#[derive(Template)]
#[template(path = "report.html")]
struct Page<'a> {
    title: &'a str,
    name: &'a str,
    invented: bool,
    dark: String,
    summary: Text,
    level: Text,
    assumed: Vec<(Text, Option<Text>)>,
    jobs: Option<jobs::Section>,
    next: &'a [TargetWords],
    job_charts: Vec<&'a Chart>,
    calculator: Option<String>,
    answers: Vec<answer::Answer>,
    notices: notices::Notices,
    evidence: Vec<evidence::Section<'a>>,
    curves: Vec<&'a Chart>,
    trials: trials::Section,
    balance_charts: Vec<&'a Chart>,
    balance_groups: Option<Grid>,
    balance: Option<Grid>,
    reconciled: Option<Grid>,
    exchanger: Vec<&'a Chart>,
    build: Option<build::Section<'a>>,
    losses: Option<Grid>,
    rig: Option<Grid>,
    doubt: Vec<&'a Chart>,
    budget: Vec<budget::Section>,
    advice: Vec<Text>,
    findings: Option<Grid>,
    method: Vec<Text>,
    glossary: Vec<Term>,
    tool: &'a ToolInfo,
    inputs: Option<Grid>,
    inputs_left: usize,
}

/// Renders the page; files that findings name are shown relative to `base`.
pub(crate) fn page(
    w: &Wording<'_>,
    Results { analysis, next }: Results<'_>,
    charts: &[Chart],
    (inputs, base): (&[Hashed], &Path),
    tool: &ToolInfo,
) -> Result<String, ReportError> {
    let at = |home: Home| charts.iter().filter(|c| c.home == home).collect::<Vec<_>>();
    let page = Page {
        title: &analysis.title,
        name: &analysis.name,
        invented: analysis.invented,
        summary: summary(analysis),
        level: w.confidence(analysis.level),
        assumed: assumed::items(w, &analysis.assumptions).iter().map(|line| line.split(MOST_ASSUMED)).collect(),
        dark: crate::figure::dark_rules(),
        jobs: jobs::section(w, analysis, leaders(&analysis.forecasts).as_ref()),
        next,
        job_charts: at(Home::Jobs),
        calculator: calculator::data(w, analysis),
        answers: answer::answers(w, &analysis.comparisons),
        notices: notices::collect(w, analysis, base),
        evidence: evidence::sections(w, analysis, charts),
        curves: at(Home::Curves),
        trials: trials::section(w, analysis),
        balance_charts: at(Home::Balance),
        balance_groups: balance::groups(w, analysis),
        balance: balance::grid(w, analysis),
        reconciled: balance::reconciled(w, analysis),
        exchanger: at(Home::Exchanger),
        build: build::section(w, analysis, charts),
        losses: evidence::losses(w, analysis),
        rig: evidence::rig(w, analysis),
        doubt: at(Home::Doubt),
        budget: budget::sections(w, analysis),
        advice: analysis.advice.iter().map(|a| advice(w, a)).collect(),
        findings: notices::grid(w, analysis, base),
        method: settings(w, &analysis.settings),
        glossary: glossary::terms(&shown(analysis)),
        tool,
        inputs: files::grid(inputs),
        inputs_left: inputs.len().saturating_sub(files::MOST),
    };
    page.render()
        .map(printable)
        .map_err(|e| ReportError::Draw { what: "report.html".to_owned(), message: e.to_string() })
}

/// Quantities that the page shows.
fn shown(analysis: &Analysis) -> Vec<Quantity> {
    let compared: Vec<Quantity> = analysis.comparisons.iter().flat_map(pick::quantities).collect();
    let has = |q: &Quantity| compared.contains(q) || analysis.shown.iter().any(|t| t.get(*q).is_some());
    Quantity::ALL.iter().copied().filter(has).collect()
}

/// "9 burns and 1 standing-loss trial (vessel cooling without a fire)".
fn summary(analysis: &Analysis) -> Text {
    let kinds = [
        (TrialKind::Burn, "burn", ""),
        (TrialKind::StandingLoss, "standing-loss trial", " (the vessel cools without a fire)"),
        (TrialKind::ReferenceHeater, "reference-heater trial", " (metered electric heat checks the rig)"),
    ];
    let count = |kind| analysis.trials.iter().filter(|t| t.kind == kind).count();
    let counts = kinds.into_iter().map(|(kind, name, what)| (count(kind), name, what)).filter(|(n, ..)| *n > 0);
    list(&counts.map(|(n, name, what)| plural(n, name) + what).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Typography, Units};
    use crate::{charts, fixture};
    use calefact_analysis::result::{Forecasts, ScatterOrigin};

    fn tool() -> ToolInfo {
        ToolInfo { name: "calefact".into(), version: "0.0.0".into(), command: "calefact run a<b>.toml".into() }
    }

    fn rendered(analysis: &Analysis) -> String {
        rendered_in(Units::Metric, analysis)
    }

    fn rendered_in(units: Units, analysis: &Analysis) -> String {
        let input = Hashed { path: "data/trials.csv".into(), bytes: 12, sha256: "00ff".into() };
        let w = Wording::of_analysis(analysis, units, Typography::Page);
        let charts = charts::draw_all(analysis, &w).unwrap();
        let results = Results { analysis, next: &next_steps() };
        page(&w, results, &charts, (&[input], Path::new("")), &tool()).unwrap()
    }

    /// Of the grounds the page has the first.
    fn next_steps() -> Vec<TargetWords> {
        let grounds = vec!["About 6 burns of each show a difference of 10 %.".into(), "Of the plan alone.".into()];
        vec![TargetWords { answer: "Stove: make 6 burns of each in all: 3 more of rocket.".into(), grounds }]
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
    fn jobs_come_before_the_verdicts() {
        let page = rendered(&fixture::analysis());
        let jobs = part(&page, "<section id=\"jobs\">", "<section id=\"answer\">");
        let first = &jobs[..jobs.find("<svg").unwrap()];
        insta::assert_snapshot!(first);
        let mut analysis = fixture::analysis();
        analysis.forecasts.combinations[0].scatter = ScatterOrigin::Unknown;
        analysis.forecasts.combinations[1].scatter = ScatterOrigin::Unknown;
        assert!(rendered(&analysis).contains("least wood, how sure cannot be told without repeats"));
        analysis.forecasts = Forecasts::default();
        let page = rendered(&analysis);
        assert!(
            !page.contains("id=\"jobs\"") && !page.contains("<script"),
            "without burns there is nothing to forecast"
        );
    }

    /// Data for the script cannot end it.
    #[test]
    fn the_data_of_the_calculator_stay_inside_their_script() {
        let mut analysis = fixture::analysis();
        analysis.forecasts.combinations[0].stove = Some("</script><b>".into());
        analysis.forecasts.combinations[0].net_dry = f64::NAN;
        let page = rendered(&analysis);
        let data = part(&page, "id=\"laws\">", "</script>").trim_start_matches("id=\"laws\">");
        let data: serde_json::Value = serde_json::from_str(data).unwrap();
        assert_eq!(data["combinations"][0]["levels"][0], "</script><b>");
        assert_eq!(data["combinations"][1]["mean"][2][0], 0.95 * 6e-4);
        assert!(data["combinations"][0]["net_dry"].is_null(), "a number that is not known");
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
        for forbidden in ["<script>alert", "<script src", "<img", "<link", "@import", "url(", "src=\"", "a<b>"] {
            assert!(!page.contains(forbidden), "{forbidden}");
        }
        let foreign = page.match_indices("http").filter(|(i, _)| !page[*i..].starts_with("http://www.w3.org/2000/svg"));
        assert_eq!(foreign.count(), 0, "no address outside");
    }

    /// Hidden parts of the page, its style and its links, are not read.
    fn text_of(page: &str) -> String {
        let body = page.split_once("</style>").unwrap().1;
        let body: String =
            body.split("<script").map(|p| p.split_once("</script>").map_or(p, |(_, after)| after)).collect();
        body.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| text).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn a_page_in_united_states_units_has_no_metric_unit() {
        let analysis = fixture::analysis();
        let metric = text_of(&rendered(&analysis));
        assert!(["°C", "kg/kWh", "MJ", "W/K"].iter().all(|unit| metric.contains(unit)));
        let us = text_of(&rendered_in(Units::Us, &analysis));
        assert!(["°F", "lb/kWh", "Btu"].iter().all(|unit| us.contains(unit)));
        for unit in ["°C", "degC", "kg", "MJ", "W/K", "W/(", "K/min", "g/s"] {
            assert!(!us.contains(unit), "{unit}: {:?}", us.find(unit).map(|at| &us[at.saturating_sub(60)..at + 10]));
        }
    }

    #[test]
    fn measured_data_carry_no_banner() {
        let mut analysis = fixture::analysis();
        analysis.invented = false;
        assert!(!rendered(&analysis).to_lowercase().contains("invented data"));
    }
}
