//! Sizes beyond which a comparison does less, and says so: work and tables grow with the square of the levels or faster.

/// Levels up to which all pairs are compared; 60 levels make 1770 pairs.
pub(crate) const MOST_LEVELS: usize = 60;

/// Levels up to which each open pair is told how many more trials would settle it; 12 levels make 66 pairs.
pub(crate) const MOST_ADVISED: usize = 12;

/// Effects up to which a model is fitted.
pub(super) const MOST_EFFECTS: usize = 150;
