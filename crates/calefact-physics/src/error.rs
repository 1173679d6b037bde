//! The one error of this crate: a value no formula here can answer for.

/// A quantity outside the range in which the question has an answer.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{quantity} is {value}, outside {low} to {high}")]
pub struct PhysicsError {
    /// What the value is, with its unit.
    pub quantity: &'static str,
    /// The value given or computed.
    pub value: f64,
    /// Least value that has an answer.
    pub low: f64,
    /// Greatest value that has an answer.
    pub high: f64,
}

impl PhysicsError {
    /// The value itself if it lies in `low..=high`; NaN never does.
    pub(crate) fn check(quantity: &'static str, value: f64, low: f64, high: f64) -> Result<f64, Self> {
        if (low..=high).contains(&value) { Ok(value) } else { Err(Self { quantity, value, low, high }) }
    }

    /// The value itself if it is finite and above zero.
    pub(crate) fn positive(quantity: &'static str, value: f64) -> Result<f64, Self> {
        Self::check(quantity, value, f64::MIN_POSITIVE, f64::MAX)
    }
}
