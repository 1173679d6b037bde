//! One small frame of the curves: phases, readings, fit, the trial's name.

use crate::figure::{Align, Canvas, Font, GRID, INK, MUTED, Mark, PAPER, SERIES, STEADY, Scale, hull, shorten, width};
use crate::words::{DisplayUnit, Typography};
use calefact_analysis::phases::PhaseKind;
use calefact_analysis::result::TrialResult;

/// Readings up to which each is a mark; more are a line.
const FEW: usize = 14;
/// Points of a line; of more, every k-th is drawn.
const FINE: usize = 48;
/// Size of the words in a frame.
const TINY: f64 = 11.0;

/// A frame: its upper left corner, and scales relative to it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cell<'a> {
    /// Upper left corner.
    pub(super) corner: (f64, f64),
    /// Minutes to width.
    pub(super) time: Scale,
    /// Degrees shown to height.
    pub(super) heat: Scale,
    /// Unit of the temperatures shown.
    pub(super) unit: &'a DisplayUnit,
}

/// Whether a trial's fit is drawn: it has one, and it fits.
pub(super) fn fitted(trial: &TrialResult) -> bool {
    trial.curve.fitted.len() > 1 && trial.fit.as_ref().is_none_or(|f| f.fits)
}

impl Cell<'_> {
    fn at(&self, (seconds, temperature): (f64, f64)) -> (f64, f64) {
        (self.corner.0 + self.time.at(seconds / 60.0), self.corner.1 + self.heat.at(self.unit.value(temperature)))
    }

    fn place(&self, curve: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let step = curve.len().div_ceil(FINE).max(1);
        let seen: Vec<(f64, f64)> = curve.iter().copied().filter(|p| p.0.is_finite() && p.1.is_finite()).collect();
        let last = seen.last().copied();
        let mut thin: Vec<(f64, f64)> = seen.into_iter().step_by(step).collect();
        if thin.last().copied() != last {
            thin.extend(last);
        }
        thin.into_iter().map(|p| self.at(p)).collect()
    }

    /// Draws a trial; numbers of the axes at the outer frames only.
    pub(super) fn draw(&self, canvas: &mut Canvas, trial: &TrialResult, set: usize, (left, low): (bool, bool)) {
        self.ground(canvas, trial);
        self.axes(canvas, left, low);
        let readings = self.place(&trial.curve.measured);
        let colour = SERIES[set % SERIES.len()];
        if trial.readings <= FEW {
            for at in readings {
                canvas.mark(Mark(set), at, 2.8, colour);
            }
        } else {
            canvas.path(readings, colour, 2.6, 1.0);
        }
        if fitted(trial) {
            canvas.path(self.place(&trial.curve.fitted), INK, 1.0, 1.0);
        }
        self.name(canvas, trial);
    }

    fn ground(&self, canvas: &mut Canvas, trial: &TrialResult) {
        if !trial.phases.certain {
            return;
        }
        let (y0, y1) = (self.corner.1 + self.heat.range.1, self.corner.1 + self.heat.range.0);
        let steady = |k: PhaseKind| matches!(k, PhaseKind::Steady | PhaseKind::Refuel);
        for phase in trial.phases.segments.iter().filter(|p| steady(p.kind)) {
            let (a, b) = (self.at((phase.start, 0.0)).0, self.at((phase.end, 0.0)).0);
            canvas.bar((a, y0), (b, y1), STEADY, 1.0);
        }
    }

    fn axes(&self, canvas: &mut Canvas, left: bool, low: bool) {
        let (x0, x1) = (self.corner.0, self.corner.0 + self.time.range.1);
        let bottom = self.corner.1 + self.heat.range.0;
        let (ticks, places) = self.heat.ticks(3);
        for tick in ticks {
            let y = self.corner.1 + self.heat.at(tick);
            canvas.line((x0, y), (x1, y), GRID, 1.0);
            if left {
                canvas.text(Typography::Page.fixed(tick, places), (x0 - 4.0, y), Font::plain(TINY, MUTED), Align::End);
            }
        }
        canvas.line((x0, bottom), (x1, bottom), GRID, 1.0);
        let (ticks, places) = self.time.ticks(2);
        for tick in ticks.into_iter().filter(|_| low) {
            let x = self.corner.0 + self.time.at(tick);
            let align = if tick == 0.0 { Align::Start } else { Align::Middle };
            canvas.text(Typography::Page.fixed(tick, places), (x, bottom + 9.0), Font::plain(TINY, MUTED), align);
        }
    }

    /// The name stands where the curve is not: above its start if it rises, above its end if it falls.
    fn name(&self, canvas: &mut Canvas, trial: &TrialResult) {
        let curve = &trial.curve.measured;
        let rises = curve.first().zip(curve.last()).is_none_or(|(a, b)| b.1 >= a.1);
        let room = self.time.range.1;
        let name = shorten(&trial.row.trial, TINY, true, 0.7 * room);
        let long = width(&name, TINY, true);
        let y = self.corner.1 + self.heat.range.1 + 7.0;
        let high = hull(curve.iter().map(|p| p.1)).is_some_and(|(_, top)| self.heat.at(self.unit.value(top)) > 16.0);
        let x = self.corner.0 + if rises || high { 2.0 } else { room - long - 2.0 };
        canvas.bar((x - 1.0, y - 6.5), (x + long, y + 6.0), PAPER, 0.75);
        canvas.text(name, (x, y), Font::bold(TINY, INK), Align::Start);
    }
}
