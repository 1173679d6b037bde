//! `conductance-area`: conductance per square metre of tube against the build dimension in which the exchangers differ.

use super::frame::{self, MARGIN, SIZE};
use super::legend::{self, Entry};
use super::{Chart, Home};
use crate::ReportError;
use crate::figure::{Align, Canvas, Font, INK, Mark, SERIES, Scale, sieved};
use crate::words::{Measure, Wording, capital, heading, hidden_marks, list};
use calefact_analysis::Quantity;
use calefact_analysis::result::Analysis;

const LEFT: f64 = 44.0;
const PLOT: f64 = 240.0;
/// Dimensions by which a reader thinks first; others follow by name.
const FIRST: [&str; 4] = ["length", "tube_outside", "passes", "pitch"];

/// One exchanger: its dimension and the conductances found.
struct Set {
    name: String,
    size: f64,
    values: Vec<f64>,
}

impl Set {
    fn mean(&self) -> f64 {
        self.values.iter().sum::<f64>() / self.values.len().max(1) as f64
    }
}

/// Draws the chart, if conductances per area are known of two builds that differ in a dimension.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let ids = exchangers(analysis);
    let mut differing = differing(analysis, &ids).into_iter();
    let Some(dimension) = differing.next() else { return Ok(None) };
    let sets: Vec<Set> = ids.iter().filter_map(|id| set(w, analysis, id, &dimension)).collect();
    let others: Vec<String> = differing.map(|d| w.column(&d)).collect();
    let also = if others.is_empty() {
        String::new()
    } else {
        format!(
            " The builds also differ in {}: the {} alone may not explain what the chart shows.",
            list(&others),
            w.column(&dimension)
        )
    };
    let (svg, hidden) = picture(w, &sets, &dimension)?;
    let hidden = hidden_marks(hidden);
    Ok(Some(Chart {
        file: "conductance-area.svg".to_owned(),
        home: Home::Exchanger,
        svg,
        caption: format!(
            "Each mark is a trial, the stroke is their mean. The area is the outside surface of the tube.{hidden}{also}"
        ),
    }))
}

/// Exchangers with a conductance per area, in the order of first use.
fn exchangers(analysis: &Analysis) -> Vec<String> {
    let mut ids: Vec<String> = Vec::new();
    for trial in analysis.trials.iter().filter(|t| t.usable()) {
        let known = trial.get(Quantity::ExchangerConductanceArea).and(trial.level("exchanger"));
        if let Some(id) = known.filter(|id| !ids.iter().any(|i| i == id)) {
            ids.push(id.to_owned());
        }
    }
    ids
}

/// Dimensions stated for all these builds in which they are not all alike.
fn differing(analysis: &Analysis, ids: &[String]) -> Vec<String> {
    let builds: Vec<_> = ids.iter().filter_map(|id| analysis.exchangers.get(id)).map(|e| &e.build).collect();
    let Some(first) = builds.first().filter(|_| builds.len() == ids.len()) else { return Vec::new() };
    let differs = |key: &&String| {
        builds.iter().all(|b| b.contains_key(*key)) && builds.iter().any(|b| b.get(*key) != first.get(*key))
    };
    let mut found: Vec<String> = first.keys().filter(differs).cloned().collect();
    found.sort_by_key(|key| FIRST.iter().position(|f| f == key).unwrap_or(FIRST.len()));
    found
}

fn set(w: &Wording<'_>, analysis: &Analysis, id: &str, dimension: &str) -> Option<Set> {
    let size = *analysis.exchangers.get(id)?.build.get(dimension)?;
    let unit = w.unit_of_quantity(Quantity::ExchangerConductanceArea);
    let own = analysis.trials.iter().filter(|t| t.usable() && t.level("exchanger") == Some(id));
    let values = own.filter_map(|t| t.get(Quantity::ExchangerConductanceArea)).map(|v| unit.value(v.value)).collect();
    Some(Set { name: w.level("exchanger", id), size, values })
}

/// The words of a dimension's axis, and the sizes of the sets along it.
fn axis(w: &Wording<'_>, dimension: &str, sets: &[Set]) -> (String, Vec<f64>) {
    let words = capital(&w.column(dimension));
    if dimension == "passes" {
        return (words, sets.iter().map(|s| s.size).collect());
    }
    let is_long = sets.iter().any(|s| s.size >= 1.0);
    let unit = w.unit(if is_long { Measure::LongLength } else { Measure::Length });
    (heading(&words, &unit.symbol), sets.iter().map(|s| unit.value(s.size)).collect())
}

/// The picture, and how many marks are hidden by others.
fn picture(w: &Wording<'_>, sets: &[Set], dimension: &str) -> Result<(String, usize), ReportError> {
    let title = format!("Conductance per tube area, by the exchanger's {}", w.column(dimension));
    let lines = frame::title_lines(&title);
    let top = frame::title_height(&lines) + 24.0;
    let bottom = top + PLOT;
    let mut canvas = Canvas::new(bottom + 46.0);
    frame::title(&mut canvas, &lines);
    let (words, sizes) = axis(w, dimension, sets);
    let names: Vec<String> = sets.iter().map(|s| format!("{}, n = {}", s.name, s.values.len())).collect();
    let right = legend::plot_end(names.iter().map(String::as_str));
    let x = Scale::around(sizes.iter().copied(), 0.18, (LEFT, right));
    let y = Scale::around(sets.iter().flat_map(|s| s.values.iter().copied()), 0.1, (bottom, top)).with_zero();
    frame::x_axis(&mut canvas, &x, (top, bottom), &words);
    frame::y_axis(&mut canvas, &y, (LEFT, right), 5);
    let label = heading("Conductance", &w.unit_of_quantity(Quantity::ExchangerConductanceArea).symbol);
    canvas.text(label, (MARGIN, top - 14.0), Font::plain(SIZE, INK), Align::Start);
    let mut hidden = 0;
    let mut entries = Vec::new();
    for (i, ((set, size), name)) in sets.iter().zip(sizes).zip(&names).enumerate() {
        hidden += draw_set(&mut canvas, set, i, x.at(size), &y);
        entries.push(Entry { name, anchor: (x.at(size) + 8.0, y.at(set.mean())) });
    }
    legend::draw(&mut canvas, &entries, right, (top, bottom));
    Ok((canvas.finish(&title)?, hidden))
}

fn draw_set(canvas: &mut Canvas, set: &Set, index: usize, x: f64, y: &Scale) -> usize {
    let (marks, hidden) = sieved(set.values.iter().map(|value| (x, y.at(*value))).collect(), |at| *at);
    for at in marks {
        canvas.mark(Mark(index), at, 4.0, SERIES[index % SERIES.len()]);
    }
    canvas.line((x - 14.0, y.at(set.mean())), (x + 14.0, y.at(set.mean())), INK, 2.2);
    hidden
}

#[cfg(test)]
mod tests {
    use super::draw;
    use crate::fixture;
    use crate::words::Wording;

    #[test]
    fn the_caption_names_what_else_differs() {
        let mut analysis = fixture::analysis();
        let chart = draw(&Wording::plain(), &analysis).unwrap().unwrap();
        assert!(chart.svg.contains("by the exchanger's") && chart.svg.contains("helix-12"), "{}", chart.svg);
        assert!(chart.caption.contains("also differ in `passes`"), "{}", chart.caption);
        analysis.exchangers.values_mut().for_each(|e| e.build.clear());
        assert_eq!(draw(&Wording::plain(), &analysis).unwrap(), None, "builds that are not described");
    }
}
