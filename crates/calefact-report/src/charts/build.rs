//! `builds`: heat into the water and gas temperature after the exchanger against the length of the tube, one column a stove.

use super::frame::{self, MARGIN, SIZE, SMALL};
use super::{Chart, Home};
use crate::ReportError;
use crate::figure::{Align, Canvas, Font, INK, MUTED, Mark, SERIES, SOFT, Scale, WIDTH, shorten, width};
use crate::words::{DisplayUnit, Measure, Wording, heading, plural};
use calefact_analysis::result::{Analysis, BuildCurve, BuildPoint, MarkedBuild};
use calefact_data::ApparatusKind;
use calefact_physics::caution::CREOSOTE_FLUE_GAS;
use calefact_stats::Estimate;

/// Stoves drawn.
const MOST: usize = 3;
const LEFT: f64 = 56.0;
const GAP: f64 = 12.0;
const PANEL: f64 = 150.0;
/// Room above a row of panels for its heading.
const ABOVE: f64 = 30.0;
const LEGEND: f64 = 20.0;

/// One row of panels.
struct Row {
    heading: String,
    unit: DisplayUnit,
    pick: fn(&BuildPoint) -> &Estimate,
    /// A line that matters, in the unit of the fact.
    limit: Option<f64>,
}

/// Draws the chart, if any stove has an exchanger of stated length.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let all = &analysis.builds.curves;
    if all.is_empty() {
        return Ok(None);
    }
    let curves = &all[..all.len().min(MOST)];
    let svg = picture(w, curves)?;
    Ok(Some(Chart { file: "builds.svg".to_owned(), home: Home::Builds, svg, caption: caption(w, analysis, all.len()) }))
}

fn caption(w: &Wording<'_>, analysis: &Analysis, stoves: usize) -> String {
    let left = stoves.saturating_sub(MOST);
    let more = if left > 0 { format!(" {} more are in builds.csv.", plural(left, "stove")) } else { String::new() };
    format!(
        "Marks: exchangers as they were measured, with {} intervals of their means. Line and band: the exchanger with the most burns of \
         the stove, its tube made shorter and longer, with the same interval. An exchanger of another tube stands at the length of the \
         same outside area.{more}",
        w.confidence(analysis.level)
    )
}

fn rows(w: &Wording<'_>) -> [Row; 2] {
    let (heat, gas) = (w.unit(Measure::HeatFlow), w.unit(Measure::Temperature));
    let limit = w.temperature(CREOSOTE_FLUE_GAS, 0);
    [
        Row { heading: heading("Heat into the water", &heat.symbol), unit: heat, pick: |p| &p.power, limit: None },
        Row {
            heading: format!("{}; tar condenses below {limit}", heading("Gas after the exchanger", &gas.symbol)),
            unit: gas,
            pick: |p| &p.gas_out,
            limit: Some(CREOSOTE_FLUE_GAS),
        },
    ]
}

/// Exchangers in the order of first appearance: the number of each is its mark.
fn exchangers(curves: &[BuildCurve]) -> Vec<&str> {
    let mut ids: Vec<&str> = Vec::new();
    for marked in curves.iter().flat_map(|c| &c.builds) {
        if !ids.contains(&marked.exchanger.as_str()) {
            ids.push(&marked.exchanger);
        }
    }
    ids
}

fn picture(w: &Wording<'_>, curves: &[BuildCurve]) -> Result<String, ReportError> {
    let title = "A longer tube puts more heat into the water, and leaves colder gas";
    let lines = frame::title_lines(title);
    let top = frame::title_height(&lines);
    let ids = exchangers(curves);
    let legend = legend_places(w, &ids);
    let first = top + LEGEND * legend.last().map_or(1.0, |(_, line, _)| line + 1.0);
    let height = ABOVE + PANEL;
    let mut canvas = Canvas::new(first + 2.0 * height + 48.0);
    frame::title(&mut canvas, &lines);
    for (i, (x, line, name)) in legend.iter().enumerate() {
        let y = top + LEGEND * (line + 0.5);
        canvas.mark(Mark(i), (*x, y), 4.6, SERIES[i % SERIES.len()]);
        canvas.text(name, (x + 9.0, y), Font::bold(SMALL, INK), Align::Start);
    }
    let length = w.unit(Measure::LongLength);
    for (r, row) in rows(w).iter().enumerate() {
        let panel_top = first + height * r as f64 + ABOVE;
        draw_row(&mut canvas, w, row, (curves, &ids), (panel_top, &length, r == 1));
    }
    let middle = 0.5 * (LEFT + WIDTH - MARGIN);
    let label = heading("Length of the tube", &length.symbol);
    canvas.text(label, (middle, first + 2.0 * height + 32.0), Font::plain(SIZE, INK), Align::Middle);
    canvas.finish(title)
}

/// Left end, line and name of each mark of the legend.
fn legend_places(w: &Wording<'_>, ids: &[&str]) -> Vec<(f64, f64, String)> {
    let (mut x, mut line) = (MARGIN + 5.0, 0.0);
    let mut places = Vec::new();
    for id in ids {
        let name = shorten(&w.apparatus(ApparatusKind::Exchanger, id), SMALL, true, WIDTH - 2.0 * MARGIN - 20.0);
        let room = width(&name, SMALL, true) + 26.0;
        if x + room > WIDTH - MARGIN && x > MARGIN + 5.0 {
            (x, line) = (MARGIN + 5.0, line + 1.0);
        }
        places.push((x, line, name));
        x += room;
    }
    places
}

fn draw_row(
    canvas: &mut Canvas,
    w: &Wording<'_>,
    row: &Row,
    (curves, ids): (&[BuildCurve], &[&str]),
    (top, length, last): (f64, &DisplayUnit, bool),
) {
    canvas.text(&row.heading, (MARGIN, top - 18.0), Font::plain(SIZE, INK), Align::Start);
    let points = || curves.iter().flat_map(|c| c.points.iter().chain(c.builds.iter().map(|b| &b.point)));
    let ends = points().map(row.pick).flat_map(|e| [e.interval.lower, e.interval.upper]).chain(row.limit);
    let y = Scale::around(ends.map(|v| row.unit.value(v)), 0.03, (top + PANEL, top)).not_below_zero();
    let room = (WIDTH - LEFT - MARGIN + GAP) / curves.len() as f64;
    for (i, curve) in curves.iter().enumerate() {
        let left = LEFT + room * i as f64;
        let x = Scale::around(points().map(|p| length.value(p.length_m)), 0.0, (left, left + room - GAP)).with_zero();
        if i == 0 {
            frame::y_axis(canvas, &y, (LEFT, WIDTH - MARGIN), 4);
        }
        let name = curve.stove.as_ref().map_or_else(String::new, |s| w.apparatus(ApparatusKind::Stove, s));
        let name = shorten(&name, SMALL, true, room - GAP);
        canvas.text(name, (left + room - GAP, top - 4.0), Font::bold(SMALL, INK), Align::End);
        Panel { row, x, y, length }.draw(canvas, curve, ids);
        if let (Some(limit), 0) = (row.limit, i) {
            let at = y.at(row.unit.value(limit));
            canvas.line((LEFT, at), (WIDTH - MARGIN, at), MUTED, 1.8);
        }
        if last {
            ticks(canvas, &x, top + PANEL);
        }
    }
}

fn ticks(canvas: &mut Canvas, x: &Scale, bottom: f64) {
    let (ticks, places) = x.ticks(3);
    for tick in ticks {
        let words = crate::words::Typography::Page.fixed(tick, places);
        canvas.line((x.at(tick), bottom), (x.at(tick), bottom + 4.0), MUTED, 1.0);
        canvas.text(words, (x.at(tick), bottom + 12.0), Font::plain(SMALL, MUTED), Align::Middle);
    }
}

/// One panel with its scales.
struct Panel<'p> {
    row: &'p Row,
    x: Scale,
    y: Scale,
    length: &'p DisplayUnit,
}

impl Panel<'_> {
    fn at(&self, point: &BuildPoint, value: f64) -> (f64, f64) {
        (self.x.at(self.length.value(point.length_m)), self.y.at(self.row.unit.value(value)))
    }

    fn draw(&self, canvas: &mut Canvas, curve: &BuildCurve, ids: &[&str]) {
        let number = |p: &BuildPoint| (self.row.pick)(p).clone();
        let upper = curve.points.iter().map(|p| self.at(p, number(p).interval.upper));
        let lower = curve.points.iter().rev().map(|p| self.at(p, number(p).interval.lower));
        canvas.area(upper.chain(lower).collect(), SOFT, 0.35);
        canvas.path(curve.points.iter().map(|p| self.at(p, number(p).value)).collect(), INK, 1.6, 1.0);
        for MarkedBuild { exchanger, point } in &curve.builds {
            let index = ids.iter().position(|id| id == exchanger).unwrap_or(0);
            let (estimate, colour) = (number(point), SERIES[index % SERIES.len()]);
            let (low, high) = (self.at(point, estimate.interval.lower), self.at(point, estimate.interval.upper));
            canvas.line(low, high, colour, 2.0);
            canvas.mark(Mark(index), self.at(point, estimate.value), 4.8, colour);
        }
    }
}
