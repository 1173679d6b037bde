//! `conductance`: exchanger conductance against flue gas flow, so that a better coil and a hotter stove are not confused.

use super::frame::{self, MARGIN, SIZE};
use super::legend::{self, Entry};
use super::{Chart, Home};
use crate::ReportError;
use crate::figure::{Align, Canvas, Font, INK, Mark, SERIES, SOFT, Scale, sieved};
use crate::words::{DisplayUnit, Wording, heading, hidden_marks};
use calefact_analysis::Quantity;
use calefact_analysis::result::Analysis;
use calefact_analysis::shared::SharedValue;
use calefact_stats::Interval;

const LEFT: f64 = 44.0;
const PLOT: f64 = 280.0;

/// The points of one exchanger: gas flow and conductance, readable units.
struct Set {
    name: String,
    points: Vec<(Span, Span)>,
}

/// Value, lower and upper end.
type Span = (f64, f64, f64);

/// Draws the chart, if at least two trials have both quantities.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let mut sets = sets(w, analysis);
    if sets.iter().map(|s| s.points.len()).sum::<usize>() < 2 {
        return Ok(None);
    }
    let title = "How well each exchanger takes up heat, at the gas flow it had";
    let lines = frame::title_lines(title);
    let top = frame::title_height(&lines) + 24.0;
    let bottom = top + PLOT;
    let mut canvas = Canvas::new(bottom + 46.0);
    frame::title(&mut canvas, &lines);
    let right = legend::plot_end(sets.iter().map(|s| s.name.as_str()));
    let x = scale(&sets, |p| p.0, (LEFT, right));
    let y = scale(&sets, |p| p.1, (bottom, top));
    frame::x_axis(
        &mut canvas,
        &x,
        (top, bottom),
        &heading("Flue gas flow", &w.unit_of_quantity(Quantity::GasFlow).symbol),
    );
    frame::y_axis(&mut canvas, &y, (LEFT, right), 5);
    let label = heading("Conductance", &w.unit_of_quantity(Quantity::ExchangerConductance).symbol);
    canvas.text(label, (MARGIN, top - 14.0), Font::plain(SIZE, INK), Align::Start);
    let mut hidden = 0;
    for set in &mut sets {
        let (points, more) = sieved(std::mem::take(&mut set.points), |(gas, ua)| (x.at(gas.0), y.at(ua.0)));
        set.points = points;
        hidden += more;
    }
    draw_sets(&mut canvas, &sets, &x, &y);
    let svg = canvas.finish(title)?;
    let caption = format!(
        "Each mark is a trial, with its {} intervals as lines. Compare exchangers where their gas flows overlap; the higher one takes up heat better.{}",
        w.confidence(analysis.level),
        hidden_marks(hidden)
    );
    Ok(Some(Chart { file: "conductance.svg".to_owned(), home: Home::Exchanger, svg, caption }))
}

fn sets(w: &Wording<'_>, analysis: &Analysis) -> Vec<Set> {
    let mut sets: Vec<Set> = Vec::new();
    for trial in analysis.trials.iter().filter(|t| t.usable()) {
        let span = |q: Quantity| trial.spanned(q).map(|v| span(v, &w.unit_of_quantity(q)));
        let (Some(gas), Some(ua)) = (span(Quantity::GasFlow), span(Quantity::ExchangerConductance)) else { continue };
        let name = trial.level("exchanger").map_or_else(|| "exchanger".to_owned(), |id| w.level("exchanger", id));
        match sets.iter_mut().find(|s| s.name == name) {
            Some(set) => set.points.push((gas, ua)),
            None => sets.push(Set { name, points: vec![(gas, ua)] }),
        }
    }
    sets
}

fn span((known, interval): (SharedValue<'_>, Interval), unit: &DisplayUnit) -> Span {
    (unit.value(known.value), unit.value(interval.lower), unit.value(interval.upper))
}

fn scale(sets: &[Set], pick: fn(&(Span, Span)) -> Span, range: (f64, f64)) -> Scale {
    let spans = sets.iter().flat_map(|s| &s.points).map(pick);
    Scale::around(spans.flat_map(|s| [s.0, s.1, s.2]), 0.05, range).not_below_zero()
}

fn draw_sets(canvas: &mut Canvas, sets: &[Set], x: &Scale, y: &Scale) {
    for (gas, ua) in sets.iter().flat_map(|s| &s.points) {
        canvas.line((x.at(gas.1), y.at(ua.0)), (x.at(gas.2), y.at(ua.0)), SOFT, 0.9);
        canvas.line((x.at(gas.0), y.at(ua.1)), (x.at(gas.0), y.at(ua.2)), SOFT, 0.9);
    }
    let rightmost = |s: &Set| {
        s.points
            .iter()
            .copied()
            .max_by(|a, b| a.0.0.total_cmp(&b.0.0))
            .map_or((0.0, 0.0), |p| (x.at(p.0.0), y.at(p.1.0)))
    };
    let entries: Vec<Entry<'_>> = sets.iter().map(|s| Entry { name: &s.name, anchor: rightmost(s) }).collect();
    for (i, set) in sets.iter().enumerate() {
        set.points
            .iter()
            .for_each(|(gas, ua)| canvas.mark(Mark(i), (x.at(gas.0), y.at(ua.0)), 5.0, SERIES[i % SERIES.len()]));
    }
    legend::draw(canvas, &entries, x.range.1, (y.range.1, y.range.0));
}
