//! The fits of a trial and the random errors they leave: scatter of the readings, steady part, heating rate, cooling line.

use super::capacity::{Capacity, Heat};
use super::ends::{self, End};
use super::features;
use super::inputs::few_readings;
use super::model::FIXED_SHARE;
use super::slots::Slot;
use super::work::Work;
use crate::context::Context;
use crate::fact::{ScatterMethod, TrialError};
use crate::fit::{FitQuality, Noise, local, noise, quality};
use crate::phases::REACH;
use crate::result::TrialResult;
use calefact_data::TrialKind;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::{UncertainValue, residuals};
use nalgebra::DMatrix;

/// Fits what the kind of trial asks for and the inputs allow.
pub(crate) fn fit(work: &mut Work, context: &Context, result: &mut TrialResult) {
    let capacity = work.capacity();
    let resolution = context.tank_step();
    if work.row.kind == TrialKind::StandingLoss {
        cooling(work, capacity, resolution, result);
        return;
    }
    course(work, context);
    let usable = work.features.has_air() && capacity.loss.is_finite() && capacity.vessel.is_finite();
    let heat = usable.then(|| capacity.heat(&work.window));
    let steady = heat.as_ref().and_then(|_| work.fire.steady()).and_then(|part| work.inside(part));
    let scatter = reading_noise(work, context, resolution);
    if let Some(heat) = &heat {
        heat_line(work, heat, steady, capacity, resolution, result);
        if let Some(part) = steady {
            steady_flow(work, heat, part, capacity, &scatter);
        }
    }
    if work.features.steady.is_none() {
        fixed_share(work, context);
    }
    heating_rate(work, context, &scatter);
    end_noise(work, &scatter);
}

/// Scatter of the tank's readings: what the log shows, at least the display step. Where it shows none, the step and a share of
/// the thermometer's own uncertainty.
fn reading_noise(work: &Work, context: &Context, resolution: f64) -> Noise {
    let assumed = || Noise::known(context.assumed_scatter(work.features.end_c));
    Noise::find(&work.window.t, &work.window.tank).map_or_else(assumed, |found| found.at_least(resolution))
}

/// The heat line, for charts and for the verdict on a constant heat flow.
fn heat_line(
    work: &mut Work,
    heat: &Heat,
    steady: Option<(f64, f64)>,
    capacity: Capacity,
    resolution: f64,
    result: &mut TrialResult,
) {
    let Some((line, features)) = features::fit_line(&work.window, heat, steady) else { return };
    result.fit = Some(judge(work, capacity, &line.residuals, line.free, resolution));
    work.features.line = Some(features);
}

/// Mean heat flow over the steady part, with its two random errors: scatter of the tank at the ends, and the choice of the
/// part. The fire's strength is smoothed over a width, so that it passes 80 % up to half a width outside the plateau: each end
/// is taken half a width further in. Moved either way by what the slope of the tank reaches, each gives the half width of a
/// rectangular distribution (GUM 4.3.7).
fn steady_flow(work: &mut Work, heat: &Heat, part: (f64, f64), capacity: Capacity, noise: &Noise) {
    let (window, width) = (&work.window, work.fire.width.min(0.2 * (part.1 - part.0)));
    let end = |at: f64| End::at(window, at, width, noise);
    let (from, to) = (part.0 + 0.5 * width, part.1 - 0.5 * width);
    let Some((first, last)) = end(from).zip(end(to)) else { return };
    let flow = |first: &End, last: &End| ends::flow(window, heat, capacity, first, last);
    let whole = flow(&first, &last);
    let largest = |moved: [Option<f64>; 2]| moved.into_iter().flatten().fold(0.0, |a: f64, f| a.max((f - whole).abs()));
    let either = [-REACH * width, REACH * width];
    let start = largest(either.map(|by| Some(flow(&end(from + by)?, &last))));
    let stop = largest(either.map(|by| Some(flow(&first, &end(to + by)?))));
    let choice = libm::hypot(start, stop) / 3.0_f64.sqrt();
    let scatter = libm::hypot(first.scatter, last.scatter) * capacity.at(first.tank) / (to - from);
    let trial = &work.row.trial;
    work.inputs.noise(Slot::SteadyFlowNoise, trial, TrialError::SteadyEnds, scatter, noise.dof);
    work.inputs.noise(Slot::SteadyFlowNoise, trial, TrialError::SteadyChoice, choice, f64::INFINITY);
    work.features.steady = Some(features::steady(window, heat, (&first, &last)));
}

fn cooling(work: &mut Work, capacity: Capacity, resolution: f64, result: &mut TrialResult) {
    let usable = work.features.has_air() && capacity.vessel.is_finite();
    let Some((line, slopes)) = usable.then(|| features::fit_cooling(&work.window, capacity)).flatten() else { return };
    let quality = judge(work, capacity, &line.residuals, 2, resolution);
    let scatter = scatter(&line.jacobian, &line.residuals, resolution * capacity.at(work.features.start_c));
    let u = scatter.covariance[(1, 1)].max(0.0).sqrt();
    work.inputs.noise(Slot::LossNoise, &work.row.trial, TrialError::CoolingLine, u, scatter.dof[1]);
    work.inputs.scatter_method = scatter.method;
    work.features.cooling = Some(slopes);
    result.fit = Some(quality);
}

/// Heating rate at the stated tank temperature. The doubt about a slope between few readings has the same sign in burns that
/// are logged alike, so that it is one error of all such trials of a stove.
fn heating_rate(work: &mut Work, context: &Context, scatter: &Noise) {
    let at = context.settings.heating_rate_at;
    work.features.rate_at = at;
    let Some(found) = local::rate(&work.window, at, scatter, work.window.len() >= noise::FEW) else { return };
    let trial = &work.row.trial;
    work.inputs.noise(Slot::RateNoise, trial, TrialError::LocalSlope, found.scatter, found.dof);
    if found.secant {
        let source = few_readings(work.row, context);
        work.inputs.add(Slot::RateNoise, &source, found.bend);
    } else {
        work.inputs.noise(Slot::RateNoise, trial, TrialError::RateBend, found.bend, f64::INFINITY);
    }
    work.features.local_rate = Some(found);
}

/// Light-up and burn-down of a burn whose log does not show them: anything that stoves do (rectangular, GUM 4.3.7), alike in
/// all trials of a stove.
fn fixed_share(work: &mut Work, context: &Context) {
    let (least, most) = FIXED_SHARE;
    let source = few_readings(work.row, context);
    work.inputs.set(Slot::FixedShare, UncertainValue::exact(0.5 * (least + most)));
    work.inputs.add(Slot::FixedShare, &source, 0.5 * (most - least) / 3.0_f64.sqrt());
}

/// The course of the tank between few readings: from each to the next it may have stood still for as long a share as light-up or
/// burn-down take of a burn, first or last, which moves its mean by half of that share of the step (rectangular, GUM 4.3.7).
/// Burns that are logged alike bend alike.
fn course(work: &mut Work, context: &Context) {
    if work.window.len() < noise::FEW {
        let half_width = 0.5 * FIXED_SHARE.1 * work.window.steps_by_time();
        work.inputs.add(Slot::Course, &few_readings(work.row, context), half_width / 3.0_f64.sqrt());
    }
}

/// Random errors of the first and the last reading. Both are taken from one estimate with so many degrees of freedom, so each
/// brings half of them: together they then count once.
fn end_noise(work: &mut Work, scatter: &Noise) {
    for (slot, error) in [(Slot::StartNoise, TrialError::FirstReading), (Slot::EndNoise, TrialError::LastReading)] {
        if scatter.sd > 0.0 {
            work.inputs.noise(slot, &work.row.trial, error, scatter.sd, 0.5 * scatter.dof);
        }
    }
}

/// Covariance of a fit, the degrees of freedom by parameter, and how it was found.
struct Scatter {
    covariance: DMatrix<f64>,
    dof: Vec<f64>,
    method: ScatterMethod,
}

/// Covariance of a fit, robust to residuals that hang together. The display step (`floor`, in the unit of the residuals)
/// is the least scatter believed: what the residuals fall short of it is added as known, so that the degrees of freedom
/// rise from those of the fit, at a scatter of just the step, to infinity without any. Where no degree of freedom is left,
/// or the fit is singular, the step is the only scatter.
fn scatter(jacobian: &DMatrix<f64>, residuals: &[f64], floor: f64) -> Scatter {
    let free = jacobian.ncols();
    let sd = (residuals.iter().map(|r| r * r).sum::<f64>() / residuals.len().saturating_sub(free).max(1) as f64).sqrt();
    match residuals::robust_covariance(jacobian, residuals) {
        Ok(robust) if residuals.len() > free && sd >= floor => {
            Scatter { covariance: robust.covariance, dof: robust.dof, method: ScatterMethod::Residuals(robust.errors) }
        }
        Ok(robust) if residuals.len() > free => {
            let missing = (floor * floor - sd * sd).sqrt();
            let raised = |dof: &f64| cautious_dof([(sd, *dof), (missing, f64::INFINITY)]);
            Scatter {
                covariance: unscaled(jacobian) * (floor * floor),
                dof: robust.dof.iter().map(raised).collect(),
                method: ScatterMethod::DisplayStep,
            }
        }
        _ => Scatter {
            covariance: unscaled(jacobian) * (floor * floor),
            dof: vec![f64::INFINITY; free],
            method: ScatterMethod::DisplayStep,
        },
    }
}

/// (J'J)^-1, zero where J'J is singular.
fn unscaled(jacobian: &DMatrix<f64>) -> DMatrix<f64> {
    let free = jacobian.ncols();
    (jacobian.transpose() * jacobian).try_inverse().unwrap_or_else(|| DMatrix::zeros(free, free))
}

fn judge(work: &Work, capacity: Capacity, residuals_j: &[f64], free: usize, resolution: f64) -> FitQuality {
    let per_kelvin = capacity.at(0.5 * (work.features.start_c + work.features.end_c));
    let residuals_k: Vec<f64> = residuals_j.iter().map(|r| r / per_kelvin).collect();
    quality::judge(&residuals_k, work.features.end_c - work.features.start_c, free, resolution)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A line through 20 times 0, 1, ... 19 with residuals of 0.2 up and down by pairs: their sum is nothing, their standard
    /// deviation 0.2 (20/18)^(1/2) = 0.211. A display step of 0.3 is more than that and stands for it: the slope then has
    /// 0.3^2 / sum (t - mean)^2 = 0.09 / 665 and more degrees of freedom than 18.
    #[test]
    fn the_display_step_is_the_least_scatter_believed() {
        let jacobian = DMatrix::from_fn(20, 2, |i, j| if j == 0 { 1.0 } else { i as f64 });
        let residuals: Vec<f64> = (0..20).map(|i| if i / 2 % 2 == 0 { 0.2 } else { -0.2 }).collect();
        let seen = scatter(&jacobian, &residuals, 0.1);
        assert!(matches!(seen.method, ScatterMethod::Residuals(_)), "{:?}", seen.method);
        let hidden = scatter(&jacobian, &residuals, 0.3);
        assert_eq!(hidden.method, ScatterMethod::DisplayStep);
        assert!((hidden.covariance[(1, 1)] / (0.09 / 665.0) - 1.0).abs() < 1e-9, "{}", hidden.covariance);
        let known = scatter(&jacobian, &[0.0; 20], 0.3);
        assert!(hidden.dof[1].is_finite() && hidden.dof[1] > seen.dof[1] && known.dof[1].is_infinite());
    }

    #[test]
    fn a_singular_fit_has_no_covariance() {
        let alike = DMatrix::from_element(4, 2, 1.0);
        assert_eq!(unscaled(&alike), DMatrix::zeros(2, 2));
        let apart = DMatrix::from_row_slice(2, 2, &[2.0, 0.0, 0.0, 4.0]);
        assert_eq!(unscaled(&apart), DMatrix::from_row_slice(2, 2, &[0.25, 0.0, 0.0, 0.0625]));
    }
}
