//! How far a build lies from those that were measured.

use crate::result::{AreaExponent, Builds, MeasuredExchanger, Reach};

/// Times the greatest area that was measured, or its like below the least, up to which a forecast is given (common practice,
/// no source: the assumed range of the exponent is about coils of one kind).
pub(super) const FARTHEST: f64 = 4.0;

/// Least and greatest area that was measured over that of the changed tube's exchanger; 1 where areas are not stated.
fn span(builds: &Builds, combination: &MeasuredExchanger) -> (f64, f64) {
    let measured = builds.model.as_ref().and_then(|m| m.span_m2).zip(combination.area_m2);
    measured.map_or((1.0, 1.0), |((low, high), own)| ((low / own).min(1.0), (high / own).max(1.0)))
}

/// Logarithm of how far the area, as a ratio to the exchanger's, lies beyond the greatest that was measured; negative short of
/// the least, and 0 between.
pub(super) fn beyond(builds: &Builds, combination: &MeasuredExchanger, ratio: f64) -> f64 {
    let (low, high) = span(builds, combination);
    libm::log(ratio / ratio.clamp(low, high))
}

/// Whether the data reach so far.
pub(super) fn reach(builds: &Builds, combination: &MeasuredExchanger, ratio: f64) -> Reach {
    let inferred = builds.model.as_ref().is_some_and(|m| matches!(m.area, AreaExponent::Inferred { .. }));
    let times = libm::exp(beyond(builds, combination, ratio).abs());
    // A ratio that was worked out from a length may miss 1 in its last digit.
    if (ratio - 1.0).abs() < 1e-9 {
        Reach::Unchanged
    } else if !inferred || combination.area_m2.is_none() {
        Reach::Untested
    } else if times > 1.0 + 1e-9 {
        Reach::Beyond { times }
    } else {
        Reach::Between
    }
}
