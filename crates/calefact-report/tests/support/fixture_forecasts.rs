//! Made-up forecasts: two stoves with one fuel, of which one has burnt with a second, and two jobs, one of which cannot be.

use calefact_analysis::result::{
    Combination, Draw, Extent, Forecast, Forecasts, JobForecast, OwnJob, Refusal, ScatterOrigin, Spread, Stretch,
    VesselDraw, VesselDraws, VesselOrigin,
};
use calefact_analysis::settings::{Job, ReferenceJob};
use calefact_stats::Interval;

fn combination(stove: &str, fuel: &str, burns: usize, burn_rate: f64) -> Combination {
    let draw = |part: f64| Draw { power: 4000.0, fixed_s: 600.0, burn_rate: burn_rate * part, moisture: f64::NAN };
    Combination {
        stove: Some(stove.into()),
        fuel: Some(fuel.into()),
        exchanger: None,
        trials: (0..burns).map(|n| format!("{stove}-{fuel}-{n}").into()).collect(),
        centre: draw(1.0),
        mean: [0.95, 1.0, 1.05].map(draw).to_vec(),
        next: [0.8, 1.0, 1.2].map(draw).to_vec(),
        scatter: ScatterOrigin::Own,
        extent: Extent { water_m3: (0.12, 0.16), stored: (2e7, 3e7), hottest: 60.0, longest_s: 9e3, load_kg: 6.0 },
        kindling_kg: 0.3,
        net_dry: 1.9e7,
        price: f64::NAN,
        vessel: "drum".into(),
        assumed: vec![],
    }
}

fn vessel() -> VesselDraws {
    let vessel = VesselDraw { capacity: 5000.0, loss: 4.0 };
    VesselDraws {
        origin: VesselOrigin::Known("drum".into()),
        centre: vessel,
        draws: [vessel; 3].into(),
        assumed: vec![],
    }
}

fn spread(value: f64) -> Spread {
    let interval = |part: f64| Interval { lower: value * (1.0 - part), upper: value * (1.0 + part), confidence: 0.95 };
    Spread { value, mean: interval(0.05), next: Some(interval(0.2)) }
}

fn forecast(wood: f64) -> Forecast {
    Forecast {
        time: spread(6600.0),
        wood: Some(spread(wood)),
        cost: None,
        refuels: Some((0, 1)),
        in_time: None,
        after_standing: None,
        curve: vec![],
        outside: vec![],
        assumed: vec![],
    }
}

/// The forecasts.
pub(crate) fn forecasts() -> Forecasts {
    let combinations = vec![
        combination("box", "pine", 3, 8e-4),
        combination("rocket", "spruce", 2, 6e-4),
        combination("box", "spruce", 4, 8e-4),
    ];
    let task = ReferenceJob { water_m3: 0.15, from: 10.0, to: 50.0, ambient: 10.0, fuel_moisture: None };
    let impossible = ReferenceJob { to: 5.0, ..task };
    let answers = [5.1, 3.8, 4.9].map(|wood| Ok(forecast(wood))).to_vec();
    Forecasts {
        jobs: vec![
            JobForecast { job: Job::new("dishes", task), vessels: vec![vessel(); 3], answers: Ok(answers) },
            JobForecast {
                job: Job::new("ice", impossible),
                vessels: vec![],
                answers: Err(Refusal::NotWarmer { from: 10.0, to: 5.0 }),
            },
        ],
        stretch: vec![Stretch { power: 0.0, burn_rate: 0.0, hot: 0.5 }; 3],
        own: OwnJob {
            boiling: 100.0,
            altitude_m: None,
            usual: vec![(vessel(), Some(0.2)); combinations.len()],
            of_its_size: vessel(),
        },
        combinations,
    }
}
