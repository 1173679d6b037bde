//! The numbers of trials that the aims of a comparison take, the floor that shared errors set, and what better instruments
//! would save.

use super::known::{Known, cautious_sd};
use crate::result::{Aim, AimPlan, BurnsNeeded, ErrorOrigin, Floor, Saving};
use calefact_stats::power::{
    Goal, Needed, Scatter, narrowest_width, smallest_difference, trials_for_power, trials_for_width,
};

/// Trials that a better instrument must save to be named.
const NOTICED: f64 = 0.1;
/// Instruments named.
const MOST_NAMED: usize = 3;

/// Levels at which the verdicts and intervals of a comparison are judged.
#[derive(Debug, Clone, Copy)]
pub(super) struct Levels {
    /// Two-sided level of one difference of the main quantity.
    pub(super) verdict: f64,
    /// Level of the interval of one difference.
    pub(super) interval: f64,
}

/// The trials that an aim takes.
pub(super) fn aim_plan(known: &Known, aim: Aim, levels: Levels) -> Option<AimPlan> {
    let scatter = known.scatter?;
    let reach = match needed(aim, scatter.sd, known.lasting(None), levels) {
        Needed::Beyond => BurnsNeeded::Beyond,
        Needed::Never => BurnsNeeded::Never,
        found @ Needed::Trials(_) => {
            let cautious = cautious_sd(scatter).and_then(|sd| needed(aim, sd, known.lasting(None), levels).whole());
            BurnsNeeded::Each { trials: found.whole().unwrap_or(u32::MAX), cautious }
        }
    };
    Some(AimPlan { aim, reach })
}

fn needed(aim: Aim, sd: f64, lasting: f64, levels: Levels) -> Needed {
    let scatter = Scatter { sd, lasting };
    match aim {
        Aim::Difference { size, power, .. } => {
            trials_for_power(scatter, Goal { difference: size, power, alpha: levels.verdict })
        }
        Aim::Width { size } => trials_for_width(scatter, size, levels.interval),
    }
}

/// Limits that no number of trials improves.
pub(super) fn floor(known: &Known, power: f64, levels: Levels) -> Option<Floor> {
    known.shared.as_ref()?;
    let lasting = known.lasting(None);
    Some(Floor {
        difference: smallest_difference(lasting, power, levels.verdict),
        width: narrowest_width(lasting, levels.interval),
        largest: known.largest(),
    })
}

/// Trials for an aim that half of each shared error would save, the most first.
pub(super) fn savings(known: &Known, aim: Aim, levels: Levels) -> Vec<Saving> {
    let Some(scatter) = known.scatter else { return Vec::new() };
    let today = match needed(aim, scatter.sd, known.lasting(None), levels) {
        Needed::Trials(n) => Some(n),
        Needed::Never => None,
        Needed::Beyond => return Vec::new(),
    };
    let halved = |origin: &ErrorOrigin| match needed(aim, scatter.sd, known.lasting(Some((origin, 0.5))), levels) {
        Needed::Trials(halved) if today.is_none_or(|n| n - halved >= NOTICED) => {
            Some(Saving { origin: origin.clone(), today, halved })
        }
        _ => None,
    };
    let mut found: Vec<Saving> = known.shared.iter().flatten().filter_map(|(origin, _)| halved(origin)).collect();
    found.sort_by(|a, b| a.halved.total_cmp(&b.halved));
    found.truncate(MOST_NAMED);
    found
}
