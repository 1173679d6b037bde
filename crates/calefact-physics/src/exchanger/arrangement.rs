//! How the two streams pass each other, and which relation of effectiveness and size follows.

use serde::Serialize;

/// Flow arrangement of an exchanger as it is built.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Arrangement {
    /// Streams run against each other.
    Counter,
    /// Streams run the same way.
    Parallel,
    /// Cross flow, gas mixed, water unmixed.
    CrossGasMixed,
    /// Cross flow, water mixed, gas unmixed.
    CrossWaterMixed,
    /// Cross flow, neither mixed.
    CrossUnmixed,
}

/// One of the two streams of an exchanger.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stream {
    /// Flue gas.
    Gas,
    /// Water.
    Water,
}

/// The relation of effectiveness and size: a mixed stream counts by its capacity rate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Relation {
    Counter,
    Parallel,
    /// Cross flow, the stream of least capacity rate mixed, the other unmixed.
    CrossMinMixed,
    /// Cross flow, the stream of greatest capacity rate mixed, the other unmixed.
    CrossMaxMixed,
    CrossUnmixed,
}

impl Arrangement {
    /// The relation that holds where `least` is the stream of least capacity rate.
    pub(super) const fn relation(self, least: Stream) -> Relation {
        match (self, least) {
            (Self::Counter, _) => Relation::Counter,
            (Self::Parallel, _) => Relation::Parallel,
            (Self::CrossGasMixed, Stream::Gas) | (Self::CrossWaterMixed, Stream::Water) => Relation::CrossMinMixed,
            (Self::CrossGasMixed, Stream::Water) | (Self::CrossWaterMixed, Stream::Gas) => Relation::CrossMaxMixed,
            (Self::CrossUnmixed, _) => Relation::CrossUnmixed,
        }
    }
}

impl Relation {
    /// The effectiveness that no surface can exceed at a capacity ratio: the limit for endless NTU.
    pub(super) fn limit(self, cr: f64) -> f64 {
        match self {
            Self::Parallel => 1.0 / (1.0 + cr),
            Self::CrossMinMixed => -libm::expm1(-1.0 / cr),
            Self::CrossMaxMixed if cr > 0.0 => -libm::expm1(-cr) / cr,
            Self::Counter | Self::CrossUnmixed | Self::CrossMaxMixed => 1.0,
        }
    }
}
