//! Exchangers of the made-up analysis that have not been built. No number here was measured.

use super::fixture_trials::{LEVEL, estimate};
use calefact_analysis::result::{
    AreaExponent, BuildCaution, BuildCurve, BuildForecast, BuildModel, BuildOutcome, BuildPoint, Builds, BurnScatter,
    MarkedBuild, Reach,
};
use calefact_data::apparatus::Arrangement;
use calefact_physics::exchanger::BuildRatio;
use calefact_stats::Interval;

fn outcome(value: f64, unit: &'static str) -> BuildOutcome {
    let mean = estimate(value, unit, 0.04);
    let half = 1.8 * mean.interval.half_width();
    BuildOutcome { next: Some(Interval { lower: value - half, upper: value + half, confidence: LEVEL }), mean }
}

/// The helix of 6 m on the box stove with so many times its tube.
fn forecast(area: f64, power: f64, gas: f64) -> BuildForecast {
    let changed = (area - 1.0).abs() > 1e-9;
    BuildForecast {
        stove: Some("box".into()),
        exchanger: "helix-8".into(),
        ratio: BuildRatio { area, passes: 1.0, water_flow: 1.0 },
        length_m: Some(6.0 * area),
        passes: Some(1.0),
        flow_kg_s: Some(0.05),
        burns: 4,
        arrangement: Arrangement::Counter,
        effectiveness: outcome(power / 7600.0, "1"),
        power: outcome(power, "W"),
        gain: changed.then(|| outcome(power / 5200.0, "1")),
        gas_out: outcome(gas, "degC"),
        water_out: Some(outcome(20.0 + power / 209.0, "degC")),
        reach: if !changed {
            Reach::Unchanged
        } else if area > 1.0 {
            Reach::Beyond { times: 1.09 }
        } else {
            Reach::Untested
        },
        scatter: BurnScatter::Own,
        cautions: if gas < 121.0 { vec![BuildCaution::Creosote { gas_degc: gas, lowest_degc: 80.0 }] } else { vec![] },
    }
}

fn point(length_m: f64, power: f64, gas: f64) -> BuildPoint {
    BuildPoint { length_m, power: estimate(power, "W", 0.05), gas_out: estimate(gas, "degC", 0.06) }
}

/// Half, as much and twice the tube, and the curve through them.
pub(super) fn builds() -> Builds {
    let numbers = [(0.5, 3700.0, 305.0), (1.0, 5200.0, 190.0), (2.0, 6500.0, 95.0)];
    let marked = |id: &str, length, power, gas| MarkedBuild { exchanger: id.into(), point: point(length, power, gas) };
    Builds {
        model: Some(BuildModel {
            area: AreaExponent::Inferred { value: 0.78, std_uncertainty: 0.06, builds: 2, weight: 0.55 },
            span_m2: Some((0.41, 0.76)),
        }),
        forecasts: numbers.map(|(area, power, gas)| forecast(area, power, gas)).into(),
        curves: vec![BuildCurve {
            stove: Some("box".into()),
            exchanger: "helix-8".into(),
            points: numbers.map(|(area, power, gas)| point(6.0 * area, power, gas)).into(),
            builds: vec![marked("helix-8", 6.0, 5200.0, 190.0), marked("helix-12", 11.0, 6300.0, 110.0)],
        }],
        confidence: LEVEL,
        boiling_degc: 100.0,
        ..Builds::default()
    }
}
