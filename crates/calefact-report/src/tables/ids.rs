//! Cells that hold several ids.

use calefact_analysis::fact::AssumedInput;

/// Ids of inputs, separated by blanks.
pub(super) fn ids(inputs: &[AssumedInput]) -> String {
    inputs.iter().map(|input| input.id()).collect::<Vec<_>>().join(" ")
}
