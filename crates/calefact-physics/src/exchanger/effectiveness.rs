//! Effectiveness from size.

use super::arrangement::{Arrangement, Relation, Stream};
use super::unmixed;
use crate::PhysicsError;

/// Greatest number of transfer units asked about; beyond it the effectiveness is its limit in every digit.
pub(super) const NTU_MAX: f64 = 1000.0;

/// Effectiveness of an exchanger of `ntu` transfer units at capacity ratio `cr`, `least` being the stream of least
/// capacity rate.
///
/// Counter: (1 - E)/(1 - C_r E), E = exp(-NTU (1 - C_r)), or NTU/(1 + NTU) at C_r = 1; parallel:
/// (1 - exp(-NTU (1 + C_r)))/(1 + C_r); cross, C_max mixed: (1 - exp(-C_r (1 - exp(-NTU))))/C_r; cross, C_min mixed:
/// 1 - exp(-(1 - exp(-C_r NTU))/C_r); cross, both unmixed: Mason's series. All are 1 - exp(-NTU) at C_r = 0, where one
/// stream boils or is very large.
///
/// # Errors
/// If `ntu` is outside 0 to 1000 or `cr` outside 0 to 1.
pub fn effectiveness(ntu: f64, cr: f64, arrangement: Arrangement, least: Stream) -> Result<f64, PhysicsError> {
    let n = PhysicsError::check("number of transfer units", ntu, 0.0, NTU_MAX)?;
    let c = PhysicsError::check("ratio of capacity rates", cr, 0.0, 1.0)?;
    Ok(formula(n, c, arrangement.relation(least)))
}

/// One minus exp(-x), exact for small x.
fn rise(x: f64) -> f64 {
    -libm::expm1(-x)
}

/// The formula itself, its arguments known to be in range.
pub(super) fn formula(n: f64, c: f64, relation: Relation) -> f64 {
    match relation {
        _ if c == 0.0 => rise(n),
        Relation::Counter if c >= 1.0 => n / (1.0 + n),
        Relation::Counter => {
            let x = rise(n * (1.0 - c));
            x / (1.0 - c + c * x)
        }
        Relation::Parallel => rise(n * (1.0 + c)) / (1.0 + c),
        Relation::CrossMaxMixed => rise(c * rise(n)) / c,
        Relation::CrossMinMixed => rise(rise(c * n) / c),
        Relation::CrossUnmixed => unmixed::effectiveness(n, c),
    }
}
