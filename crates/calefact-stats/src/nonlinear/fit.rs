//! The fit: every start searched, the best sound optimum kept.

use super::CurveModel;
use super::covariance::{Rest, inverse_normal, refuse_saturation};
use super::polish::polish;
use super::problem::{Problem, jacobian_matrix};
use crate::fit_error::FitError;
use levenberg_marquardt::{LevenbergMarquardt, TerminationReason};
use nalgebra::{DMatrix, DVector};

/// A fitted curve.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveFit {
    /// Estimated parameters.
    pub parameters: Vec<f64>,
    /// Covariance of the parameters, s^2 (J'J)^-1. NaN throughout when no degree of freedom is left.
    pub covariance: DMatrix<f64>,
    /// Jacobian at the optimum, observations by parameters.
    pub jacobian: DMatrix<f64>,
    /// Residuals, observed minus fitted.
    pub residuals: Vec<f64>,
    /// Residual sum of squares.
    pub rss: f64,
    /// Residual standard deviation s = sqrt(rss / dof).
    pub residual_sd: f64,
    /// Degrees of freedom, observations minus parameters.
    pub dof: f64,
    /// Evaluations of the curve from the start that won.
    pub evaluations: usize,
    /// How many of the starts ended at this optimum (residual sum of squares within one part in a million).
    pub agreeing_starts: usize,
}

impl CurveFit {
    /// Standard uncertainties of the parameters.
    pub fn std_uncertainties(&self) -> Vec<f64> {
        self.covariance.diagonal().iter().map(|v| v.sqrt()).collect()
    }

    /// Standard uncertainty of a quantity derived from the parameters, given its gradient g: sqrt(g' Cov g).
    pub fn derived_uncertainty(&self, gradient: &[f64]) -> f64 {
        let g = DVector::from_column_slice(gradient);
        g.dot(&(&self.covariance * &g)).sqrt()
    }
}

/// Fits `model` to `y` from each of `starts` and keeps the sound optimum of least residual sum of squares.
///
/// # Errors
/// When the data are unusable or too few, when every search failed ([`FitError::NotConverged`]), and when the searches
/// that ended did so at false optima ([`FitError::Saturated`], [`FitError::RankDeficient`]).
pub fn fit<M: CurveModel>(model: &M, y: &[f64], starts: &[Vec<f64>]) -> Result<CurveFit, FitError> {
    check(model, y, starts)?;
    let mut sound: Vec<CurveFit> = Vec::new();
    let mut refused = FitError::NotConverged("no start was given".into());
    for start in starts {
        match search(model, y, start) {
            Ok(found) => sound.push(found),
            Err(why) => refused = worse(refused, why),
        }
    }
    let best = sound.iter().map(|f| f.rss).fold(f64::INFINITY, f64::min);
    let agreeing = sound.iter().filter(|f| f.rss <= best * (1.0 + 1e-6)).count();
    let mut winner = sound.into_iter().min_by(|a, b| a.rss.total_cmp(&b.rss)).ok_or(refused)?;
    winner.agreeing_starts = agreeing;
    Ok(winner)
}

/// A false optimum tells more than a search that failed.
fn worse(old: FitError, new: FitError) -> FitError {
    if matches!(new, FitError::NotConverged(_)) && !matches!(old, FitError::NotConverged(_)) { old } else { new }
}

fn check<M: CurveModel>(model: &M, y: &[f64], starts: &[Vec<f64>]) -> Result<(), FitError> {
    let p = model.parameters();
    if p == 0 || y.len() < p {
        return Err(FitError::TooFew { observations: y.len(), parameters: p });
    }
    if !y.iter().all(|v| v.is_finite()) {
        return Err(FitError::NotUsable("an observation"));
    }
    match starts.iter().find(|s| s.len() != p) {
        Some(s) => Err(FitError::Length { what: "start", got: s.len(), want: p }),
        None => Ok(()),
    }
}

fn search<M: CurveModel>(model: &M, y: &[f64], start: &[f64]) -> Result<CurveFit, FitError> {
    let problem = Problem { model, y, p: DVector::from_column_slice(start) };
    let solver = LevenbergMarquardt::new().with_ftol(1e-15).with_xtol(1e-15).with_gtol(1e-15).with_patience(1000);
    let (end, report) = solver.minimize(problem);
    let at_rest = report.termination.was_successful()
        || matches!(report.termination, TerminationReason::NoImprovementPossible(_));
    if !at_rest {
        return Err(FitError::NotConverged(format!("{:?}", report.termination)));
    }
    summarise(model, y, start, &polish(model, y, end.p.as_slice()), report.number_of_evaluations)
}

fn summarise<M: CurveModel>(
    model: &M,
    y: &[f64],
    start: &[f64],
    parameters: &[f64],
    evaluations: usize,
) -> Result<CurveFit, FitError> {
    let jacobian = jacobian_matrix(model, parameters, y.len());
    let mut residuals = vec![0.0; y.len()];
    model.predict(parameters, &mut residuals);
    residuals.iter_mut().zip(y).for_each(|(f, y)| *f = y - *f);
    let rss: f64 = residuals.iter().map(|r| r * r).sum();
    let dof = (y.len() - parameters.len()) as f64;
    let variance = if dof > 0.0 { rss / dof } else { f64::NAN };
    refuse_saturation(&Rest { parameters, start, jacobian: &jacobian, y, residual_sd: (rss / dof.max(1.0)).sqrt() })?;
    let covariance = inverse_normal(jacobian.clone())? * variance;
    let residual_sd = variance.sqrt();
    let parameters = parameters.to_vec();
    let agreeing_starts = 1;
    Ok(CurveFit { parameters, covariance, jacobian, residuals, rss, residual_sd, dof, evaluations, agreeing_starts })
}
