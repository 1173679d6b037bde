//! The next build: what half and twice the tube would give, how that is known, what to beware of.

use super::grid::{Grid, Names, Text};
use crate::charts::{Chart, Home};
use crate::words::{EstimateWords, Measure, Wording, build, capital, sentence};
use calefact_analysis::result::{Analysis, BuildForecast};

/// Forecasts shown; all are in `builds.csv`.
const MOST: usize = 40;

/// The section.
pub(super) struct Section<'a> {
    /// Forecasts of half and twice the tube, one sentence a stove.
    pub(super) answers: Vec<Text>,
    /// Premises of all of them: the fire, the model.
    pub(super) model: Vec<Text>,
    /// Cautions and limits of twice the tube, each with its place.
    pub(super) remarks: Vec<Text>,
    /// The chart.
    pub(super) charts: Vec<&'a Chart>,
    /// All forecasts.
    pub(super) grid: Grid,
}

/// The section, if any exchanger was measured.
pub(super) fn section<'a>(w: &Wording<'_>, analysis: &Analysis, charts: &'a [Chart]) -> Option<Section<'a>> {
    let builds = &analysis.builds;
    builds.model.as_ref()?;
    let curves = &builds.curves;
    let shown = |f: &&BuildForecast| curves.iter().any(|c| c.stove == f.stove && c.exchanger == f.exchanger);
    let twice = builds.forecasts.iter().filter(|f| f.ratio.area > 1.0).filter(shown);
    Some(Section {
        answers: curves.iter().filter_map(|c| build::summary(w, builds, c)).collect(),
        model: build::premises(w, builds),
        remarks: twice.flat_map(|f| remarks(w, f)).collect(),
        charts: charts.iter().filter(|c| c.home == Home::Builds).collect(),
        grid: grid(w, &builds.forecasts),
    })
}

/// "Single coil on Rocket stove, twice the tube (12 m): the gas would leave ..."
fn remarks(w: &Wording<'_>, forecast: &BuildForecast) -> Vec<Text> {
    let place = build::place(w, forecast.stove.as_deref(), &forecast.exchanger);
    let change = build::change(w, forecast);
    let remark = |text: String| sentence(&format!("{place}, {change}: {text}"));
    build::clauses(w, forecast).into_iter().map(remark).collect()
}

fn grid(w: &Wording<'_>, forecasts: &[BuildForecast]) -> Grid {
    let (heat, gas, times) = (w.unit(Measure::HeatFlow), w.unit(Measure::Temperature), w.unit(Measure::Ratio));
    let columns = [
        ("Exchanger and stove".to_owned(), false),
        ("Tube".to_owned(), false),
        ("n".to_owned(), true),
        (format!("Heat into the water ({})", heat.symbol), true),
        ("Interval".to_owned(), true),
        ("Times today's heat".to_owned(), true),
        ("Interval".to_owned(), true),
        (format!("Gas after it ({})", gas.symbol), true),
        ("Interval".to_owned(), true),
        ("Reach".to_owned(), false),
    ];
    let row = |f: &BuildForecast| {
        let words = |unit, estimate| w.estimate_in(unit, estimate);
        let (power, gas_out) = (words(&heat, &f.power.mean), words(&gas, &f.gas_out.mean));
        let gain = f.gain.as_ref().map(|gain| words(&times, &gain.mean));
        let of_gain = |pick: fn(EstimateWords) -> Text| gain.clone().map_or_else(|| "–".to_owned(), pick);
        vec![
            build::place(w, f.stove.as_deref(), &f.exchanger),
            capital(&build::change(w, f)),
            f.burns.to_string(),
            power.value,
            power.interval,
            of_gain(|g| g.value),
            of_gain(|g| g.interval),
            gas_out.value,
            gas_out.interval,
            build::reach_word(&f.reach).to_owned(),
        ]
    };
    Grid {
        caption: "Exchangers as they are, with half and with twice the tube, on the same fire.".to_owned(),
        head: columns.into(),
        rows: forecasts.iter().take(MOST).map(row).collect(),
        names: Names::None,
    }
}
