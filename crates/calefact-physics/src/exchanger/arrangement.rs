//! How the two streams pass each other.

/// Flow arrangement. The cross-flow forms differ by which stream is mixed, counted by its capacity rate: for a flue
/// coil the gas is nearly always the stream of least capacity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrangement {
    /// Streams run against each other.
    Counter,
    /// Streams run the same way.
    Parallel,
    /// Cross flow, the stream of least capacity rate mixed, the other unmixed.
    CrossMinMixed,
    /// Cross flow, the stream of greatest capacity rate mixed, the other unmixed.
    CrossMaxMixed,
    /// Cross flow, neither stream mixed.
    CrossUnmixed,
}

impl Arrangement {
    /// Cross flow with one stream mixed, told by which stream it is.
    pub const fn cross_mixed(hot_is_mixed: bool, hot_is_min: bool) -> Self {
        if hot_is_mixed == hot_is_min { Self::CrossMinMixed } else { Self::CrossMaxMixed }
    }

    /// The effectiveness no surface can exceed at a capacity ratio: its limit for endless NTU.
    pub fn limit(self, cr: f64) -> f64 {
        match self {
            Self::Parallel => 1.0 / (1.0 + cr),
            Self::CrossMinMixed => -(-1.0 / cr).exp_m1(),
            Self::CrossMaxMixed if cr > 0.0 => -(-cr).exp_m1() / cr,
            Self::Counter | Self::CrossUnmixed | Self::CrossMaxMixed => 1.0,
        }
    }
}
