//! The fits of a trial and the random errors they leave: heat line, cooling line, local heating rate.

use super::features::{self, Capacity, Heat};
use super::slots::Slot;
use super::work::Work;
use crate::context::Context;
use crate::fact::{ScatterMethod, TrialError};
use crate::fit::{FitQuality, HeatLine, few, local, quality};
use crate::heat_path::scatter as course;
use crate::result::TrialResult;
use calefact_data::TrialKind;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::{UncertainValue, residuals};
use nalgebra::{DMatrix, DVector};

/// Fits what the kind of trial asks for and the inputs allow.
pub(crate) fn fit(work: &mut Work, context: &Context, result: &mut TrialResult) {
    let capacity = work.capacity();
    let resolution = context.errors.column("tank").map_or(0.0, |e| e.step);
    if work.row.kind == TrialKind::StandingLoss {
        cooling(work, capacity, resolution, result);
    } else {
        heat_line(work, context, capacity, resolution, result);
    }
}

fn heat_line(work: &mut Work, context: &Context, capacity: Capacity, resolution: f64, result: &mut TrialResult) {
    let at = context.settings.heating_rate_at;
    let usable = work.features.has_air() && capacity.loss.is_finite() && capacity.vessel.is_finite();
    let steady = work.fire.steady().filter(|_| usable).and_then(|part| work.inside(part));
    let heat = usable.then(|| capacity.heat(&work.window));
    let fitted = heat.as_ref().and_then(|heat| features::fit_line(&work.window, heat, steady));
    work.features.rate_at = (at, f64::NAN);
    let mut noise = None;
    if let Some(((line, slopes), heat)) = fitted.zip(heat.as_ref()) {
        let quality = judge(work, capacity, &line.residuals, line.free, resolution);
        line_noise(work, &line, capacity, resolution);
        unsteadiness(work, heat, steady, line.heat_input);
        if quality.fits {
            work.features.rate_at.1 = features::air_at_rise(&work.window, at, &slopes);
        }
        work.features.line = Some(slopes);
        work.features.line_fits = quality.fits || steady.is_some();
        if !work.features.line_fits {
            mean_flow_noise(work, heat);
        }
        let about_line =
            (quality.fits && steady.is_none()).then(|| (quality.residual_sd_k, (quality.n - line.free) as f64));
        noise = about_line;
        result.fit = Some(quality);
    }
    if !work.features.rate_from_line() {
        local_rate(work, at, resolution);
    }
    end_noise(work, noise, resolution);
}

/// Random errors of heat flow and delay, as two independent sources that reproduce their covariance.
fn line_noise(work: &mut Work, line: &HeatLine, capacity: Capacity, resolution: f64) {
    let trial = &work.row.trial;
    let scatter = scatter(&line.jacobian, &line.residuals, resolution * capacity.at(work.features.start_c));
    let c = &scatter.covariance;
    let q_sd = c[(1, 1)].max(0.0).sqrt();
    let gradient = DVector::from_column_slice(&line.delay_gradient);
    let with_q = if q_sd > 0.0 { (c * &gradient)[1] / q_sd } else { 0.0 };
    let own = ((gradient.transpose() * c * &gradient)[0] - with_q * with_q).max(0.0).sqrt();
    work.inputs.noise(Slot::LineNoise, trial, TrialError::HeatLine, q_sd, scatter.dof[1]);
    work.inputs.noise(Slot::DelayNoise, trial, TrialError::HeatLine, with_q, scatter.dof[1]);
    work.inputs.noise(Slot::DelayNoise, trial, TrialError::Delay, own, scatter.dof[line.free - 1]);
    work.inputs.scatter_method = scatter.method;
}

fn cooling(work: &mut Work, capacity: Capacity, resolution: f64, result: &mut TrialResult) {
    let usable = work.features.has_air() && capacity.vessel.is_finite();
    let Some((line, slopes)) = usable.then(|| features::fit_cooling(&work.window, capacity)).flatten() else { return };
    let quality = judge(work, capacity, &line.residuals, 2, resolution);
    let scatter = scatter(&line.jacobian, &line.residuals, resolution * capacity.at(work.features.start_c));
    let u = scatter.covariance[(1, 1)].max(0.0).sqrt();
    work.inputs.noise(Slot::LossNoise, &work.row.trial, TrialError::CoolingLine, u, scatter.dof[1]);
    work.inputs.scatter_method = scatter.method;
    let about_line = quality.fits.then_some((quality.residual_sd_k, f64::INFINITY));
    end_noise(work, about_line, resolution);
    work.features.cooling = Some(slopes);
    result.fit = Some(quality);
}

fn local_rate(work: &mut Work, at: f64, resolution: f64) {
    let Some(slope) = local::slope(&work.window, at) else { return };
    // With too few readings to show a scatter the display step over a quarter hour stands in for it.
    let floor = resolution * 2.0_f64.sqrt() / 900.0;
    let u = if slope.std_uncertainty.is_finite() { slope.std_uncertainty.max(floor) } else { floor };
    let dof = if slope.dof > 0.0 { slope.dof } else { f64::INFINITY };
    work.inputs.noise(Slot::RateNoise, &work.row.trial, TrialError::LocalSlope, u, dof);
    work.features.local_rate = Some(slope);
}

/// Random errors of the first and the last reading: the scatter about a line that fits (standard deviation and degrees of
/// freedom), else about the tank's smooth course where enough readings show one, at least the display step. Both are taken
/// from one estimate with so many degrees of freedom, so each brings half of them: together they then count once.
fn end_noise(work: &mut Work, about_line: Option<(f64, f64)>, resolution: f64) {
    // Readings that hang together tell less of a mean, but each still shows the scatter of one reading.
    let free = (work.window.len() as f64 - course::HIGHEST as f64 - 1.0).max(1.0);
    let about_course = || course::scatter(&work.window.t, &work.window.tank).map(|s| (s.sd, free));
    let found = about_line.or_else(about_course).filter(|(sd, _)| *sd > resolution);
    let (sd, dof) = found.unwrap_or((resolution, f64::INFINITY));
    for (slot, error) in [(Slot::StartNoise, TrialError::FirstReading), (Slot::EndNoise, TrialError::LastReading)] {
        if sd > 0.0 {
            work.inputs.noise(slot, &work.row.trial, error, sd, 0.5 * dof);
        }
    }
}

/// A fire is never quite steady, and where its steady part begins and ends is a choice: the heat flow of the middle
/// [`INNER`] of the part bounds what another choice would have given (rectangular, GUM 4.3.7).
fn unsteadiness(work: &mut Work, heat: &Heat, steady: Option<(f64, f64)>, heat_input: f64) {
    let Some((from, to)) = steady else { return };
    let margin = 0.5 * (1.0 - INNER) * (to - from);
    let Some(inner) = features::flow(&work.window, heat, (from + margin, to - margin)) else { return };
    let u = (inner - heat_input).abs() / 3.0_f64.sqrt();
    work.inputs.noise(Slot::LineNoise, &work.row.trial, TrialError::SteadyChoice, u, f64::INFINITY);
}

/// Where no line describes the curve the mean flow stands for it, and what it leaves open takes the place of the scatter.
fn mean_flow_noise(work: &mut Work, heat: &Heat) {
    let u = few::unevenness(&work.window.t, &heat.delivered);
    work.inputs.set(Slot::LineNoise, UncertainValue::exact(0.0));
    work.inputs.noise(Slot::LineNoise, &work.row.trial, TrialError::UnevenFlow, u, f64::INFINITY);
}

/// Share of the steady part taken as its middle.
const INNER: f64 = 0.8;

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
