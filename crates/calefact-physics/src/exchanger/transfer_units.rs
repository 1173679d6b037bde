//! Size from effectiveness.

use super::arrangement::{Arrangement, Relation, Stream};
use super::effectiveness::{NTU_MAX, formula};
use crate::PhysicsError;

/// Number of transfer units that gives an effectiveness at capacity ratio `cr`, `least` being the stream of least
/// capacity rate: the inverse of [`effectiveness`](super::effectiveness()).
///
/// # Errors
/// If `effectiveness` is below 0 or not below what the arrangement can reach with endless surface, or `cr` is outside
/// 0 to 1.
pub fn ntu(effectiveness: f64, cr: f64, arrangement: Arrangement, least: Stream) -> Result<f64, PhysicsError> {
    let c = PhysicsError::check("ratio of capacity rates", cr, 0.0, 1.0)?;
    let relation = arrangement.relation(least);
    let limit = relation.limit(c);
    let e = PhysicsError::check("effectiveness", effectiveness, 0.0, limit)?;
    PhysicsError::check("number of transfer units", inverse(e, c, relation), 0.0, NTU_MAX).map_err(|_| PhysicsError {
        quantity: "effectiveness",
        value: e,
        low: 0.0,
        high: limit,
    })
}

fn inverse(e: f64, c: f64, relation: Relation) -> f64 {
    match relation {
        _ if c == 0.0 => -libm::log1p(-e),
        Relation::Counter if c >= 1.0 => e / (1.0 - e),
        Relation::Counter => libm::log1p(e * (1.0 - c) / (1.0 - e)) / (1.0 - c),
        Relation::Parallel => -libm::log1p(-e * (1.0 + c)) / (1.0 + c),
        Relation::CrossMaxMixed => -libm::log1p(libm::log1p(-e * c) / c),
        Relation::CrossMinMixed => -libm::log1p(c * libm::log1p(-e)) / c,
        Relation::CrossUnmixed => bisect(e, |n| formula(n, c, relation)),
    }
}

/// Where a rising function of NTU passes `wanted`; infinity if it does not below the greatest NTU.
fn bisect(wanted: f64, rising: impl Fn(f64) -> f64) -> f64 {
    let mut high = 1.0;
    while rising(high) < wanted {
        high *= 2.0;
        if high > NTU_MAX {
            return f64::INFINITY;
        }
    }
    let mut low = 0.0;
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if rising(middle) < wanted { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}
