//! The verdicts on two levels.

use serde::Serialize;

/// What can be said of a contrast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum VerdictKind {
    /// a is above b beyond doubt at the confidence asked.
    Above,
    /// a is below b.
    Below,
    /// The two do not differ by more than the stated margin.
    Equivalent,
    /// The trials made do not settle it.
    NoConclusion,
    /// Another column changes together with the factor, so that a difference may be due to either.
    Confounded,
    /// The planned number of trials is not reached, and the difference is not so clear that it is settled before.
    NotYet,
}
