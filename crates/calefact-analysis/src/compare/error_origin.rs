//! Which instrument or input an error source belongs to.

use crate::result::ErrorOrigin;

/// The origin of a source. An instrument's source is named `instrument:<id>:<part>`; that of any other input is known by its
/// label.
pub(crate) fn error_origin(source: &str, label: &str) -> ErrorOrigin {
    let instrument = source.strip_prefix("instrument:").and_then(|rest| rest.rsplit_once(':'));
    instrument.map_or_else(|| ErrorOrigin::Input(label.to_owned()), |(id, _)| ErrorOrigin::Instrument(id.to_owned()))
}
