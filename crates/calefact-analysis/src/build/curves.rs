//! Heat and gas temperature against the length of the tube: one curve a stove, its builds as points.

use super::forecast::forecast;
use crate::result::{BuildCurve, BuildForecast, BuildPoint, Builds, MarkedBuild, MeasuredExchanger};
use calefact_physics::exchanger::BuildRatio;

/// Points of a curve.
const POINTS: usize = 17;
/// The curve goes on to so many times the longest build, and to its inverse of the shortest.
const FURTHER: f64 = 2.0;

/// One curve for each stove that has an exchanger of stated length.
pub(super) fn curves(builds: &Builds) -> Vec<BuildCurve> {
    let mut stoves: Vec<Option<&str>> = Vec::new();
    for combination in &builds.combinations {
        if !stoves.contains(&combination.stove.as_deref()) {
            stoves.push(combination.stove.as_deref());
        }
    }
    stoves.into_iter().filter_map(|stove| curve(builds, stove)).collect()
}

fn curve(builds: &Builds, stove: Option<&str>) -> Option<BuildCurve> {
    let own = || builds.combinations.iter().filter(|c| c.stove.as_deref() == stove && c.length_m.is_some());
    // Of equals the first: it is the exchanger that the register names first.
    let base = own().rev().max_by_key(|c| c.burns.len())?;
    let marked: Vec<MarkedBuild> = own().filter_map(|c| mark(builds, base, c)).collect();
    let lengths = || marked.iter().map(|m| m.point.length_m);
    let (shortest, longest) = lengths().reduce(f64::min).zip(lengths().reduce(f64::max))?;
    let (low, high) = (shortest / FURTHER, longest * FURTHER);
    let at = |i: usize| low + (high - low) * i as f64 / (POINTS - 1) as f64;
    let point = |i: usize| {
        let ratio = BuildRatio { area: at(i) / base.length_m?, passes: 1.0, water_flow: 1.0 };
        Some(curve_point(at(i), forecast(builds, base, ratio)?))
    };
    let points: Vec<BuildPoint> = (0..POINTS).filter_map(point).collect();
    let (stove, exchanger) = (base.stove.clone(), base.exchanger.clone());
    (points.len() > 1).then_some(BuildCurve { stove, exchanger, points, builds: marked })
}

/// A build as it was measured, at the length of the base's tube that has the same outside area.
fn mark(builds: &Builds, base: &MeasuredExchanger, combination: &MeasuredExchanger) -> Option<MarkedBuild> {
    let same = base.exchanger == combination.exchanger;
    let by_area = || Some(base.length_m? * combination.area_m2? / base.area_m2?);
    let length_m = if same { base.length_m } else { by_area() }?;
    let today = BuildRatio { area: 1.0, passes: 1.0, water_flow: 1.0 };
    let point = curve_point(length_m, forecast(builds, combination, today)?);
    Some(MarkedBuild { exchanger: combination.exchanger.clone(), point })
}

fn curve_point(length_m: f64, forecast: BuildForecast) -> BuildPoint {
    BuildPoint { length_m, power: forecast.power.mean, gas_out: forecast.gas_out.mean }
}
