//! `balance`: where the fuel's energy went, one stacked bar of shares for each trial, or for each set of many trials.

use super::frame::{self, MARGIN, SIZE, SMALL};
use super::{Chart, Home};
use crate::figure::{Align, Canvas, Font, INK, MUTED, Scale, WIDTH, shorten, term_fill, width};
use crate::{ReportError, format};
use calefact_analysis::result::{Analysis, TrialResult};

/// Trials drawn one by one; more are drawn as plain means of their sets.
const MOST: usize = 16;
const ROW: f64 = 46.0;
const BAR: f64 = 20.0;

/// A bar: its name and the terms in order.
type Bar = (String, Vec<(&'static str, f64)>);

/// Draws the chart, if any trial has a balance.
pub(super) fn draw(analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let trials: Vec<&TrialResult> = analysis.trials.iter().filter(|t| !t.balance.is_empty() && t.usable()).collect();
    if trials.is_empty() {
        return Ok(None);
    }
    let factor = super::main_factor(analysis);
    let (bars, caption) = if trials.len() <= MOST { single(&trials, factor) } else { pooled(trials, factor) };
    let svg = draw_bars(&bars)?;
    Ok(Some(Chart { file: "balance.svg".to_owned(), home: Home::Balance, svg, caption: caption.to_owned() }))
}

/// One bar a trial.
fn single(trials: &[&TrialResult], factor: &str) -> (Vec<Bar>, &'static str) {
    let bar = |t: &&TrialResult| {
        let name =
            t.row.level(factor).map_or_else(|| t.row.trial.clone(), |level| format!("{} · {level}", t.row.trial));
        (name, t.balance.iter().map(|b| (b.term, b.share.value)).collect())
    };
    let caption = "Shares of the fuel's energy, trial by trial; intervals are in the balance table.";
    (trials.iter().map(bar).collect(), caption)
}

/// One bar a set of trials.
fn pooled(trials: Vec<&TrialResult>, factor: &str) -> (Vec<Bar>, &'static str) {
    let sets = super::by_set(trials.into_iter(), factor).into_iter().take(MOST);
    let caption = "Shares of the fuel's energy, plain means over the trials; each trial is in the balance table.";
    (sets.map(|(name, t)| (format!("{name} · {} trials", t.len()), mean(&t))).collect(), caption)
}

/// Plain mean of the shares of a set, term by term, over the trials that have the term.
fn mean(trials: &[&TrialResult]) -> Vec<(&'static str, f64)> {
    let mut terms: Vec<(&'static str, f64, f64)> = Vec::new();
    for term in trials.iter().flat_map(|t| &t.balance) {
        match terms.iter_mut().find(|(name, ..)| *name == term.term) {
            Some((_, sum, n)) => (*sum, *n) = (*sum + term.share.value, *n + 1.0),
            None => terms.push((term.term, term.share.value, 1.0)),
        }
    }
    terms.into_iter().map(|(term, sum, n)| (term, sum / n)).collect()
}

/// Words for a term of the balance.
pub(crate) fn words(term: &str) -> String {
    match term {
        "stored" => "into the water".to_owned(),
        "standing_loss" => "lost by the vessel".to_owned(),
        "flue_sensible" => "hot flue gas".to_owned(),
        "flue_latent" => "steam in flue gas".to_owned(),
        "flue_co" => "unburnt CO".to_owned(),
        "leftover_char" => "char left".to_owned(),
        "unaccounted" => "unaccounted".to_owned(),
        other => other.replace('_', " "),
    }
}

fn title(bars: &[Bar]) -> String {
    let into_water =
        bars.iter().flat_map(|(_, terms)| terms).filter(|(term, _)| *term == "stored").map(|(_, share)| *share);
    crate::figure::hull(into_water).map_or_else(
        || "Where the fuel's energy went".to_owned(),
        |(low, high)| {
            format!(
                "Where the fuel's energy went: {} to {} into the water",
                format::percent(low),
                format::percent(high)
            )
        },
    )
}

fn draw_bars(bars: &[Bar]) -> Result<String, ReportError> {
    let title = title(bars);
    let lines = frame::title_lines(&title);
    let scale = scale(bars);
    let labels = labels(&bars[0].1, &scale);
    let rows = labels.iter().map(|l| l.row + 1).max().unwrap_or(0);
    let top = frame::title_height(&lines) + 16.0 * rows as f64 + 8.0;
    let bottom = top + ROW * bars.len() as f64 + 2.0;
    let mut canvas = Canvas::new(bottom + 46.0);
    frame::title(&mut canvas, &lines);
    frame::x_axis(&mut canvas, &scale, (top, bottom), "Share of the fuel's energy (%)");
    for label in labels {
        let y = top - 10.0 - 16.0 * label.row as f64;
        canvas.line((label.x, y + 8.0), (label.x, top + ROW - BAR - 5.0), MUTED, 0.7);
        canvas.text(label.text, (label.from, y), Font::plain(SMALL, INK), Align::Start);
    }
    for (i, (name, terms)) in bars.iter().enumerate() {
        draw_bar(&mut canvas, name, terms, &scale, top + ROW * i as f64);
    }
    canvas.finish(&title)
}

fn scale(bars: &[Bar]) -> Scale {
    let ends = bars.iter().flat_map(|(_, terms)| {
        let positive: f64 = terms.iter().map(|t| t.1.max(0.0)).sum();
        let negative: f64 = terms.iter().map(|t| t.1.min(0.0)).sum();
        [100.0 * positive, 100.0 * negative]
    });
    Scale::around(ends.chain([0.0, 100.0]), 0.0, (MARGIN + 6.0, WIDTH - MARGIN - 8.0))
}

/// Segments of a bar: term, start and end in per cent; negative terms run to the left of zero.
fn segments(terms: &[(&'static str, f64)]) -> Vec<(&'static str, f64, f64)> {
    let (mut right, mut left) = (0.0, 0.0);
    let mut segments = Vec::with_capacity(terms.len());
    for (term, share) in terms {
        let edge = if *share < 0.0 { &mut left } else { &mut right };
        let start: f64 = *edge;
        *edge += 100.0 * share;
        segments.push((*term, start, *edge));
    }
    segments
}

/// A name above the first bar.
struct Label {
    /// Middle of the segment it names.
    x: f64,
    /// Where the words begin.
    from: f64,
    /// The words.
    text: String,
    /// Row, from the bar upwards.
    row: usize,
}

/// Names above the first bar, each in the lowest row where it meets no other name and no line that runs down to a bar.
fn labels(terms: &[(&'static str, f64)], scale: &Scale) -> Vec<Label> {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut placed = Vec::new();
    for (term, start, end) in segments(terms).into_iter().rev() {
        let x = 0.5 * (scale.at(start) + scale.at(end));
        let text = words(term);
        let room = width(&text, SMALL, false);
        let from = (x - 3.0).min(WIDTH - MARGIN - room).max(MARGIN);
        let free = |row: &[(f64, f64)]| row.iter().all(|(a, b)| from + room + 4.0 < *a || from - 4.0 > *b);
        let row = taken.iter().position(|row| free(row)).unwrap_or(taken.len());
        taken.resize_with(taken.len().max(row + 1), Vec::new);
        taken[row].push((from, from + room));
        taken[..row].iter_mut().for_each(|below| below.push((x, x)));
        placed.push(Label { x, from, text, row });
    }
    placed
}

fn draw_bar(canvas: &mut Canvas, name: &str, terms: &[(&'static str, f64)], scale: &Scale, top: f64) {
    let name = shorten(name, SIZE, true, WIDTH - 2.0 * MARGIN);
    let (y0, y1) = (top + ROW - BAR - 5.0, top + ROW - 5.0);
    let named = Font::bold(SMALL, INK);
    canvas.bar((MARGIN, top + 3.0), (MARGIN + 8.0 + width(&name, SMALL, true), y0 - 1.0), crate::figure::PAPER, 0.9);
    canvas.text(name, (MARGIN + 6.0, y0 - 9.0), named, Align::Start);
    for (term, start, end) in segments(terms) {
        let (fill, ink) = term_fill(term);
        let (a, b) = (scale.at(start.min(end)), scale.at(start.max(end)));
        canvas.bar((a, y0), (b, y1), fill, 1.0);
        canvas.line((b, y0), (b, y1), crate::figure::PAPER, 1.0);
        let share = format::fixed(end - start, 0);
        if b - a > width(&share, SMALL, false) + 6.0 {
            canvas.text(share, (0.5 * (a + b), 0.5 * (y0 + y1)), Font::plain(SMALL, ink), Align::Middle);
        }
    }
}
