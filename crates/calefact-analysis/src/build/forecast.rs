//! The forecast of one build on one stove.

use super::changed::{self, Law, Target};
use super::outcome::{self, Burns, outcome};
use super::{cautions, reach};
use crate::result::{BuildForecast, Builds, MeasuredExchanger, OperatingBurn, OperatingPart as Part};
use calefact_data::apparatus::Arrangement;
use calefact_physics::exchanger::BuildRatio;
use calefact_physics::water;
use calefact_stats::Bounds;
use calefact_stats::group::Scatter;

/// Units and bounds of the outputs: effectiveness, heat into the water, gas out, water out, heat over that of the burn. Gas
/// leaves no colder than the water enters, and water no hotter than the gas.
fn units(combination: &MeasuredExchanger) -> [(&'static str, Bounds); changed::OUTPUTS] {
    let all = |part: Part| combination.burns.iter().map(move |b| b.values[part as usize]);
    let lower = all(Part::WaterIn).fold(f64::INFINITY, f64::min);
    let upper = all(Part::GasIn).fold(f64::NEG_INFINITY, f64::max);
    let temperature = Bounds { lower, upper };
    [
        ("1", Bounds::SHARE),
        ("W", Bounds::POSITIVE),
        ("degC", temperature),
        ("degC", temperature),
        ("1", Bounds::POSITIVE),
    ]
}

/// The build of the given ratios on the stove of a combination; `None` where no burn of it can be followed.
pub(super) fn forecast(builds: &Builds, combination: &MeasuredExchanger, ratio: BuildRatio) -> Option<BuildForecast> {
    let law = Law::new(builds.model.as_ref()?);
    let target = Target { ratio, beyond: reach::beyond(builds, combination, ratio.area), water_in: None };
    let burns = changed_burns(combination, &law, &target);
    let units = units(combination);
    let number = |output: usize| {
        let borrowed = if burns.len() == 1 { borrowed(builds, &law, &target, output) } else { None };
        outcome(&burns, output, borrowed, units[output], builds.confidence)
    };
    let borrowed = if burns.len() == 1 { borrowed(builds, &law, &target, 1) } else { None };
    let flow_kg_s = flow(combination).map(|flow| flow * ratio.water_flow);
    let mut forecast = BuildForecast {
        stove: combination.stove.clone(),
        exchanger: combination.exchanger.clone(),
        ratio,
        length_m: combination.length_m.map(|length| length * ratio.area),
        passes: combination.passes.map(|passes| passes * ratio.passes),
        flow_kg_s,
        burns: burns.len(),
        arrangement: combination.burns.first().map_or(Arrangement::Counter, |b| b.arrangement),
        effectiveness: number(0)?,
        power: number(1)?,
        gain: if is_change(ratio) { number(4) } else { None },
        gas_out: number(2)?,
        water_out: flow_kg_s.and_then(|_| number(3)),
        reach: reach::reach(builds, combination, ratio.area),
        scatter: outcome::origin(burns.len(), borrowed),
        cautions: Vec::new(),
    };
    let water = flow_kg_s.zip(forecast.water_out.as_ref());
    let of_water = water.map(|(flow, out)| {
        let boiling = cautions::near_boiling(builds, combination, &law, &target, flow);
        [boiling, cautions::slow_flow(combination, flow, out.mean.value)]
    });
    let creosote = cautions::creosote(&forecast.gas_out);
    forecast.cautions = creosote.into_iter().chain(of_water.into_iter().flatten().flatten()).collect();
    Some(forecast)
}

/// Whether any ratio is more than a slip of the last digit from 1.
fn is_change(ratio: BuildRatio) -> bool {
    [ratio.area, ratio.passes, ratio.water_flow].iter().any(|r| (r - 1.0).abs() > 1e-9)
}

fn changed_burns<'c>(
    combination: &'c MeasuredExchanger,
    law: &Law,
    target: &Target,
) -> Vec<(&'c OperatingBurn, changed::Changed)> {
    combination.burns.iter().filter_map(|burn| Some((burn, changed::forecast(burn, law, target)?))).collect()
}

/// Pooled scatter of an output over the combinations of two burns or more (as in the analysis of variance), each with its
/// exchanger changed in the same ratio.
fn borrowed(builds: &Builds, law: &Law, target: &Target, output: usize) -> Option<Scatter> {
    let of_combination = |c: &MeasuredExchanger| {
        let burns = changed_burns(c, law, target);
        let burns: &Burns<'_> = &burns;
        outcome::scatter(burns, output)
    };
    let scatters = builds.combinations.iter().filter(|c| c.burns.len() > 1).filter_map(of_combination);
    let (squares, dof) = scatters.fold((0.0, 0.0), |(q, f), s| (q + s.dof * s.sd * s.sd, f + s.dof));
    (dof > 0.0).then(|| Scatter { sd: (squares / dof).sqrt(), dof })
}

/// Mean water flow of the burns in which it is known, kg/s.
pub(super) fn flow(combination: &MeasuredExchanger) -> Option<f64> {
    let rates = combination.burns.iter().map(|b| {
        let inlet = b.values[Part::WaterIn as usize];
        changed::water_rate(&b.values) / water::heat_capacity(inlet)
    });
    let known: Vec<f64> = rates.filter(|flow| flow.is_finite()).collect();
    (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
}
