//! Codes of findings on units that cannot be read, the same for every kind of file.

use calefact_units::UnitError;

/// Code of the finding.
pub(crate) fn code(error: &UnitError) -> &'static str {
    match error {
        UnitError::Unknown { text, .. } if text.trim().is_empty() => "missing-unit",
        UnitError::Unknown { .. } => "unknown-unit",
        UnitError::Ambiguous { .. } => "ambiguous-unit",
        UnitError::WrongKind { .. } => "wrong-kind-of-unit",
        UnitError::NoNumber { .. } | UnitError::Parts { .. } | UnitError::Comma { .. } => "not-a-quantity",
    }
}
