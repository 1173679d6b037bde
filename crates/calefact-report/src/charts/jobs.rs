//! `jobs`: the wood that each job takes, a panel a job on a scale of its own, a row a level: thick the mean, thin one next burn.

use super::frame::{self, MARGIN, SIZE, SMALL};
use super::{Chart, Home};
use crate::ReportError;
use crate::figure::{Align, Canvas, Font, GRID, INK, MUTED, Mark, PAPER, SERIES, SOFT, Scale, WIDTH, shorten};
use crate::leaders::{Leaders, level};
use crate::words::forecast::{chance, combination};
use crate::words::{DisplayUnit, Measure, Typography, Wording, capital, heading};
use calefact_analysis::forecast::least_wood;
use calefact_analysis::result::{Analysis, JobForecast, Spread};

/// Jobs drawn.
const MOST: usize = 4;
/// Height of a row, of a panel's name, of its numbers.
const ROW: f64 = 21.0;
const NAME: f64 = 24.0;
const NUMBERS: f64 = 24.0;
/// Where the plot begins and ends.
const LEFT: f64 = 112.0;
const RIGHT: f64 = WIDTH - 144.0;

/// A row.
struct Row {
    label: String,
    spread: Spread,
    words: String,
}

/// A panel.
struct Panel {
    name: String,
    rows: Vec<Row>,
}

/// Draws the chart, if wood is known.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis, leaders: &Leaders<'_>) -> Result<Option<Chart>, ReportError> {
    let panels: Vec<Panel> =
        analysis.forecasts.jobs.iter().filter_map(|job| panel(w, analysis, leaders, job)).take(MOST).collect();
    if panels.is_empty() {
        return Ok(None);
    }
    let title = title(w, analysis, leaders);
    let lines = frame::title_lines(&title);
    let mut top = frame::title_height(&lines);
    let height = |p: &Panel| NAME + ROW * p.rows.len() as f64 + NUMBERS;
    let mut canvas = Canvas::new(top + panels.iter().map(height).sum::<f64>() + 22.0);
    frame::title(&mut canvas, &lines);
    let unit = w.unit(Measure::Mass);
    for panel in &panels {
        draw_panel(&mut canvas, panel, &unit, top);
        top += height(panel);
    }
    canvas.text(
        heading("Wood", &unit.symbol),
        (0.5 * (LEFT + RIGHT), top + 6.0),
        Font::plain(SIZE, INK),
        Align::Middle,
    );
    Ok(Some(Chart {
        file: "jobs.svg".to_owned(),
        home: Home::Jobs,
        svg: canvas.finish(&title)?,
        caption: format!(
            "Mark: best estimate. Thick: {} interval of the mean of many burns. Thin: of one next burn. Each job has its own scale.",
            w.confidence(analysis.level)
        ),
    }))
}

/// Says who takes the least where that is the same and sure in every job.
fn title(w: &Wording<'_>, analysis: &Analysis, leaders: &Leaders<'_>) -> String {
    let forecasts = &analysis.forecasts;
    let answered = || forecasts.jobs.iter().filter(|job| job.answers.is_ok());
    let sure = |place: usize| {
        let mut shares = answered().map(|job| Some(least_wood(forecasts, job, &leaders.chosen)?[place]));
        shares.try_fold(1.0, |least: f64, share| Some(least.min(share?)))
    };
    let best = (0..leaders.chosen.len()).filter(|_| leaders.chosen.len() > 1).find_map(|place| {
        let share = sure(place).filter(|share| *share >= 0.95)?;
        let name = label(w, analysis, leaders, leaders.chosen[place]);
        Some(format!("{name} takes the least wood for every job ({} sure)", chance(w, share)))
    });
    best.unwrap_or_else(|| "The wood that each job takes".to_owned())
}

fn label(w: &Wording<'_>, analysis: &Analysis, leaders: &Leaders<'_>, index: usize) -> String {
    let c = &analysis.forecasts.combinations[index];
    level(c, leaders.factor).map_or_else(|| capital(&combination(w, c)), |l| w.level(leaders.factor, l))
}

fn panel(w: &Wording<'_>, analysis: &Analysis, leaders: &Leaders<'_>, job: &JobForecast) -> Option<Panel> {
    let answers = job.answers.as_ref().ok()?;
    let row = |i: &usize| {
        let forecast = answers[*i].as_ref().ok()?;
        let spread = forecast.wood.filter(|wood| wood.value.is_finite())?;
        let words = format!("{} · {}", w.wood_spread(&spread).value, w.time_spread(&forecast.time).value);
        Some(Row { label: label(w, analysis, leaders, *i), spread, words })
    };
    let rows: Vec<Row> = leaders.chosen.iter().filter_map(row).collect();
    (!rows.is_empty()).then(|| Panel { name: capital(&job.job.name), rows })
}

fn draw_panel(canvas: &mut Canvas, panel: &Panel, unit: &DisplayUnit, top: f64) {
    let ends = panel.rows.iter().flat_map(|r| {
        let widest = r.spread.next.unwrap_or(r.spread.mean);
        [r.spread.value, widest.lower, widest.upper.min(4.0 * r.spread.value)]
    });
    let scale = Scale::around(ends.map(|v| unit.value(v)), 0.02, (LEFT, RIGHT)).with_zero();
    let name = shorten(&panel.name, SIZE, true, WIDTH - 2.0 * MARGIN);
    canvas.text(name, (MARGIN, top + 13.0), Font::bold(SIZE, INK), Align::Start);
    let (first, last) = (top + NAME, top + NAME + ROW * panel.rows.len() as f64);
    let (ticks, places) = scale.ticks(4);
    for tick in ticks {
        canvas.line((scale.at(tick), first), (scale.at(tick), last), GRID, 1.0);
        let number = Typography::Page.fixed(tick, places);
        canvas.text(number, (scale.at(tick), last + 9.0), Font::plain(SMALL, MUTED), Align::Middle);
    }
    for (i, row) in panel.rows.iter().enumerate() {
        draw_row(canvas, row, i, (&scale, unit), first + ROW * (i as f64 + 0.5));
    }
}

fn draw_row(canvas: &mut Canvas, row: &Row, index: usize, (scale, unit): (&Scale, &DisplayUnit), y: f64) {
    let colour = SERIES[index % SERIES.len()];
    let at = |value: f64| scale.at(unit.value(value));
    let label = shorten(&row.label, SMALL, false, LEFT - MARGIN - 6.0);
    canvas.text(label, (MARGIN, y), Font::plain(SMALL, INK), Align::Start);
    if let Some(next) = row.spread.next {
        canvas.line((at(next.lower), y), (at(next.upper), y), SOFT, 1.4);
    }
    canvas.line((at(row.spread.mean.lower), y), (at(row.spread.mean.upper), y), colour, 5.0);
    canvas.mark(Mark(index), (at(row.spread.value), y), 6.0, PAPER);
    canvas.mark(Mark(index), (at(row.spread.value), y), 4.6, INK);
    canvas.text(&row.words, (WIDTH - MARGIN, y), Font::plain(SMALL, INK), Align::End);
}
