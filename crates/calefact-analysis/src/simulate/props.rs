//! Stand-in.
use calefact_data::apparatus::Arrangement;
pub(super) fn water_density(t: f64) -> f64 {
    1000.0 - 0.0045 * (t - 4.0).powi(2)
}
pub(super) fn water_enthalpy(t: f64) -> f64 {
    4186.0 * t - 0.5 * t * t + 0.006 * t * t * t
}
pub(super) fn net_as_fired(q: f64, m: f64) -> f64 {
    q * (1.0 - m) - 2.443e6 * m
}
pub(super) fn effectiveness(_a: Arrangement, ntu: f64, cr: f64) -> f64 {
    let e = (-ntu * (1.0 - cr)).exp();
    (1.0 - e) / (1.0 - cr * e)
}
