//! Text of delimited files: encoding, rows and cells, headers, numbers, times. Knows nothing of trials.

mod binary;
pub(crate) mod cells;
pub(crate) mod decode;
pub(crate) mod header;
pub(crate) mod number;
pub(crate) mod sniff;

use calefact_units::UnitError;

/// Code of the finding for a unit error.
pub(crate) const fn unit_code(error: &UnitError) -> &'static str {
    match error {
        UnitError::Unknown { .. } => "unknown-unit",
        UnitError::Ambiguous { .. } => "ambiguous-unit",
        UnitError::WrongKind { .. } => "wrong-kind-of-unit",
        UnitError::NoNumber { .. } | UnitError::Comma { .. } => "not-a-quantity",
    }
}
