//! A build that somebody asks for, and the forecasts that answer, or why there are none.

use super::forecast::{flow, forecast};
use super::reach::{self, FARTHEST};
use crate::result::{Analysis, BuildForecast, BuildRefusal, MeasuredExchanger};
use calefact_physics::exchanger::BuildRatio;

/// Most and, as its inverse, least ratio of passes and of water flow.
const MOST: f64 = 10.0;

/// A size: as a ratio to the exchanger's own, or in absolute terms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Size {
    /// So many times the exchanger's own.
    Times(f64),
    /// Length in m, number of passes, or water flow in kg/s.
    Absolute(f64),
}

/// A build that somebody asks for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct BuildRequest {
    /// Id of the exchanger to be changed.
    pub exchanger: String,
    /// Id of a stove; all that were burnt with the exchanger where it is not given.
    pub stove: Option<String>,
    /// Length of the tube.
    pub length: Option<Size>,
    /// Number of passes.
    pub passes: Option<Size>,
    /// Water flow.
    pub flow: Option<Size>,
}

/// Forecasts of a build, one a stove.
///
/// # Errors
/// Why there is none.
pub fn answer(analysis: &Analysis, request: &BuildRequest) -> Result<Vec<BuildForecast>, BuildRefusal> {
    let builds = &analysis.builds;
    let chosen = choose(analysis, request)?;
    let ratios: Result<Vec<BuildRatio>, BuildRefusal> = chosen.iter().map(|c| ratio(c, request)).collect();
    let ratios = ratios?;
    for (combination, ratio) in chosen.iter().zip(&ratios) {
        within("length", libm::exp(reach::beyond(builds, combination, ratio.area).abs()), FARTHEST)?;
        within("passes", libm::exp(libm::log(ratio.passes).abs()), MOST)?;
        within("flow", libm::exp(libm::log(ratio.water_flow).abs()), MOST)?;
    }
    let all: Vec<BuildForecast> =
        chosen.iter().zip(ratios).filter_map(|(combination, ratio)| forecast(builds, combination, ratio)).collect();
    let not_measured = || BuildRefusal::NotMeasured { exchanger: request.exchanger.clone() };
    if all.is_empty() { Err(not_measured()) } else { Ok(all) }
}

/// The combinations of the exchanger.
fn choose<'a>(analysis: &'a Analysis, request: &BuildRequest) -> Result<Vec<&'a MeasuredExchanger>, BuildRefusal> {
    let exchanger = request.exchanger.clone();
    if analysis.exchangers.is_empty() {
        return Err(BuildRefusal::NoExchangers);
    }
    if !analysis.exchangers.contains_key(&exchanger) {
        let known = analysis.exchangers.keys().cloned().collect();
        return Err(BuildRefusal::UnknownExchanger { id: exchanger, known });
    }
    let own: Vec<&MeasuredExchanger> =
        analysis.builds.combinations.iter().filter(|c| c.exchanger == request.exchanger).collect();
    if own.is_empty() {
        return Err(BuildRefusal::NotMeasured { exchanger });
    }
    let Some(stove) = &request.stove else { return Ok(own) };
    let on_stove: Vec<&MeasuredExchanger> = own.iter().copied().filter(|c| c.stove.as_ref() == Some(stove)).collect();
    if on_stove.is_empty() {
        let known = own.iter().filter_map(|c| c.stove.clone()).collect();
        return Err(BuildRefusal::NoBurnsOnStove { stove: stove.clone(), exchanger, known });
    }
    Ok(on_stove)
}

/// The request as ratios to the exchanger of a combination.
fn ratio(combination: &MeasuredExchanger, request: &BuildRequest) -> Result<BuildRatio, BuildRefusal> {
    let stated = |key| BuildRefusal::NotStated { exchanger: request.exchanger.clone(), key };
    let own_flow =
        || flow(combination).ok_or_else(|| BuildRefusal::FlowUnknown { exchanger: request.exchanger.clone() });
    let water_flow = match request.flow {
        Some(size) => times("flow", Some(size), own_flow)?,
        None => 1.0,
    };
    Ok(BuildRatio {
        area: times("length", request.length, || combination.length_m.ok_or_else(|| stated("length")))?,
        passes: times("passes", request.passes, || combination.passes.ok_or_else(|| stated("passes")))?,
        water_flow,
    })
}

/// A size as a ratio to the exchanger's own.
fn times(
    key: &'static str,
    size: Option<Size>,
    own: impl FnOnce() -> Result<f64, BuildRefusal>,
) -> Result<f64, BuildRefusal> {
    let Some(size) = size else { return Ok(1.0) };
    let (Size::Times(value) | Size::Absolute(value)) = size;
    if !(value > 0.0 && value.is_finite()) {
        return Err(BuildRefusal::NotPositive { key, value });
    }
    match size {
        // The flow has to be known even where it is only multiplied.
        Size::Times(times) if key == "flow" => own().map(|_| times),
        Size::Times(times) => Ok(times),
        Size::Absolute(value) => Ok(value / own()?),
    }
}

/// Refuses what is too far from anything that was measured.
fn within(key: &'static str, times: f64, most: f64) -> Result<(), BuildRefusal> {
    if times <= most * (1.0 + 1e-9) { Ok(()) } else { Err(BuildRefusal::TooFar { key, times, most }) }
}
