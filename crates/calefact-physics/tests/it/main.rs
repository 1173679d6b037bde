//! The physics against published figures, closed forms and conservation laws.

mod air;
mod casing;
mod caution;
mod combustion;
mod duty;
mod exchanger;
mod flue;
mod fuel;
mod properties;
mod trade;
mod water;

/// Fails unless `actual` lies within `tolerance` of `expected`.
#[track_caller]
fn assert_near(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "{actual} is not {expected} within {tolerance}");
}
