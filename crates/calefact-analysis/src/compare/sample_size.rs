//! The number of further trials that would settle an open contrast.

use super::error_origin::error_origin;
use super::outcome::PairTest;
use crate::result::{ContrastKind, SampleSizeAdvice};
use calefact_stats::ErrorSources;
use calefact_stats::power::{Further, Goal, further_trials};

/// Chance of settling a real difference of the size seen that a number of further trials must give.
pub(crate) const POWER: f64 = 0.8;
/// Beyond this many further trials a group, none is advised.
const MOST_FURTHER: u32 = 60;

/// Further trials that would show a difference as large as the interval allows.
fn fewest(pair: &PairTest, lasting: f64, goal: Goal) -> u32 {
    let difference = pair.interval.lower.abs().max(pair.interval.upper.abs());
    match further_trials(pair.arms.0, pair.arms.1, lasting, Goal { difference, ..goal }) {
        Further::Each(trials) => u32::try_from(trials).unwrap_or(u32::MAX).max(1),
        Further::Never => u32::MAX,
    }
}

/// Further trials per level that would show a difference of the size seen with the chance [`POWER`] at significance `alpha`,
/// given the scatter seen and the errors that the levels do not share.
pub(crate) fn sample_size(pair: &PairTest, alpha: f64, shared: &ErrorSources) -> Option<SampleSizeAdvice> {
    if pair.kind != ContrastKind::Difference {
        return None;
    }
    let lasting = pair.shared.iter().map(|(_, p)| p * p).sum::<f64>().sqrt();
    let goal = Goal { difference: pair.test.effect.abs(), power: POWER, alpha };
    let too_many = SampleSizeAdvice::MoreThan(MOST_FURTHER);
    match further_trials(pair.arms.0, pair.arms.1, lasting, goal) {
        // The chance is high enough, and yet it did not show: one more of each is the next to make.
        Further::Each(trials) => match u32::try_from(trials.max(1)) {
            Ok(trials) if trials <= MOST_FURTHER => {
                Some(SampleSizeAdvice::Further { trials, fewest: fewest(pair, lasting, goal).min(trials) })
            }
            _ => Some(too_many),
        },
        Further::Never => {
            let top = pair.shared.iter().max_by(|x, y| x.1.abs().total_cmp(&y.1.abs()));
            let known = top.filter(|(source, _)| shared.contains_key(source));
            Some(known.map_or(too_many, |(source, _)| SampleSizeAdvice::Never(error_origin(source))))
        }
    }
}
