//! What an analysis rests on that nobody recorded, for the reader.

use crate::Quantity;
use crate::fact::AssumedInput;
use calefact_stats::Estimate;
use serde::Serialize;

/// Assumed inputs, what holds whatever they are, and which of them to record next time.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Assumptions {
    /// Inputs that some estimate rests on, in the order of the table of ranges.
    pub inputs: Vec<AssumedInput>,
    /// Thermal efficiency of the levels whose leftovers nobody weighed, with nothing credited.
    pub at_least: Vec<LowerBound>,
    /// What to record next time, the most useful first.
    pub record: Vec<Recording>,
}

/// A thermal efficiency that the true one is not below: with no leftover credited.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LowerBound {
    /// Factor and level of the group.
    pub levels: Vec<(String, String)>,
    /// Mean of the uncredited thermal efficiency.
    pub efficiency: f64,
    /// Half width of its interval by the errors of measurement.
    pub half_width: f64,
}

/// What recording inputs would bring to the main quantity of a group.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Recording {
    /// Inputs to record.
    pub inputs: Vec<AssumedInput>,
    /// Quantity concerned.
    pub quantity: Quantity,
    /// Factor and level of the group.
    pub levels: Vec<(String, String)>,
    /// Its mean.
    pub mean: Estimate,
    /// The same with about the uncertainty that it would have with the inputs recorded.
    pub recorded: Estimate,
}
