//! Stand-in.
use calefact_data::apparatus::Arrangement;
pub(super) fn effectiveness(_a: Arrangement, ntu: f64, cr: f64) -> f64 {
    let e = (-ntu * (1.0 - cr)).exp();
    (1.0 - e) / (1.0 - cr * e)
}
