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
