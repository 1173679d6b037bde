//! How conductance follows the outside area: the assumed range, and what builds of different area show.
//!
//! ln UA - n ln m_gas = c_build + a ln A, n being the exponent of the gas flow. The slope a over the means of the builds is by
//! weighted least squares with the weights 1/(s^2/n + tau^2): s is the scatter of burns about the mean of their build, and tau
//! what builds differ by for other reasons. It is combined with the assumed range by weights 1/u^2.

use super::burns::MeasuredBurn;
use crate::result::{AreaExponent, BuildModel};
use crate::shared::SharedSources;
use calefact_physics::exchanger::{AREA_EXPONENT, GAS_FLOW_EXPONENT};
use std::collections::BTreeMap;

/// Relative standard deviation of the conductance of builds of one area: pitch, gap and housing differ too (common practice,
/// no source).
const BUILD_SD: f64 = 0.05;
/// Ratio of areas from which on builds show how area works.
const LEAST_SPAN: f64 = 1.25;

/// Middle of a range.
pub(super) fn middle((low, high): (f64, f64)) -> f64 {
    f64::midpoint(low, high)
}

/// Standard uncertainty of a range, any value in it being as likely: its width over the root of 12 (JCGM 100:2008, 4.3.7).
pub(super) fn spread((low, high): (f64, f64)) -> f64 {
    (high - low) / 12.0_f64.sqrt()
}

/// One build: its burns with gas flow and area.
struct Build<'b, 't> {
    log_area: f64,
    burns: Vec<&'b MeasuredBurn<'t>>,
    /// Mean of ln UA - n ln m.
    mean: f64,
    /// Sum of the squares about it.
    squares: f64,
}

impl<'b, 't> Build<'b, 't> {
    fn new(burns: Vec<&'b MeasuredBurn<'t>>) -> Self {
        let levels: Vec<f64> = burns.iter().map(|b| b.level()).collect();
        let mean = levels.iter().sum::<f64>() / levels.len() as f64;
        let squares = levels.iter().map(|level| (level - mean).powi(2)).sum();
        Self { log_area: libm::log(burns[0].area), burns, mean, squares }
    }
}

impl MeasuredBurn<'_> {
    /// ln UA - n ln m at the middle of the gas flow's exponent.
    fn level(&self) -> f64 {
        libm::log(self.conductance.value) - middle(GAS_FLOW_EXPONENT) * libm::log(self.gas_flow.value)
    }
}

/// The law from the burns whose conductance, gas flow and area are known.
pub(super) fn model(burns: &[MeasuredBurn<'_>], shared: &SharedSources) -> BuildModel {
    let (value, std_uncertainty) = (middle(AREA_EXPONENT), spread(AREA_EXPONENT));
    let builds = builds(burns);
    let areas = || builds.iter().map(|b| libm::exp(b.log_area));
    let span = areas().reduce(f64::min).zip(areas().reduce(f64::max));
    let spans = span.is_some_and(|(low, high)| high >= LEAST_SPAN * low);
    let area = slope(&builds, shared).filter(|_| spans).map_or(
        AreaExponent::Assumed { value, std_uncertainty },
        |(slope, u)| {
            let (assumed, measured) = (std_uncertainty.powi(-2), u.powi(-2));
            let weight = measured / (assumed + measured);
            AreaExponent::Inferred {
                value: weight.mul_add(slope - value, value),
                std_uncertainty: (assumed + measured).sqrt().recip(),
                builds: builds.len(),
                weight,
            }
        },
    );
    BuildModel { area, span_m2: span }
}

fn builds<'b, 't>(burns: &'b [MeasuredBurn<'t>]) -> Vec<Build<'b, 't>> {
    let mut builds: BTreeMap<&str, Vec<&'b MeasuredBurn<'t>>> = BTreeMap::new();
    for burn in burns {
        builds.entry(burn.exchanger).or_default().push(burn);
    }
    builds.into_values().map(Build::new).collect()
}

/// Slope over the builds and its standard uncertainty; `None` where all have one area.
fn slope(builds: &[Build<'_, '_>], shared: &SharedSources) -> Option<(f64, f64)> {
    let scatter = scatter(builds);
    let variance = |b: &Build<'_, '_>| BUILD_SD.mul_add(BUILD_SD, scatter / b.burns.len() as f64);
    let weight: Vec<f64> = builds.iter().map(|b| variance(b).recip()).collect();
    let total: f64 = weight.iter().sum();
    let centre = builds.iter().zip(&weight).map(|(b, w)| w * b.log_area).sum::<f64>() / total;
    let squares: f64 = builds.iter().zip(&weight).map(|(b, w)| w * (b.log_area - centre).powi(2)).sum();
    if squares <= 0.0 {
        return None;
    }
    let share: Vec<f64> = builds.iter().zip(&weight).map(|(b, w)| w * (b.log_area - centre) / squares).collect();
    let slope = builds.iter().zip(&share).map(|(b, c)| c * b.mean).sum();
    let own: f64 = builds.iter().zip(&share).map(|(b, c)| c * c * variance(b)).sum();
    let terms =
        || builds.iter().zip(&share).flat_map(|(b, c)| b.burns.iter().map(move |m| (m, c / b.burns.len() as f64)));
    let n = middle(GAS_FLOW_EXPONENT);
    let errors =
        shared
            .combined(terms().flat_map(|(m, w)| {
                [(m.conductance, w / m.conductance.value), (m.gas_flow, -n * w / m.gas_flow.value)]
            }));
    let of_exponent = spread(GAS_FLOW_EXPONENT) * terms().map(|(m, w)| w * libm::log(m.gas_flow.value)).sum::<f64>();
    let common: f64 = errors.iter().map(|(_, part)| part * part).sum();
    Some((slope, (of_exponent.mul_add(of_exponent, own) + common).sqrt()))
}

/// Variance of burns about the mean of their build; of builds of one burn each, that of the measurements themselves.
fn scatter(builds: &[Build<'_, '_>]) -> f64 {
    let freedom: usize = builds.iter().map(|b| b.burns.len() - 1).sum();
    let all = || builds.iter().flat_map(|b| &b.burns);
    if freedom > 0 {
        builds.iter().map(|b| b.squares).sum::<f64>() / freedom as f64
    } else {
        all().map(|m| (m.conductance.own / m.conductance.value).powi(2)).sum::<f64>() / all().count().max(1) as f64
    }
}
