//! The demo: a hill nursery that heats wash and propagation water with three stoves. Invented from end to end.
//!
//! No measurement stands behind any number here. The figures are of the size a builder would meet, no more.

mod apparatus;
mod design;
mod instruments;

pub(crate) use apparatus::{exchangers, fuels, stoves};
pub(crate) use design::{design, many};
pub(crate) use instruments::instruments;

use super::scenario::{LevelEffect, Scenario, Trend, VesselModel};
use calefact_data::apparatus::{Site, Stated, Vessel};

/// The nursery: stoves, fuels, exchangers, a 160 L vessel, instruments, and what each level does to the efficiency.
pub(crate) fn scenario() -> Scenario {
    Scenario {
        title: "Hill nursery wash water (invented demo)".into(),
        site: Site { name: "Hill nursery".into(), altitude_m: Some(640.0) },
        vessel: vessel(),
        stoves: stoves(),
        fuels: fuels(),
        exchangers: exchangers(),
        effects: vec![
            LevelEffect { column: "split".into(), level: "coarse".into(), efficiency: 0.0 },
            LevelEffect { column: "split".into(), level: "fine".into(), efficiency: 0.012 },
        ],
        trends: vec![Trend { column: "damper".into(), centre: 50.0, slope: -0.0006 }],
        day_sd: 0.008,
        scatter: 1.0,
        instruments: instruments(),
        heating_rate_at: 40.0,
    }
}

fn vessel() -> VesselModel {
    let entry = Vessel {
        name: "Lagged steel wash tank".into(),
        heat_capacity: Some(Stated { value: 18_000.0, std_uncertainty: Some(2_000.0) }),
        volume: Some(Stated { value: 0.160, std_uncertainty: None }),
        loss_coefficient: None,
        ..Vessel::default()
    };
    VesselModel { id: "washtank".into(), entry, loss_coefficient: 4.2 }
}
