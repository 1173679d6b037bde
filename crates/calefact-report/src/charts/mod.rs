//! The charts of a report, one file a chart. Each says one thing, and its title says it in words.

mod area;
mod balance;
mod build;
mod chart;
mod conductance;
mod curves;
mod dots;
pub(crate) mod doubt;
mod frame;
mod groups;
mod jobs;
mod legend;
mod stacked;

pub(crate) use chart::{Chart, Home};

use crate::ReportError;
use crate::leaders::leaders;
use crate::words::Wording;
use calefact_analysis::result::Analysis;

/// Draws every chart the analysis has data for.
pub(crate) fn draw_all(analysis: &Analysis, w: &Wording<'_>) -> Result<Vec<Chart>, ReportError> {
    let mut charts = Vec::new();
    if let Some(leaders) = leaders(&analysis.forecasts) {
        charts.extend(jobs::draw(w, analysis, &leaders)?);
    }
    charts.extend(groups::draw(w, analysis)?);
    charts.extend(curves::draw(w, analysis)?);
    charts.extend(balance::draw(w, analysis)?);
    charts.extend(conductance::draw(w, analysis)?);
    charts.extend(area::draw(w, analysis)?);
    charts.extend(build::draw(w, analysis)?);
    charts.extend(doubt::draw(w, analysis)?);
    Ok(charts)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;
    use calefact_data::TrialKind;

    #[test]
    fn every_chart_is_a_scaling_titled_image_without_foreign_parts() {
        let charts = draw_all(&fixture::analysis(), &Wording::plain()).unwrap();
        let files: Vec<&str> = charts.iter().map(|c| c.file.as_str()).collect();
        insta::assert_debug_snapshot!(files);
        for chart in &charts {
            assert!(
                chart.svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 4600 "),
                "{}",
                chart.file
            );
            assert!(chart.svg.contains("role=\"img\"") && chart.svg.contains("<title>"), "{}", chart.file);
            assert_eq!(chart.svg.matches("http").count(), 1, "{} asks for nothing from outside", chart.file);
            assert!(!chart.svg.contains("NaN") && !chart.svg.contains("<XL>"), "{}", chart.file);
            assert!(!chart.caption.is_empty(), "{}", chart.file);
        }
    }

    #[test]
    fn many_trials_are_thinned_and_the_caption_says_so() {
        let mut analysis = fixture::analysis();
        let burns = || analysis.shown.iter().filter(|t| t.row.kind == TrialKind::Burn).cloned();
        let copies = (0..20).flat_map(|copy| {
            burns().map(move |mut t| {
                t.row.trial = format!("{}-{copy}", t.row.trial);
                t
            })
        });
        let all = fixture::gathered(analysis.shown.iter().cloned().chain(copies));
        analysis.trials = all.trials;
        (analysis.shown, analysis.curves) = all.shown.finish();
        let charts = draw_all(&analysis, &Wording::plain()).unwrap();
        let curves = charts.iter().find(|c| c.home == Home::Curves).unwrap();
        assert!(curves.caption.contains("Of 191 trials, one in 4 of each set"), "{}", curves.caption);
        analysis.comparisons.clear();
        let charts = draw_all(&analysis, &Wording::plain()).unwrap();
        let balance = charts.iter().find(|c| c.home == Home::Balance).unwrap();
        assert!(balance.caption.contains("16 at most"), "{}", balance.caption);
    }

    #[test]
    fn an_analysis_without_comparison_or_balance_still_has_its_curves() {
        let mut analysis = fixture::analysis();
        analysis.builds.curves.clear();
        analysis.comparisons.clear();
        analysis.forecasts = calefact_analysis::result::Forecasts::default();
        let cooling = analysis.shown.iter().filter(|t| t.row.kind == TrialKind::StandingLoss).cloned();
        let cooling = fixture::gathered(cooling);
        analysis.trials = cooling.trials;
        (analysis.shown, analysis.curves) = cooling.shown.finish();
        let files: Vec<String> = draw_all(&analysis, &Wording::plain()).unwrap().into_iter().map(|c| c.file).collect();
        assert_eq!(files, ["curves.svg"]);
    }
}
