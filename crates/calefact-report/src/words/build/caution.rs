//! Dangers of a build. The limits are those of the cautions a log calls for.

use crate::words::Wording;
use calefact_analysis::result::BuildCaution;
use calefact_physics::caution::{COIL_BOIL_MARGIN, CREOSOTE_FLUE_GAS};

/// A danger of a build, as a clause.
pub(crate) fn caution(w: &Wording<'_>, caution: &BuildCaution) -> String {
    match *caution {
        BuildCaution::Creosote { gas_degc, lowest_degc } => {
            let below = format!(
                "below {}, where tar condenses as creosote, which can catch fire",
                w.temperature(CREOSOTE_FLUE_GAS, 0)
            );
            if gas_degc < CREOSOTE_FLUE_GAS {
                format!("the gas would leave at {}, {below}", w.temperature(gas_degc, 0))
            } else {
                format!("in some burns the gas would leave as cold as {}, {below}", w.temperature(lowest_degc, 0))
            }
        }
        BuildCaution::NearBoiling { water_degc, inlet_degc, boiling_degc, least_flow_kg_s } => {
            let remedy = least_flow_kg_s.map_or_else(
                || "no water flow within reason keeps it clear of that".to_owned(),
                |flow| {
                    format!(
                        "from {} of water on it stays {} clear of that",
                        w.flow(flow),
                        w.temperature_difference(COIL_BOIL_MARGIN, 0)
                    )
                },
            );
            format!(
                "a coil that boils can burst: with water of {} going in it would leave at {}, and water boils there at {}; {remedy}",
                w.temperature(inlet_degc, 0),
                w.temperature(water_degc, 0),
                w.temperature(boiling_degc, 0)
            )
        }
        BuildCaution::SlowFlow { flow_kg_s, least_flow_kg_s } => format!(
            "{} of water is so slow that the flow in the tube is laminar (below {}): it takes heat up less well than assumed, and parts \
             of the coil can boil",
            w.flow(flow_kg_s),
            w.flow(least_flow_kg_s)
        ),
    }
}
