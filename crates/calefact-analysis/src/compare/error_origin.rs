//! The instrument or input that an error source belongs to.

use crate::fact::ErrorSource;
use crate::result::ErrorOrigin;

/// The origin of a source, by its key.
pub(crate) fn error_origin(source: &str) -> ErrorOrigin {
    match ErrorSource::from_key(source) {
        ErrorSource::Instrument { id, .. } => ErrorOrigin::Instrument(id),
        input => ErrorOrigin::Input(input),
    }
}
