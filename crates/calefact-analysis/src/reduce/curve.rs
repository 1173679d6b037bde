//! Thinning a tank curve, and drawing the fitted one, for charts.

use super::capacity::Capacity;
use super::inputs::Inputs;
use super::model::Model;
use crate::result::Curve;
use crate::series::Series;
use crate::window::Span;
use calefact_data::TrialKind;

/// Most points kept of a curve.
const MOST: usize = 160;

/// Every k-th reading of the log, the last one always kept, and the fitted curve over the window.
pub(crate) fn thin(series: &Series, span: Span, model: &Model, inputs: &Inputs) -> Curve {
    let step = series.len().div_ceil(MOST).max(1);
    let keep = (0..series.len()).filter(|i| i % step == 0 || i + 1 == series.len());
    Curve {
        measured: keep.map(|i| (series.t[i], series.tank[i])).collect(),
        fitted: fitted(span, model, inputs),
        window: (span.start, span.end),
    }
}

/// Steps of the drawn curve.
const STEPS: usize = 60;

/// The heat balance run forward from the first reading with the fitted heat flow, delay and loss.
fn fitted(span: Span, model: &Model, inputs: &Inputs) -> Vec<(f64, f64)> {
    let f = &model.features;
    let capacity = inputs.capacity(f);
    let (heat, delay, loss) = match (&f.line, &f.cooling) {
        (Some(line), _) => (line.heat_flow, line.delay, capacity.loss),
        (None, Some(c)) if model.kind == TrialKind::StandingLoss => {
            (0.0, 0.0, capacity.water_kg * c.enthalpy_slope + capacity.vessel * c.tank_slope)
        }
        _ => return Vec::new(),
    };
    let capacity = Capacity { loss, ..capacity };
    let span = f.line.as_ref().map_or(span, |l| Span { end: l.end, ..span });
    run(span, f.start_c, f.air_mean, heat, delay, capacity)
}

fn run(span: Span, start_c: f64, air: f64, heat: f64, delay: f64, capacity: Capacity) -> Vec<(f64, f64)> {
    let dt = (span.end - span.start) / STEPS as f64;
    let mut tank = start_c;
    let mut points = vec![(span.start, tank)];
    for i in 0..STEPS {
        let on = ((i as f64 + 1.0) * dt - delay).clamp(0.0, dt) / dt;
        let slope = |t: f64| (heat * on - capacity.loss * (t - air)) / capacity.at(t);
        let middle = tank + 0.5 * dt * slope(tank);
        tank += dt * slope(middle);
        points.push((span.start + (i as f64 + 1.0) * dt, tank));
    }
    points
}
