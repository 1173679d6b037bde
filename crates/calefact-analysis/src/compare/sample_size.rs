//! What would settle a contrast that is open: so many more burns, or none.

use super::advice::Origin;
use super::outcome::PairTest;
use super::sentence::noun;
use crate::result::ContrastKind;
use calefact_data::TrialKind;
use calefact_stats::ErrorSources;
use calefact_stats::power::{Further, Goal, further_trials};

/// Chance of settling a real difference of the size seen that a number of further trials must give.
pub const POWER: f64 = 0.8;
/// Beyond this many further trials a group, none is advised.
const MOST_MORE: usize = 60;

/// What would help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SampleSizeAdvice {
    /// Nothing to say.
    None,
    /// About so many more trials of each level, called burns or trials.
    More(u32, &'static str),
    /// More than is reasonable: the difference is small beside the scatter.
    Many(&'static str),
    /// No number: this shared error stays.
    Never(String, &'static str),
}

impl SampleSizeAdvice {
    /// Further trials per level that would show a difference of the size seen with the chance [`POWER`], given the scatter
    /// seen and the errors that the levels do not share.
    pub fn of(pair: &PairTest, alpha: f64, kind: TrialKind, shared: &ErrorSources) -> Self {
        if pair.kind != ContrastKind::Difference {
            return Self::None;
        }
        let lasting = pair.shared.iter().map(|(_, p)| p * p).sum::<f64>().sqrt();
        let goal = Goal::Power { difference: pair.test.effect.abs(), power: POWER, alpha };
        let noun = noun(kind);
        match further_trials(pair.arms.0, pair.arms.1, lasting, goal) {
            Further::Each(more) if (1..=MOST_MORE).contains(&more) => {
                u32::try_from(more).map_or(Self::None, |more| Self::More(more, noun))
            }
            Further::Each(0) => Self::None,
            Further::Each(_) => Self::Many(noun),
            Further::Never => largest(pair, shared).map_or(Self::Many(noun), |label| Self::Never(label, noun)),
        }
    }

    /// The number, for the table.
    pub const fn more(&self) -> Option<u32> {
        match self {
            Self::More(more, _) => Some(*more),
            _ => None,
        }
    }

    /// The end of a sentence.
    pub fn words(&self) -> String {
        match self {
            Self::None => String::new(),
            Self::More(1, noun) => format!("; if it is real, about 1 more {noun} of each would probably show it"),
            Self::More(more, noun) => {
                format!("; if it is real, about {more} more {noun}s of each would probably show it")
            }
            Self::Many(noun) => {
                format!("; a difference of this size would take more than {MOST_MORE} further {noun}s of each")
            }
            Self::Never(source, noun) => {
                format!("; more {noun}s would not settle it, because the error of {source} stays")
            }
        }
    }
}

/// The shared source with the largest part, in words.
fn largest(pair: &PairTest, shared: &ErrorSources) -> Option<String> {
    let top = pair.shared.iter().max_by(|x, y| x.1.abs().total_cmp(&y.1.abs()))?;
    shared.get(&top.0).map(|info| Origin::of(&top.0, &info.label).words())
}
